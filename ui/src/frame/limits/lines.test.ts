import { describe, expect, it } from "vitest";
import { shippedLimits } from "../../../dev/limits";
import { type Draft, draftOf, isChanged, isEmpty, type LimitLine, linesOf, readLine, shippedOf, withLines } from "./lines";

const { shipped, rows } = shippedLimits();
const lines = linesOf(shipped, rows);
function line(key: string): LimitLine {
  const found = lines.find((each) => each.key === key);
  if (!found) throw new Error(`no line ${key}`);
  return found;
}
function written(key: string, cells: Record<string, string>, more: Partial<Draft> = {}): Draft {
  const draft = draftOf(line(key));
  return { ...draft, cells: { ...draft.cells, ...cells }, ...more };
}

it("makes a line of every limit and of every line of the tables", () => {
  expect(lines.map(({ key }) => key)).toEqual(["kerf_mm", "oxford_group_change", "cuff_margins[0]", "antibiotics[0]", "local_anaesthetics[0]", "local_anaesthetics[1]"]);
  expect(line("kerf_mm").about).toBe("width of the saw cut");
  expect(draftOf(line("antibiotics[0]")).cells).toMatchObject({ window_min: "60", dose_mg_per_kg: "" });
});

it("finds the shipped line whatever its place", () => {
  const moved = { ...line("local_anaesthetics[1]"), key: "local_anaesthetics[7]" };
  expect(shippedOf(moved, lines)?.key).toBe("local_anaesthetics[1]");
});

it("knows what was changed and what is not filled", () => {
  expect(isChanged(written("kerf_mm", {}), line("kerf_mm"))).toBe(false);
  expect(isChanged(written("kerf_mm", { value: "1.3" }), line("kerf_mm"))).toBe(true);
  expect(isChanged(written("kerf_mm", {}, { source: "ours" }), line("kerf_mm"))).toBe(true);
  expect(isEmpty(written("local_anaesthetics[1]", {}))).toBe(true);
  expect(isEmpty(written("local_anaesthetics[1]", { cap_mg: "150" }))).toBe(false);
});

describe("reading", () => {
  const ours = { source: "Theatre protocol 2026", kind: "common_practice" as const };
  function refuses(key: string, draft: Draft, part: string) {
    const read = readLine(line(key), line(key), draft);
    expect(read.is === "trouble" ? read.sentence : "read", part).toContain(part);
  }

  it("takes a number with its new source", () => {
    const read = readLine(line("kerf_mm"), line("kerf_mm"), written("kerf_mm", { value: "1,3 mm" }, ours));
    expect(read).toEqual({ is: "line", values: { value: 1.3 }, source: { title: "Theatre protocol 2026", year: null, kind: "common_practice", place: "" } });
  });

  it("keeps the source as it is where nobody touched it", () => {
    const read = readLine(line("kerf_mm"), line("kerf_mm"), written("kerf_mm", {}));
    expect(read).toEqual({ is: "line", values: { value: 1 }, source: shipped.kerf_mm.source });
  });

  it("reads a number that has no unit", () => {
    const read = readLine(line("oxford_group_change"), line("oxford_group_change"), written("oxford_group_change", {}));
    expect(read.is === "line" && read.values).toEqual({ value: 9 });
  });

  it("leaves empty what may be empty", () => {
    const read = readLine(line("local_anaesthetics[1]"), line("local_anaesthetics[1]"), written("local_anaesthetics[1]", {}));
    expect(read.is === "line" && read.values).toEqual({ mg_per_kg: null, cap_mg: null });
  });

  it("says which line cannot be read", () => {
    refuses("kerf_mm", written("kerf_mm", { value: "wide" }, ours), "Width of the saw cut: “wide” is not a number");
    refuses("kerf_mm", written("kerf_mm", { value: "" }, ours), "write a number");
    refuses("kerf_mm", written("kerf_mm", { value: "-1" }, ours), "0 or more");
    refuses("kerf_mm", written("kerf_mm", { value: "1.3" }), "no longer that of its source");
    refuses("kerf_mm", written("kerf_mm", { value: "1.3" }, { ...ours, source: " " }), "where the number comes from");
    refuses("local_anaesthetics[1]", written("local_anaesthetics[1]", { cap_mg: "150" }), "no longer that of its source");
    refuses("antibiotics[0]", written("antibiotics[0]", { window_min: "" }, ours), "Cefazolin: before the incision");
  });
});

it("puts lines into a copy", () => {
  const source = { title: "ours", year: null, kind: "common_practice" as const, place: "" };
  const after = withLines(shipped, [{ key: "antibiotics[0]", values: { dose_mg: null }, source }, { key: "kerf_mm", values: { value: 1.3 }, source }]);
  expect(after.antibiotics[0]).toMatchObject({ drug: "cefazolin", dose_mg: null, window_min: 60, source });
  expect(after.kerf_mm).toEqual({ value: 1.3, source });
  expect(shipped.kerf_mm.value, "the original stays").toBe(1);
});
