// The papers, languages, sheets and formats that the window offers, with the words for them, and which go together.
import type { PageSize, PaperChoice, PaperFormat, PaperKind, PaperLanguage } from "#bridge";

export const KINDS: readonly { kind: PaperKind; words: string }[] = [
  { kind: "operative-note", words: "Operative note" },
  { kind: "discharge-letter", words: "Discharge letter" },
  { kind: "clinician-letter", words: "Clinician letter" },
  { kind: "component-record", words: "Component record" },
  { kind: "addendum", words: "Addendum" },
];

/** Each language has its own name for itself. */
export const LANGUAGES: readonly { language: PaperLanguage; words: string; english: string }[] = [
  { language: "en", words: "English", english: "English" },
  { language: "de", words: "Deutsch", english: "German" },
  { language: "es", words: "Español", english: "Spanish" },
];

const PAGES: readonly { page: PageSize; words: string }[] = [
  { page: "a4", words: "A4" },
  { page: "letter", words: "Letter" },
  { page: "wallet", words: "Wallet" },
];

export const FORMATS: readonly { format: PaperFormat; words: string }[] = [
  { format: "pdf", words: "PDF" },
  { format: "md", words: "Markdown" },
  { format: "txt", words: "Plain text" },
  { format: "html", words: "HTML" },
];

/** Says whether patients and their doctors are given this paper, so that it can be printed without reading the entry. */
export function isForPatients(kind: PaperKind): boolean {
  return kind !== "operative-note" && kind !== "addendum";
}

export function kindWords(kind: PaperKind): string {
  return KINDS.find((each) => each.kind === kind)?.words ?? kind;
}

export function languageWords(language: PaperLanguage): string {
  return LANGUAGES.find((each) => each.language === language)?.words ?? language;
}

/** Only the letter to the patient is written in several languages. */
export function languagesOf(kind: PaperKind): typeof LANGUAGES {
  return kind === "discharge-letter" ? LANGUAGES : LANGUAGES.slice(0, 1);
}

/** The wallet sheet holds components and nothing else. */
export function pagesOf(kind: PaperKind): typeof PAGES {
  return PAGES.filter(({ page }) => page !== "wallet" || kind === "component-record");
}

/** Makes a choice of which the parts go together, keeping as much of it as can be kept. */
export function fitted({ kind, language, page, addendum }: PaperChoice): PaperChoice {
  return {
    kind,
    language: languagesOf(kind).some((each) => each.language === language) ? language : "en",
    page: pagesOf(kind).some((each) => each.page === page) ? page : "a4",
    addendum: kind === "addendum" ? addendum : null,
  };
}
