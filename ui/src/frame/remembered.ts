// Small choices that the window keeps between starts. Nothing from an entry is ever kept here.
import type { PaperChoice } from "#bridge";
import { LANGUAGES } from "../papers/kinds";

const NOTEBOOK = "evengap.notebook";
const KIND = "evengap.paper.kind";
const LANGUAGE = "evengap.paper.language";
const PAGE = "evengap.paper.page";

/** Path of the person's own notebook, as it was last opened. */
export const lastNotebook = {
  get: (): string => localStorage.getItem(NOTEBOOK) ?? "",
  keep: (path: string): void => localStorage.setItem(NOTEBOOK, path),
};

function kept<Value extends string>(key: string, known: readonly Value[]): Value | undefined {
  const found = localStorage.getItem(key);
  return known.find((value) => value === found);
}

/** Which paper stands beside the entry. The addendum is not kept: few entries have one. */
export const paperChoice = {
  get: (): PaperChoice => ({
    kind: kept(KIND, ["discharge-letter", "clinician-letter", "component-record"]) ?? "operative-note",
    language: kept(LANGUAGE, LANGUAGES.map(({ language }) => language)) ?? "en",
    page: kept(PAGE, ["letter", "wallet"]) ?? "a4",
    addendum: null,
  }),
  keep({ kind, language, page }: PaperChoice): void {
    if (kind === "addendum") return;
    localStorage.setItem(KIND, kind);
    localStorage.setItem(LANGUAGE, language);
    localStorage.setItem(PAGE, page);
  },
};
