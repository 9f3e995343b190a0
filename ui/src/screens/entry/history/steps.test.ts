import { expect, it } from "vitest";
import type { Change, HistoryStep } from "#bridge";
import { filtered, grouped } from "./steps";

const change = (path: string, before: unknown, now: unknown): Change => ({ path, labels: [path], before, now, unit: null, kind: { is: "text" } });
const step = (at: string, more: Partial<HistoryStep> = {}): HistoryStep => ({
  node: at, at: `2026-03-04T${at}`, by: "Dr. A", kind: "draft", number: 1, text: null, changes: [], branch: "ours", ...more,
});

function check(steps: HistoryStep[], expected: string[][], reason: string) {
  expect(grouped(steps).map(({ steps: inside }) => inside.map(({ node }) => node)), reason).toEqual(expected);
}

it("folds the drafts of one person within ten minutes", () => {
  check([step("10:12"), step("10:05"), step("10:02")], [["10:12", "10:05", "10:02"]], "ten minutes from the newest to the oldest");
  check([step("10:13"), step("10:05"), step("10:02")], [["10:13", "10:05"], ["10:02"]], "eleven minutes");
  check([step("10:05"), step("10:04", { by: "Dr. B" }), step("10:03")], [["10:05"], ["10:04"], ["10:03"]], "somebody else");
  check([step("10:05", { kind: "signed" }), step("10:04")], [["10:05"], ["10:04"]], "a signature stands alone");
  check([step("10:05"), step("10:04", { branch: "theirs" })], [["10:05"], ["10:04"]], "the other computer");
  check([], [], "nothing yet");
});

it("says what a group changed in the end", () => {
  const [group] = grouped([
    step("10:03", { changes: [change("a", "two", "three"), change("b", "x", null)] }),
    step("10:02", { changes: [change("a", "one", "two"), change("b", null, "x")] }),
  ]);
  expect(group?.changes, "b came and went").toEqual([change("a", "one", "three")]);
});

it("filters by person, by signature and by words", () => {
  const steps = [step("10:05", { kind: "addendum", text: "Lot corrected" }), step("10:03", { by: "Dr. B", changes: [change("lot", "A", "B"), change("side", null, "left")] }), step("10:02")];
  const nodes = (filter: Parameters<typeof filtered>[1]) => filtered(steps, filter).map(({ node }) => node);
  expect(nodes({ by: "Dr. B", signedOnly: false, text: "" })).toEqual(["10:03"]);
  expect(nodes({ by: "", signedOnly: true, text: "" })).toEqual(["10:05"]);
  expect(nodes({ by: "", signedOnly: false, text: "LOT" })).toEqual(["10:05", "10:03"]);
  expect(filtered(steps, { by: "", signedOnly: false, text: "side" })[0]?.changes.map(({ path }) => path), "only the change that was looked for").toEqual(["side"]);
});
