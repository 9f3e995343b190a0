// Answers as the words that a person reads: for headings, items of lists and choices.
import type { Field } from "../types/Field";
import type { Kind } from "../types/Kind";
import { type Answer, type Answers, answerAt, steps } from "./paths";

/** Sets the first letter large, except where the word is an abbreviation (eGFR); the program's words are fit for the middle of a sentence. */
export function capital(words: string): string {
  if (/^\p{Ll}\p{Lu}/u.test(words)) return words;
  return words.charAt(0).toLocaleUpperCase("en") + words.slice(1);
}

/** Sets the first letter small, except where the word is an abbreviation. */
export function small(words: string): string {
  return /^\p{Lu}\p{Ll}/u.test(words) ? words.charAt(0).toLocaleLowerCase("en") + words.slice(1) : words;
}

/** Gives the words for one answer; nothing recorded gives an empty text. */
export function wordsOf(answer: Answer | undefined, kind: Kind): string {
  if (answer === undefined || answer === null || typeof answer === "object") return "";
  if (kind.is === "code") return kind.codes.find((code) => code.code === answer)?.words ?? String(answer);
  if (typeof answer === "boolean") return answer ? "yes" : "no";
  return kind.is === "time" ? String(answer).replace("T", " ") : String(answer).trim();
}

/** Gives the title of one item of a list: its first few answers that are not yes or no. */
export function titleOf(item: Answer | undefined, fields: readonly Field[], most = 3): string {
  if (typeof item !== "object" || item === null || Array.isArray(item)) return "";
  return fields
    .filter((field) => ["code", "text", "date", "time"].includes(field.kind.is))
    .map((field) => wordsOf(item[field.name], field.kind))
    .filter((words) => words !== "")
    .slice(0, most)
    .map(capital)
    .join(" · ");
}

/** Finds the field that a path names, whatever the places in its lists. */
export function fieldAt(dictionary: readonly Field[], path: string): Field | undefined {
  let fields: readonly Field[] = dictionary;
  let found: Field | undefined;
  for (const step of steps(path)) {
    if (typeof step === "number") continue;
    found = fields.find((field) => field.name === step);
    let kind = found?.kind;
    while (kind?.is === "list") kind = kind.of;
    fields = kind?.is === "record" ? kind.fields : [];
  }
  return found;
}

/** Gives the words of the answer at a path of the entry. */
export function wordsAt(answers: Answers, dictionary: readonly Field[], path: string): string {
  const field = fieldAt(dictionary, path);
  return field === undefined ? "" : wordsOf(answerAt(answers, path), field.kind);
}

/** The patient's name, family name first; empty where neither is recorded. */
export function nameOf(answers: Answers): string {
  return ["patient.family_name", "patient.given_name"]
    .map((path) => answerAt(answers, path))
    .filter((part) => typeof part === "string" && part.trim() !== "")
    .join(", ");
}
