// What stands in the way of signing: findings that block, usual answers that nobody confirmed, and what was typed but could
// not be read.
import type { Finding, OverrideAsked, Place } from "#bridge";
import type { Unread } from "../../../entry/open.svelte";
import { type Answers, listAt } from "../../../entry/paths";

/** The rule that speaks of usual answers; they are confirmed section by section and never signed in spite of. */
const UNCONFIRMED = "unconfirmed_answers";

/** A finding that may be signed in spite of, with the reason that is being written. */
export type Overridable = { rule: string; paths: string[]; message: string; reason: string };

/** Gives the places in the way; what is unreadable comes first, because signing would lose it. */
export function blocking(findings: readonly Finding[], unread: Readonly<Record<string, Unread>>): Place[] {
  const lost = Object.entries(unread).map(([path, { typed, sentence }]) => ({ path, message: `“${typed}” could not be read. ${sentence}` }));
  const found = findings
    .filter((finding) => finding.blocks && !finding.overridable && finding.rule !== UNCONFIRMED)
    .map(({ paths, message }) => ({ path: paths[0] ?? "", message }));
  return [...lost, ...found];
}

/** Gives the findings that stop a signature unless somebody says why it is right all the same. */
export function overridable(findings: readonly Finding[]): Overridable[] {
  return findings
    .filter((finding) => finding.blocks && finding.overridable)
    .map(({ rule, paths, message }) => ({ rule, paths, message, reason: "" }));
}

/** Gives the sections into which usual answers were filled and that nobody confirmed. */
export function unconfirmed(answers: Answers): string[] {
  const confirmed = listAt(answers, "confirmed");
  return listAt(answers, "filled").filter((name): name is string => typeof name === "string" && !confirmed.includes(name));
}

/** What is sent with the signature, once every reason is written; undefined while one is missing. */
export function reasons(asked: readonly Overridable[]): OverrideAsked[] | undefined {
  if (asked.some(({ reason }) => reason.trim() === "")) return undefined;
  return asked.map(({ rule, paths, reason }) => ({ rule, paths: [...paths], reason: reason.trim() }));
}
