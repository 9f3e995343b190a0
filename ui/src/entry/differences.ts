// What differs between two versions of an entry, answer by answer, in the order of the dictionary.
import type { Case } from "../types/Case";
import type { Field } from "../types/Field";
import type { Kind } from "../types/Kind";
import { type Answer, type Answers, below, itemOf } from "./paths";
import { capital, wordsOf } from "./words";

/** One answer of two versions; an empty text where nothing is recorded. */
export type Difference = { path: string; labels: string[]; one: string; other: string };

/** Gives every answer that differs; none where the two versions are equal. */
export function differences(one: Case, other: Case, dictionary: readonly Field[]): Difference[] {
  const found: Difference[] = [];
  records(one as unknown as Answers, other as unknown as Answers, dictionary, "", [], found);
  return found;
}

type Holder = { [name: string]: Answer } | undefined;
const holder = (answer: Answer | undefined): Holder => (typeof answer === "object" && answer !== null && !Array.isArray(answer) ? answer : undefined);
const listed = (answer: Answer | undefined): Answer[] => (Array.isArray(answer) ? answer : []);

function records(one: Holder, other: Holder, fields: readonly Field[], path: string, labels: string[], found: Difference[]): void {
  for (const field of fields) answers(one?.[field.name], other?.[field.name], field.kind, below(path, field.name), [...labels, field.label], field.unit, found);
}

function answers(one: Answer | undefined, other: Answer | undefined, kind: Kind, path: string, labels: string[], unit: string | null, found: Difference[]): void {
  if (kind.is === "record") return records(holder(one), holder(other), kind.fields, path, labels, found);
  if (kind.is === "list") {
    const [ones, others] = [listed(one), listed(other)];
    for (let place = 0; place < Math.max(ones.length, others.length); place++) {
      answers(ones[place], others[place], kind.of, itemOf(path, place), [...labels, `no. ${place + 1}`], unit, found);
    }
    return;
  }
  const [before, now] = [shownAs(one, kind, unit), shownAs(other, kind, unit)];
  if (before !== now) found.push({ path, labels, one: before, other: now });
}

/** Gives the words of one answer with its unit; an empty text where nothing is recorded. */
export function shownAs(answer: unknown, kind: Kind | null, unit: string | null): string {
  if (answer === undefined || answer === null) return "";
  if (kind === null || typeof answer === "object") return typeof answer === "string" ? answer : told(answer as Answer);
  const words = wordsOf(answer as Answer, kind);
  return unit === null || words === "" ? capitalCode(words, kind) : `${words} ${unit}`;
}

function capitalCode(words: string, kind: Kind): string {
  return kind.is === "code" || kind.is === "yes_no" ? capital(words) : words;
}

/** A whole record or list that came or went, told by its plain answers. */
function told(answer: Answer): string {
  if (Array.isArray(answer)) return answer.map(told).join("; ");
  if (typeof answer === "object" && answer !== null) return Object.values(answer).map(told).filter((words) => words !== "").join(" · ");
  if (typeof answer === "boolean") return answer ? "yes" : "no";
  return answer === null ? "" : String(answer).replaceAll("_", " ");
}
