// The papers, pages and formats that the window offers, with the words for them.
import type { PageSize, PaperFormat, PaperKind } from "#bridge";

export const KINDS: readonly { kind: PaperKind; words: string }[] = [
  { kind: "operative-note", words: "Operative note" },
  { kind: "discharge-letter", words: "Discharge letter" },
];

export const PAGES: readonly { page: PageSize; words: string }[] = [
  { page: "a4", words: "A4" },
  { page: "letter", words: "Letter" },
];

export const FORMATS: readonly { format: PaperFormat; words: string }[] = [
  { format: "pdf", words: "PDF" },
  { format: "md", words: "Markdown" },
  { format: "txt", words: "Plain text" },
  { format: "html", words: "HTML" },
];
