// The limits as lines that can be written on: plain limits, and the lines of their tables. Knows no screen.
import { type Answer, type Answers, itemOf, record } from "../../entry/paths";
import { readNumber } from "../../entry/reading";
import { capital } from "../../entry/words";
import { sourceText } from "../../reckonings/line";
import type { LimitRow } from "../../types/LimitRow";
import type { Limits } from "../../types/Limits";
import type { Source } from "../../types/Source";
import type { SourceKind } from "../../types/SourceKind";

export type Cell = { name: string; words: string; unit: string; needed: boolean; value: number | null };
export type Table = "plain" | "cuff_margins" | "antibiotics" | "local_anaesthetics";
/** One limit: `key` is its path in the limits. */
export type LimitLine = { key: string; table: Table; about: string; cells: Cell[]; source: Source };
/** A line as it is being written. */
export type Draft = { cells: Record<string, string>; source: string; kind: SourceKind };
export type ReadLine = { is: "line"; values: Record<string, number | null>; source: Source } | { is: "trouble"; sentence: string };

const cell = (name: string, words: string, unit: string, value: number | null, needed = false): Cell => ({ name, words, unit, value, needed });

/** Gives the lines of all limits, the plain ones in the order of their rows. */
export function linesOf(limits: Limits, rows: readonly LimitRow[]): LimitLine[] {
  const plain = rows.flatMap(({ name, about, unit }): LimitLine[] => {
    const limit = (limits as unknown as Record<string, unknown>)[name];
    if (typeof limit !== "object" || limit === null || !("value" in limit)) return [];
    const { value, source } = limit as { value: number; source: Source };
    return [{ key: name, table: "plain", about, source, cells: [cell("value", "", unit ?? "", value, true)] }];
  });
  const cuff = limits.cuff_margins.map(({ up_to_mmhg, margin_mmhg, source }, place): LimitLine => ({
    key: itemOf("cuff_margins", place),
    table: "cuff_margins",
    about: up_to_mmhg === null ? "any higher occlusion pressure" : `occlusion pressure up to ${up_to_mmhg} mmHg`,
    cells: [cell("margin_mmhg", "", "mmHg", margin_mmhg, true)],
    source,
  }));
  const antibiotics = limits.antibiotics.map((line, place): LimitLine => ({
    key: itemOf("antibiotics", place),
    table: "antibiotics",
    about: line.drug,
    cells: [
      cell("window_min", "before the incision, at most", "min", line.window_min, true),
      cell("dose_mg", "dose", "mg", line.dose_mg),
      cell("dose_mg_per_kg", "dose by weight", "mg/kg", line.dose_mg_per_kg),
      cell("heavy_from_kg", "other dose from", "kg", line.heavy_from_kg),
      cell("heavy_dose_mg", "other dose", "mg", line.heavy_dose_mg),
      cell("redose_min", "redosing interval", "min", line.redose_min),
    ],
    source: line.source,
  }));
  const anaesthetics = limits.local_anaesthetics.map((line, place): LimitLine => ({
    key: itemOf("local_anaesthetics", place),
    table: "local_anaesthetics",
    about: `${line.drug} ${line.with_adrenaline ? "with" : "without"} adrenaline`,
    cells: [cell("mg_per_kg", "greatest dose", "mg/kg", line.mg_per_kg), cell("cap_mg", "and at most", "mg", line.cap_mg)],
    source: line.source,
  }));
  return [...plain, ...cuff, ...antibiotics, ...anaesthetics];
}

/** Finds the shipped line that belongs to one of the notebook's. */
export function shippedOf(line: LimitLine, shipped: readonly LimitLine[]): LimitLine | undefined {
  return shipped.find(({ table, key, about }) => table === line.table && (table === "plain" ? key === line.key : about === line.about));
}

/** Gives a line as it is first written into its boxes. */
export function draftOf(line: LimitLine): Draft {
  const cells = Object.fromEntries(line.cells.map(({ name, value }) => [name, value === null ? "" : String(value)]));
  return { cells, source: sourceText(line.source), kind: line.source.kind };
}

function sameNumbers(one: Draft, other: Draft): boolean {
  return Object.keys(one.cells).every((name) => one.cells[name]?.trim() === other.cells[name]?.trim());
}

function sameSource(one: Draft, other: Draft): boolean {
  return one.source.trim() === other.source.trim() && one.kind === other.kind;
}

/** Says whether a line is not as it was shipped. */
export function isChanged(draft: Draft, shipped: LimitLine): boolean {
  const asShipped = draftOf(shipped);
  return !sameNumbers(draft, asShipped) || !sameSource(draft, asShipped);
}

/** Says whether no number of a line is filled. */
export function isEmpty(draft: Draft): boolean {
  return Object.values(draft.cells).every((text) => text.trim() === "");
}

/** Reads a line as it was written. A number that is not the shipped one must not keep the shipped one's source. */
export function readLine(line: LimitLine, shipped: LimitLine | undefined, draft: Draft): ReadLine {
  const trouble = (sentence: string): ReadLine => ({ is: "trouble", sentence: `${capital(nameOf(line))}: ${sentence}` });
  const values: Record<string, number | null> = {};
  for (const { name, words, unit, needed } of line.cells) {
    const before = words === "" ? "" : `${words}: `;
    const read = readNumber(draft.cells[name] ?? "", { whole: false, unit, limits: null });
    if (read.is === "unread") return trouble(before + read.sentence);
    if (read.is === "nothing" && needed) return trouble(`${before}write a number.`);
    const value = read.is === "answer" && typeof read.answer === "number" ? read.answer : null;
    if (value !== null && value < 0) return trouble(`${before}write a number, 0 or more.`);
    values[name] = value;
  }
  const asShipped = shipped === undefined ? undefined : draftOf(shipped);
  if (asShipped && !sameNumbers(draft, asShipped) && sameSource(draft, asShipped)) {
    return trouble("the number is no longer that of its source. Write where the new one comes from.");
  }
  const title = draft.source.trim().replace(/\s+/g, " ");
  if (title === "") return trouble("write where the number comes from.");
  const kept = [line, shipped].find((each) => each !== undefined && sameSource(draft, draftOf(each)))?.source;
  return { is: "line", values, source: kept ?? { title, year: null, kind: draft.kind, place: "" } };
}

/** Names a line in a sentence. */
export function nameOf({ table, about }: LimitLine): string {
  return table === "cuff_margins" ? `cuff margin, ${about}` : about;
}

/** Puts lines that were read into a copy of the limits. */
export function withLines(limits: Limits, lines: readonly { key: string; values: Record<string, number | null>; source: Source }[]): Limits {
  const copy = structuredClone(limits);
  for (const { key, values, source } of lines) {
    for (const [name, value] of Object.entries(values)) record(copy as unknown as Answers, `${key}.${name}`, value);
    record(copy as unknown as Answers, `${key}.source`, source as unknown as Answer);
  }
  return copy;
}
