// What goes on around an open entry: it is saved, reviewed, and its paper is written again as answers change.
import { desk, type OverrideAsked, type PaperChoice, troubleOf, type Entry } from "#bridge";
import { Autosave, type SaveState } from "../../entry/autosave";
import { Latest } from "../../entry/latest";
import { OpenEntry } from "../../entry/open.svelte";
import { paperChoice } from "../../frame/remembered";
import { fitted } from "../../papers/kinds";
import { Margin } from "../../reckonings/margin.svelte";
import type { AddendumLine } from "../../types/AddendumLine";
import type { Case } from "../../types/Case";
import type { Field } from "../../types/Field";
import type { Preview } from "../../types/Preview";

/** Milliseconds after the last change before the paper is written again. */
export const PAPER_MS = 150;

export class EntrySession {
  readonly opened: Entry;
  readonly entry: OpenEntry;
  readonly margin: Margin;
  saved: SaveState = $state.raw({ is: "waiting" });
  paper: Preview | undefined = $state.raw();
  /** Why the paper could not be written; the last one stays. */
  paperTrouble = $state("");
  /** What was asked for last; a paper that lacks the language or the sheet is shown in one that it has. */
  #wanted: PaperChoice = $state.raw(paperChoice.get());
  readonly choice: PaperChoice = $derived(fitted(this.#wanted));
  /** What was added to a signed entry so far. */
  addenda: AddendumLine[] = $state.raw([]);
  /** The text of the addendum that is being written; undefined while none is. */
  adding: string | undefined = $state();
  /** Whether answers were changed for the addendum. */
  changed = $state(false);
  /** Somebody else saved this entry meanwhile; nothing more is saved until a person has chosen. */
  clash = $state(false);
  /** The stored version that the answers on the screen are based on; null where nothing is stored yet. */
  #version: string | null;
  #writes: boolean;
  #autosave: Autosave;
  #paper: Latest<Preview>;

  /** `writes` says whether the person may change a draft at all; `whose` is that person's mark. */
  constructor(opened: Entry, dictionary: readonly Field[], writes = true, whose = "") {
    this.opened = opened;
    this.#writes = writes;
    this.entry = new OpenEntry(opened, dictionary, whose);
    this.margin = new Margin(this.entry);
    this.#version = opened.version === "" ? null : opened.version;
    this.saved = { is: "saved", at: opened.saved_at ?? "" };
    this.#autosave = new Autosave({
      save: () => this.#save(),
      show: (state) => (this.saved = state),
      reason: (thrown) => troubleOf(thrown).message,
    });
    this.#paper = new Latest(
      PAPER_MS,
      () => desk.paperPreview(this.current(), this.choice),
      (paper) => {
        this.paper = paper;
        this.paperTrouble = "";
      },
      (thrown) => (this.paperTrouble = troubleOf(thrown).message),
    );
    this.entry.onchange(() => {
      this.changed = true;
      if (!this.signed) this.#autosave.change();
      this.#paper.change();
      this.margin.change();
    });
  }

  /** Signs what is on the screen; one in which nothing was changed is signed as it was opened, to the letter. */
  async sign(overrides: OverrideAsked[] = []): Promise<Entry> {
    return await desk.caseSign(this.changed ? this.entry.snapshot() : this.opened.case, overrides);
  }

  /** Notes that the person has looked at the usual answers of a section. */
  confirm(section: string): void {
    const confirmed = this.entry.list("confirmed");
    if (!confirmed.includes(section)) this.entry.set("confirmed", [...confirmed, section]);
  }

  /** The entry as it goes to the papers. One that is signed goes as it was signed, to the letter. */
  current(): Case {
    return this.signed && !this.changed ? this.opened.case : this.entry.snapshot();
  }

  get signed(): boolean {
    return this.opened.state === "signed";
  }

  /** A draft can be changed; a signed entry only for an addendum. */
  get editable(): boolean {
    return this.#writes && (!this.signed || this.adding !== undefined);
  }

  /** Whether leaving now would lose an addendum. */
  get losesAddendum(): boolean {
    return this.adding !== undefined && (this.adding.trim() !== "" || this.changed);
  }

  /** Writes the first paper, reviews, and looks up which other entries of this patient there are. */
  start(): void {
    void this.#paper.now();
    this.margin.now();
    void this.#findOthers();
    if (this.signed) void this.#findAddenda();
  }

  stop(): void {
    this.#autosave.stop();
    this.#paper.stop();
    this.margin.stop();
  }

  /** Saves what is not yet saved; false when it could not be. */
  flush(): Promise<boolean> {
    return this.#autosave.flush();
  }

  /** Saves what is not yet saved and then rests, because the notebook is being locked; false when it could not be saved. */
  async pause(): Promise<boolean> {
    const saved = await this.flush();
    this.#autosave.pause();
    this.#paper.stop();
    this.margin.stop();
    return saved;
  }

  /** Goes on after `pause`. */
  resume(): void {
    if (!this.clash) this.#autosave.resume();
    this.rewrite();
  }

  /** Puts what is on the screen on top of the version that somebody else stored. Both stay in the history. */
  putOnTop(theirs: Entry): void {
    this.#version = theirs.version;
    this.clash = false;
    this.#autosave.resume();
  }

  /** Takes the version that somebody else stored. What is on the screen goes into the history before it, so that it can be read there. */
  async take(theirs: Entry): Promise<Entry> {
    if (theirs.state === "draft") {
      const mine = await desk.caseSave(this.entry.snapshot(), theirs.version);
      await desk.caseSave(theirs.case, mine.version);
    }
    this.entry.forgetUnread();
    return await desk.caseShow(this.entry.id);
  }

  /** Writes the paper and what stands beside the answers again, although no answer has changed. */
  rewrite(): void {
    void this.#paper.now();
    this.margin.now();
  }

  choose(part: Partial<PaperChoice>): void {
    this.#wanted = { ...this.#wanted, ...part };
    paperChoice.keep(this.#wanted);
    void this.#paper.now();
  }

  /** Adds the text and the answers as they stand; gives the entry as it is from now on. */
  async add(): Promise<Entry> {
    return await desk.caseAddendum(this.current(), (this.adding ?? "").trim(), this.opened.number);
  }

  async #save(): Promise<string> {
    try {
      return await this.#store();
    } catch (thrown) {
      const trouble = troubleOf(thrown);
      if (trouble.code === "changed_meanwhile") {
        this.clash = true;
        this.#autosave.pause();
      }
      // An answer that is refused goes back into its box; the others must not wait for it.
      if (trouble.code !== "refused" || !this.entry.giveBack(trouble.places)) throw thrown;
      this.#paper.change();
      return await this.#store();
    }
  }

  async #store(): Promise<string> {
    const saved = await desk.caseSave(this.entry.snapshot(), this.#version);
    this.#version = saved.version;
    return saved.saved_at;
  }

  async #findAddenda(): Promise<void> {
    try {
      this.addenda = await desk.caseAddenda(this.entry.id);
    } catch (thrown) {
      this.paperTrouble = troubleOf(thrown).message;
    }
  }

  async #findOthers(): Promise<void> {
    const number = this.entry.at("patient.hospital_number");
    if (typeof number !== "string" || number.trim() === "") return;
    try {
      const found = await desk.casesFind(number);
      this.entry.others = found.filter((line) => line.id !== this.entry.id && line.hospital_number === number);
    } catch {
      // Without the list, an entry that is already named is still shown by its identifier.
    }
  }
}
