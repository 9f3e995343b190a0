// The one sentence about a batch.
import type { BatchReport } from "../../../types/BatchReport";

const counted = (count: number, one: string, more: string) => (count === 1 ? `One ${one}` : `${count} ${more}`);

/** Says how many papers of how many cases were written, and whether it was stopped. */
export function headline({ written, failed, cancelled }: BatchReport): string {
  const cases = new Set(written.map(({ id }) => id)).size;
  const done = written.length === 0 ? "No paper was written." : `${counted(written.length, "paper", "papers")} of ${cases === 1 ? "one case" : `${cases} cases`} ${written.length === 1 ? "was" : "were"} written.`;
  const stopped = cancelled ? (written.length === 0 ? " It was stopped." : " Then it was stopped; what was written stays.") : "";
  return done + stopped + (failed.length > 0 ? ` ${failed.length === 1 ? "One" : failed.length} could not be written; the others did not wait for ${failed.length === 1 ? "it" : "them"}.` : "");
}
