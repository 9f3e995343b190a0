// What goes on around an open entry: it is saved, reviewed, and its paper is written again as answers change.
import { desk, type PageSize, type PaperKind, troubleOf } from "#bridge";
import { Autosave, type SaveState } from "../../entry/autosave";
import { Latest } from "../../entry/latest";
import { OpenEntry } from "../../entry/open.svelte";
import { paperChoice } from "../../frame/remembered";
import { Margin } from "../../reckonings/margin.svelte";
import type { Entry } from "../../types/Entry";
import type { Field } from "../../types/Field";
import type { Preview } from "../../types/Preview";

/** Milliseconds after the last change before the paper is written again. */
export const PAPER_MS = 150;

export class EntrySession {
  readonly entry: OpenEntry;
  readonly margin: Margin;
  saved: SaveState = $state.raw({ is: "waiting" });
  paper: Preview | undefined = $state.raw();
  /** Why the paper could not be written; the last one stays. */
  paperTrouble = $state("");
  kind: PaperKind = $state(paperChoice.kind());
  page: PageSize = $state(paperChoice.page());
  #autosave: Autosave;
  #paper: Latest<Preview>;

  constructor(opened: Entry, dictionary: readonly Field[]) {
    this.entry = new OpenEntry(opened, dictionary);
    this.margin = new Margin(this.entry);
    this.saved = { is: "saved", at: opened.saved_at ?? "" };
    this.#autosave = new Autosave({
      save: () => this.#save(),
      show: (state) => (this.saved = state),
      reason: (thrown) => troubleOf(thrown).message,
    });
    this.#paper = new Latest(
      PAPER_MS,
      () => desk.paperPreview(this.entry.snapshot(), this.kind, this.page),
      (paper) => {
        this.paper = paper;
        this.paperTrouble = "";
      },
      (thrown) => (this.paperTrouble = troubleOf(thrown).message),
    );
    this.entry.onchange(() => {
      this.#autosave.change();
      this.#paper.change();
      this.margin.change();
    });
  }

  /** Writes the first paper, reviews, and looks up which other entries of this patient there are. */
  start(): void {
    void this.#paper.now();
    this.margin.now();
    void this.#findOthers();
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

  /** Writes the paper and what stands beside the answers again, although no answer has changed. */
  rewrite(): void {
    void this.#paper.now();
    this.margin.now();
  }

  choose(kind: PaperKind, page: PageSize): void {
    this.kind = kind;
    this.page = page;
    paperChoice.keep(kind, page);
    void this.#paper.now();
  }

  async #save(): Promise<string> {
    try {
      return (await desk.caseSave(this.entry.snapshot())).saved_at;
    } catch (thrown) {
      const trouble = troubleOf(thrown);
      // An answer that is refused goes back into its box; the others must not wait for it.
      if (trouble.code !== "refused" || !this.entry.giveBack(trouble.places)) throw thrown;
      this.#paper.change();
      return (await desk.caseSave(this.entry.snapshot())).saved_at;
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
