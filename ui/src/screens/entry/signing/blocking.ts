// What stands in the way of signing: findings that block, and what was typed but could not be read.
import type { Place } from "#bridge";
import type { Unread } from "../../../entry/open.svelte";
import type { Finding } from "../../../types/Finding";

/** Gives the places in the way; what is unreadable comes first, because signing would lose it. */
export function blocking(findings: readonly Finding[], unread: Readonly<Record<string, Unread>>): Place[] {
  const lost = Object.entries(unread).map(([path, { typed, sentence }]) => ({ path, message: `“${typed}” could not be read. ${sentence}` }));
  const found = findings.filter(({ blocks }) => blocks).map(({ paths, message }) => ({ path: paths[0] ?? "", message }));
  return [...lost, ...found];
}
