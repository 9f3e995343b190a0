// A template that is being worked on: its text, how it looks on a case, what is wrong with it, and saving it.
// The template in force changes only when a save or a restore is done.
import { desk, type PageSize, troubleOf } from "#bridge";
import { Latest } from "../../entry/latest";
import { paperChoice } from "../../frame/remembered";
import type { WordingAsked } from "../../frame/shell.svelte";
import { fitted, kindWords, languageWords } from "../../papers/kinds";
import type { Case } from "../../types/Case";
import type { Flaw } from "../../types/Flaw";
import type { Reading } from "../../types/Reading";
import type { TemplateText } from "../../types/TemplateText";
import type { Tried } from "../../types/Tried";
import type { ViewName } from "../../types/ViewName";
import { flawOf, together } from "./editor/places";

/** Milliseconds after the last key before the template is tried again. */
export const TRY_MS = 250;

/** The name to save under. Own wording never begins under the built-in name, so that the papers tell them apart. */
function nameFor({ kind, language, name, own }: TemplateText): string {
  const words = `Own ${kindWords(kind).toLowerCase()}`;
  return own ? name : language === "en" ? words : `${words}, ${languageWords(language)}`;
}

type Kept = Pick<WordingAsked, "kind" | "language">;

export class Drafting {
  readonly kind: Kept["kind"];
  readonly language: Kept["language"];
  readonly page: PageSize;
  inForce: TemplateText | undefined = $state.raw();
  source = $state("");
  /** The name that the paper prints. */
  name = $state("");
  /** The case that the template is tried on. */
  tryOn: Case | undefined = $state.raw();
  names: ViewName[] = $state.raw([]);
  /** The last preview that could be made; it stays while the text has flaws. */
  html = $state("");
  /** The cautions that the program puts into the letter, as they read for the case. */
  cautions = $state("");
  unfinished: string[] = $state.raw([]);
  reading: Reading | null = $state.raw(null);
  /** Whether the preview shows the text as it stands. */
  fresh = $state(false);
  trouble = $state("");
  /** What the last act did, in a sentence. */
  done = $state("");
  /** Whether the last save was refused and the text has not changed since. */
  refused = $state(false);
  busy = $state(false);
  #found: Flaw[] = $state.raw([]);
  #refusals: Flaw[] = $state.raw([]);
  #trying: Latest<Tried>;
  /** Told a text that did not come from the editor. */
  #ontext: (text: string) => void = () => undefined;

  constructor({ kind, language }: Kept) {
    this.kind = kind;
    this.language = language;
    this.page = fitted({ ...paperChoice.get(), kind, language, addendum: null }).page;
    this.#trying = new Latest(TRY_MS, () => this.#try(), (tried) => this.#take(tried), (thrown) => (this.trouble = troubleOf(thrown).message));
  }

  readonly unsaved: boolean = $derived(this.inForce !== undefined && (this.source !== this.inForce.source || this.name.trim() !== nameFor(this.inForce)));
  /** Everything that is wrong, each place and sentence once, in the order of the text. */
  readonly flaws: Flaw[] = $derived(together(this.#found, this.#refusals));

  /** Tells a text that is to be shown in place of what the editor holds. */
  ontext(told: (text: string) => void): void {
    this.#ontext = told;
  }

  /** Loads the template in force and, where there is one, a case to try it on. */
  async start(tryOn: string | undefined): Promise<void> {
    await this.#attempt(async () => {
      this.#adopt(await desk.templateShow(this.kind, this.language));
      const id = tryOn ?? (await desk.casesFind(""))[0]?.id;
      await this.chooseCase(id);
    });
  }

  stop(): void {
    this.#trying.stop();
  }

  /** Tries the template on a case; where the notebook has none, on an empty one that is never saved. */
  async chooseCase(id: string | undefined): Promise<void> {
    await this.#attempt(async () => {
      const { case: chosen } = id === undefined ? await desk.caseNew() : await desk.caseShow(id);
      this.tryOn = chosen;
      void this.#trying.now();
      this.names = await desk.templateNames(chosen, this.kind);
      if (this.kind === "discharge-letter") {
        this.cautions = (await desk.templateTry(chosen, this.kind, this.language, "@cautions\n", this.page)).html ?? "";
      }
    });
  }

  /** Takes the text as the person has it now. */
  edit(text: string): void {
    this.source = text;
    this.fresh = false;
    this.#touched();
    this.#trying.change();
  }

  /** Tries the text again although it has not changed: the settings of the papers have. */
  again(): void {
    void this.#trying.now();
  }

  rename(name: string): void {
    this.name = name;
    this.#touched();
  }

  /** Saves; a refused text stays in the editor with its places, and what was in force stays in force. */
  async save(): Promise<void> {
    if (this.busy || !this.unsaved) return;
    this.busy = true;
    this.#touched();
    const { source } = this;
    try {
      const text = await desk.templateSave(this.kind, this.language, this.name.trim(), source);
      // What was typed while the save was on its way stays.
      this.inForce = text;
      this.name = text.name;
      this.done = `Saved as version ${text.version}. Papers made from now on read like this.`;
    } catch (thrown) {
      const { code, message, places } = troubleOf(thrown);
      this.refused = code === "refused";
      this.#refusals = places.map(flawOf);
      // The places say it all; without one, such as for a name, the sentence does.
      this.trouble = places.length > 0 ? `${places.length === 1 ? "one flaw is" : `${places.length} flaws are`} listed below.` : message;
    }
    this.busy = false;
  }

  /** Puts an earlier version, or the built-in template, in force again. */
  async restore(version: number | null): Promise<void> {
    this.#touched();
    await this.#attempt(async () => {
      this.#adopt(await desk.templateRestore(this.kind, this.language, version));
      this.done = version === null ? "The built-in wording is in force again." : `The wording of version ${version} is in force again.`;
    });
  }

  #adopt(text: TemplateText): void {
    const source = text.source.replaceAll("\r\n", "\n");
    this.inForce = { ...text, source };
    this.source = source;
    this.name = nameFor(text);
    this.#ontext(source);
    void this.#trying.now();
  }

  async #try(): Promise<Tried> {
    if (this.tryOn === undefined) return { html: null, flaws: [], unfinished: [], reading: null };
    return desk.templateTry(this.tryOn, this.kind, this.language, this.source, this.page);
  }

  #take({ html, flaws, unfinished, reading }: Tried): void {
    this.#found = flaws;
    if (html === null) return;
    this.html = html;
    this.fresh = true;
    this.unfinished = unfinished;
    this.reading = reading;
  }

  /** What was said about the text before does not hold for the one that comes. */
  #touched(): void {
    this.trouble = "";
    this.done = "";
    this.refused = false;
    this.#refusals = [];
  }

  async #attempt(act: () => Promise<void>): Promise<void> {
    try {
      await act();
    } catch (thrown) {
      this.trouble = troubleOf(thrown).message;
    }
  }
}
