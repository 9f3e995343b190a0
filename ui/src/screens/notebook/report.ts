// What came of an exchange, a check or a restored backup, in words.
import type { ExchangeReport, RestoreReport, VerifyReport } from "#bridge";

function counted(count: number, words: string): string[] {
  return count === 0 ? [] : [`${count} ${words}`];
}

/** Tells how many cases were new, newer, equal, older, or changed on both sides. */
export function told(report: ExchangeReport): string {
  const parts = [
    ...counted(report.new, "new"),
    ...counted(report.newer, "brought up to date"),
    ...counted(report.same, "the same"),
    ...counted(report.older, "older than here and left alone"),
    ...counted(report.conflicts.length, "changed on both computers"),
  ];
  const from = `Written by ${report.written_by} on ${report.written_at.slice(0, 10)}.`;
  return parts.length === 0 ? `${from} There is no case in this file.` : `${from} Cases: ${parts.join(", ")}.`;
}

/** Gives a count with its word, such as `one case` or `2 cases`. */
export function of(count: number, one: string, many = `${one}s`): string {
  return count === 1 ? `one ${one}` : `${count} ${many}`;
}

/** Tells what a check looked at. */
export function lookedAt({ entries, signed, addenda, steps, papers, pages }: VerifyReport): string {
  return [of(entries, "case"), of(signed, "signed version"), of(addenda, "addendum", "addenda"), of(steps, "saved version"), of(papers, "kept paper"), of(pages, "page of the file", "pages of the file")].join(", ");
}

/** Tells what is in a restored notebook. */
export function restored({ cases, signed, drafts, addenda, papers, people, newest_saved_at }: RestoreReport): string {
  const last = newest_saved_at === null ? "" : `, last saved ${newest_saved_at.slice(0, 10)}`;
  return `${of(cases, "case")} (${signed} signed, ${of(drafts, "draft")}), ${of(addenda, "addendum", "addenda")}, ${of(papers, "kept paper")}, ${of(people, "person", "people")}${last}`;
}
