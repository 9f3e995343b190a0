// The templates of the stand-in program: it fills in the names that it knows and finds those that it does not.
import type { PaperKind, PaperLanguage } from "../src/bridge/desk";
import { type Answers, answerAt } from "../src/entry/paths";
import type { Flaw } from "../src/types/Flaw";
import type { Reading } from "../src/types/Reading";
import type { TemplateLine } from "../src/types/TemplateLine";
import type { TemplateText } from "../src/types/TemplateText";
import type { TemplateVersion } from "../src/types/TemplateVersion";
import type { Tried } from "../src/types/Tried";
import type { ViewName } from "../src/types/ViewName";

const KNOWN: readonly { name: string; meaning: string }[] = [
  { name: "patient.family_name", meaning: "Family name" },
  { name: "patient.given_name", meaning: "Given name" },
  { name: "setting.operation_date", meaning: "Day of the operation, in the clinic's habit" },
  { name: "knee.side", meaning: "Side in words" },
  { name: "choice.procedure", meaning: "What was done" },
];
const PAPERS: readonly [PaperKind, PaperLanguage][] = [
  ["operative-note", "en"],
  ["discharge-letter", "en"],
  ["discharge-letter", "de"],
  ["discharge-letter", "es"],
  ["clinician-letter", "en"],
  ["component-record", "en"],
  ["addendum", "en"],
];

/** The names of the view with their examples from a case. */
export function names(answers: Answers): ViewName[] {
  return KNOWN.map(({ name, meaning }) => ({ name, what: "text", meaning, example: String(answerAt(answers, name) ?? "") || null }));
}

/** Figures that follow the number of letters, so that a test can move them. */
export function reading(text: string): Reading {
  return {
    flesch_kincaid_grade: 4 + text.length / 100,
    smog_grade: 7.2,
    limits: { flesch_kincaid_grade: 6, smog_grade: 8 },
    words: text.split(/\s+/).length,
    sentences: 3,
    costly: [{ text: "An invented sentence of considerable complexity.", words: 6, hard_words: ["considerable", "complexity"] }],
    formulas: [{ name: "Invented grade", formula: "letters / 100 + 4", source: "An invented book, 2001, page 7" }],
  };
}

function builtIn(kind: PaperKind, language: PaperLanguage): string {
  const head = `{#- The ${kind} of the stand-in (${language}). -#}\n# ${kind}, {{ knee.side }} knee\n`;
  const letter = "Dear {{ patient.given_name }},\n\n@cautions\n\n{% if setting.operation_date %}- **When:** {{ setting.operation_date }}{% endif %}\n";
  return head + (kind === "discharge-letter" ? letter : "{{ patient.family_name }}\n");
}

function flawsOf(source: string): Flaw[] {
  return source.split("\n").flatMap((line, at) =>
    [...line.matchAll(/\{\{\s*([\w.]+)/g)].flatMap((found): Flaw[] => {
      const name = found[1] ?? "";
      if (KNOWN.some((known) => known.name === name)) return [];
      const near = KNOWN.find((known) => known.name.startsWith(name.slice(0, 6)));
      const column = found.index + found[0].length - name.length + 1;
      return [{ line: at + 1, column, message: `There is nothing called ${name}.`, hint: near ? `Did you mean ${near.name}?` : null }];
    }),
  );
}

const escaped = (text: string) => text.replace(/[&<>]/g, (letter) => `&#${letter.charCodeAt(0)};`);
const CAUTIONS = '<aside class="boxed"><p><strong>Call an ambulance at once</strong></p><ul><li>if you cough up blood</li></ul></aside>';

function written(answers: Answers, source: string): string {
  const filled = source
    .replaceAll(/\{#[\s\S]*?#\}\n?/g, "")
    .replaceAll(/\{%[^%]*%\}/g, "")
    .replaceAll(/\{\{\s*([\w.]+)[^}]*\}\}/g, (_, name: string) => String(answerAt(answers, name) ?? ""));
  return escaped(filled)
    .split("\n")
    .map((line) => (line === "@cautions" ? CAUTIONS : line.startsWith("# ") ? `<h1>${line.slice(2)}</h1>` : `<p>${line}</p>`))
    .join("");
}

type Own = Omit<TemplateVersion, "in_force">;

export class Shelf {
  #now: string;
  #own = new Map<string, Own[]>();
  #inForce = new Map<string, number>();

  constructor(now: string) {
    this.#now = now;
  }

  lines(): TemplateLine[] {
    return PAPERS.map(([kind, language]) => {
      const { name, version, own } = this.show(kind, language);
      return { kind, language, name, version, own, saved_at: own ? this.#now : null, by: own ? "Dr. M. Demo" : null };
    });
  }

  show(kind: PaperKind, language: PaperLanguage): TemplateText {
    const key = `${kind}.${language}`;
    const built_in = builtIn(kind, language);
    const found = this.#own.get(key)?.find(({ version }) => version === this.#inForce.get(key));
    const { name, version, source } = found ?? { name: language === "en" ? kind : key, version: 1, source: built_in };
    return { kind, language, name, version, own: found !== undefined, source, built_in };
  }

  try(answers: Answers, language: PaperLanguage, source: string): Tried {
    const flaws = flawsOf(source);
    const html = flaws.length > 0 ? null : written(answers, source);
    return { html, flaws, unfinished: [], reading: html !== null && language === "en" ? reading(source) : null };
  }

  save(kind: PaperKind, language: PaperLanguage, name: string, source: string): TemplateText {
    const flaws = flawsOf(source);
    // The real program also writes the paper of every invented case before it keeps a template.
    if (source.includes("only on other cases")) flaws.push({ line: 2, column: 1, message: "It fails on the case “stiff-valgus-knee”.", hint: null });
    if (flaws.length > 0) {
      const places = flaws.map(({ line, column, message }) => ({ path: `${line}:${column}`, message }));
      throw { code: "refused", message: "The template cannot be used.", places };
    }
    const key = `${kind}.${language}`;
    const there = this.#own.get(key) ?? [];
    const version = there.length + 1;
    this.#own.set(key, [...there, { version, name, saved_at: this.#now, by: "Dr. M. Demo", source }]);
    this.#inForce.set(key, version);
    return this.show(kind, language);
  }

  history(kind: PaperKind, language: PaperLanguage): TemplateVersion[] {
    const key = `${kind}.${language}`;
    return (this.#own.get(key) ?? []).map((own) => ({ ...own, in_force: own.version === this.#inForce.get(key) }));
  }

  restore(kind: PaperKind, language: PaperLanguage, version: number | null): TemplateText {
    if (version === null) this.#inForce.delete(`${kind}.${language}`);
    else this.#inForce.set(`${kind}.${language}`, version);
    return this.show(kind, language);
  }
}
