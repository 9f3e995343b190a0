// Which notebook is open and which screen is shown.
import { desk, type NotebookState, type PaperKind, type PaperLanguage, type Person, troubleOf, type Entry } from "#bridge";
import type { Field } from "../types/Field";
import { lastNotebook } from "./remembered";
import { may } from "./rights";

/** A template that is to be worked on, the case that was open when it was asked for, and the case to try it on. */
export type WordingAsked = { kind: PaperKind; language: PaperLanguage; from: string | undefined; tryOn: string | undefined };
export type Screen =
  | { is: "starting" }
  | { is: "cases" }
  | { is: "opening" }
  | { is: "entry"; entry: Entry }
  | { is: "papers"; id: string; title: string }
  | { is: "notebook"; part: NotebookPart }
  | { is: "wording"; asked: WordingAsked };

/** The parts of the screen about the notebook itself. */
export type NotebookPart = "you" | "people" | "backup" | "check" | "exchange";

/** What lies covered while the notebook is locked. */
export type Locked = {
  path: string;
  person: Person;
  /** Whether nobody touched the window, rather than that somebody asked. */
  idle: boolean;
  /** Whether something on the screen could not be saved before; only the same person may go on with it. */
  unsaved: boolean;
  /** Whether saving is over and the file is closed. */
  closed: boolean;
};

/** A screen with nothing to save. */
export const AWAKE = { pause: () => Promise.resolve(true), resume: () => undefined };

export class Shell {
  notebook: NotebookState | null = $state.raw(null);
  dictionary: readonly Field[] = $state.raw([]);
  screen: Screen = $state.raw({ is: "starting" });
  /** What went wrong outside any entry or form. */
  trouble = $state("");
  /** What was searched for, kept while an entry is open. */
  searched = $state("");
  /** Where the file of an older layout was kept when it was brought up to date; empty when none was, or it was read. */
  keptAs = $state("");
  /** Asks the open entry whether it may be left: saves it, false when it could not be saved. */
  leave: () => Promise<boolean> = () => Promise.resolve(true);
  /** Asks the open screen to save and then to rest, false when something is only on the screen; and to go on. */
  rest: { pause: () => Promise<boolean>; resume: () => void } = AWAKE;
  /** What lies covered while the notebook is locked. */
  locked: Locked | null = $state.raw(null);

  /** Opens the demonstration at the first start; later asks for the person's own notebook. */
  async start(): Promise<void> {
    await this.#attempt(async () => {
      this.dictionary = await desk.dictionary();
      this.notebook = await desk.notebookCurrent();
      if (this.notebook === null && lastNotebook.get() !== "") this.screen = { is: "opening" };
      else if (this.notebook === null) await this.#enter(await desk.notebookOpenDemonstration());
      else this.#begin();
    });
  }

  async demonstration(): Promise<void> {
    await this.#attempt(async () => this.#enter(await desk.notebookOpenDemonstration()));
  }

  /** Shows the cases of a notebook that was just opened or created. */
  async entered(notebook: NotebookState): Promise<void> {
    if (!notebook.demonstration) lastNotebook.keep(notebook.path);
    await this.#enter(notebook);
  }

  async toCases(): Promise<void> {
    if (await this.leave()) this.screen = { is: "cases" };
  }

  async toOpening(): Promise<void> {
    if (await this.leave()) this.screen = { is: "opening" };
  }

  async toNotebook(part: NotebookPart = "you"): Promise<void> {
    if (await this.leave()) this.screen = { is: "notebook", part };
  }

  /** Covers the screen, saves what was typed, and closes the notebook. What cannot be saved stays where it was typed. */
  async lock(idle = false): Promise<void> {
    const { notebook } = this;
    if (notebook === null || notebook.demonstration || this.locked !== null) return;
    const { path, person } = notebook;
    this.locked = { path, person, idle, unsaved: false, closed: false };
    const saved = await this.rest.pause();
    try {
      await desk.notebookLock();
    } catch (thrown) {
      this.trouble = troubleOf(thrown).message;
    }
    this.locked = { path, person, idle, unsaved: !saved, closed: true };
  }

  /** Opens the locked notebook. The same person goes on where the screen was covered; anybody else begins at the list. */
  async unlock(passphrase: string): Promise<void> {
    const { locked } = this;
    if (locked === null) return;
    const notebook = await desk.notebookOpen(locked.path, passphrase);
    const same = notebook.person.mark === locked.person.mark;
    if (!same && locked.unsaved) {
      await desk.notebookLock();
      throw { code: "failed", message: `What ${locked.person.name} typed last could not be saved and is kept behind this screen. ${locked.person.name} opens the notebook first, or what was typed is thrown away.`, places: [] };
    }
    this.#holds(notebook);
    if (!same) this.#begin();
    this.locked = null;
    if (same) this.rest.resume();
  }

  /** Leaves the locked notebook for another one; what could not be saved is lost. */
  abandon(): void {
    this.locked = null;
    this.notebook = null;
    this.searched = "";
    this.screen = { is: "opening" };
  }

  /** Reads again how the notebook stands: its backups, its people, its conflicts. */
  async refresh(): Promise<void> {
    if (this.locked !== null) return;
    await this.#attempt(async () => {
      this.notebook = await desk.notebookCurrent();
    });
  }

  /** Shows the wording of a paper, to be tried on a case: the open one where none is named. */
  async toWording(kind: PaperKind, language: PaperLanguage, tryOn?: string): Promise<void> {
    const { screen } = this;
    const from = screen.is === "entry" ? screen.entry.case.id : screen.is === "wording" ? screen.asked.from : undefined;
    if (await this.leave()) this.screen = { is: "wording", asked: { kind, language, from, tryOn: tryOn ?? from } };
  }

  /** Goes back to the case from which the wording was asked for, or to the list. */
  async fromWording(from: string | undefined): Promise<void> {
    if (from === undefined) await this.toCases();
    else if (await this.leave()) await this.show(from);
  }

  /** Opens the entry on the screen anew: it was signed, got an addendum, or goes back to what it was. */
  reopen(entry: Entry): void {
    this.#open({ ...entry });
  }

  /** Opens a case: its entry, or only its papers for those who do not read entries. */
  async show(id: string, title = ""): Promise<void> {
    if (!may(this.notebook, "read_entries")) return void (this.screen = { is: "papers", id, title });
    await this.#attempt(async () => this.#open(await desk.caseShow(id)));
  }

  async create(): Promise<void> {
    if (!may(this.notebook, "write_drafts") || !(await this.leave())) return;
    await this.#attempt(async () => this.#open(await desk.caseNew()));
  }

  #open(entry: Entry): void {
    this.screen = { is: "entry", entry };
  }

  async #enter(notebook: NotebookState): Promise<void> {
    this.#holds(notebook);
    this.#begin();
  }

  #holds(notebook: NotebookState): void {
    this.notebook = notebook;
    this.keptAs = notebook.kept_as ?? "";
  }

  /** Shows what the person sees first; a keeper without another role reads no list, and the recovery sheet is for the people. */
  #begin(): void {
    this.searched = "";
    const part = this.notebook?.person.recovery === true ? "people" : "you";
    this.screen = may(this.notebook, "list_cases") ? { is: "cases" } : { is: "notebook", part };
  }

  async #attempt(act: () => Promise<void>): Promise<void> {
    this.trouble = "";
    try {
      await act();
    } catch (thrown) {
      const { code, message } = troubleOf(thrown);
      // Somebody gave this person another role meanwhile: what they may do is read again.
      if (code === "not_allowed") await this.refresh();
      this.trouble = message;
    }
  }
}
