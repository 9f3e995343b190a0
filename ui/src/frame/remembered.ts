// Small choices that the window keeps between starts. Nothing from an entry is ever kept here.
import type { PageSize, PaperKind } from "#bridge";

const NOTEBOOK = "evengap.notebook";
const KIND = "evengap.paper.kind";
const PAGE = "evengap.paper.page";

/** Path of the person's own notebook, as it was last opened. */
export const lastNotebook = {
  get: (): string => localStorage.getItem(NOTEBOOK) ?? "",
  keep: (path: string): void => localStorage.setItem(NOTEBOOK, path),
};

export const paperChoice = {
  kind: (): PaperKind => (localStorage.getItem(KIND) === "discharge-letter" ? "discharge-letter" : "operative-note"),
  page: (): PageSize => (localStorage.getItem(PAGE) === "letter" ? "letter" : "a4"),
  keep(kind: PaperKind, page: PageSize): void {
    localStorage.setItem(KIND, kind);
    localStorage.setItem(PAGE, page);
  },
};
