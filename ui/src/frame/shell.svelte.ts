// Which notebook is open and which screen is shown.
import { desk, type PaperKind, type PaperLanguage, troubleOf } from "#bridge";
import type { Entry } from "../types/Entry";
import type { Field } from "../types/Field";
import type { NotebookState } from "../types/NotebookState";
import { lastNotebook } from "./remembered";

/** A template that is to be worked on, the case that was open when it was asked for, and the case to try it on. */
export type WordingAsked = { kind: PaperKind; language: PaperLanguage; from: string | undefined; tryOn: string | undefined };
export type Screen =
  | { is: "starting" }
  | { is: "cases" }
  | { is: "opening" }
  | { is: "entry"; entry: Entry }
  | { is: "wording"; asked: WordingAsked };

export class Shell {
  notebook: NotebookState | null = $state.raw(null);
  dictionary: readonly Field[] = $state.raw([]);
  screen: Screen = $state.raw({ is: "starting" });
  /** What went wrong outside any entry or form. */
  trouble = $state("");
  /** What was searched for, kept while an entry is open. */
  searched = $state("");
  /** Asks the open entry whether it may be left: saves it, false when it could not be saved. */
  leave: () => Promise<boolean> = () => Promise.resolve(true);

  /** Opens the demonstration at the first start; later asks for the person's own notebook. */
  async start(): Promise<void> {
    await this.#attempt(async () => {
      this.dictionary = await desk.dictionary();
      this.notebook = await desk.notebookCurrent();
      if (this.notebook === null && lastNotebook.get() !== "") this.screen = { is: "opening" };
      else if (this.notebook === null) await this.#enter(await desk.notebookOpenDemonstration());
      else this.screen = { is: "cases" };
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

  async show(id: string): Promise<void> {
    await this.#attempt(async () => this.#open(await desk.caseShow(id)));
  }

  async create(): Promise<void> {
    if (this.notebook === null || !(await this.leave())) return;
    await this.#attempt(async () => this.#open(await desk.caseNew()));
  }

  #open(entry: Entry): void {
    this.screen = { is: "entry", entry };
  }

  async #enter(notebook: NotebookState): Promise<void> {
    this.notebook = notebook;
    this.searched = "";
    this.screen = { is: "cases" };
  }

  async #attempt(act: () => Promise<void>): Promise<void> {
    this.trouble = "";
    try {
      await act();
    } catch (thrown) {
      this.trouble = troubleOf(thrown).message;
    }
  }
}
