// Papers of several cases at once: what is asked for, how far it is, and what came of it.
import { desk, type PageSize, type PaperKind, type PaperLanguage, troubleOf } from "#bridge";
import { whileRunning } from "../../../frame/idle";
import { paperChoice } from "../../../frame/remembered";
import { isForPatients, KINDS, languagesOf, pagesOf } from "../../../papers/kinds";
import type { BatchReport } from "../../../types/BatchReport";
import { folderIn, pdfIn } from "./paths";

/** A case may have several addenda; a batch takes them all. */
export const BATCH_KINDS = KINDS.map(({ kind, words }) => ({ kind, words: kind === "addendum" ? "Addenda" : words }));

export class Batch {
  readonly ids: readonly string[];
  readonly offered: typeof BATCH_KINDS;
  kinds: PaperKind[] = $state([]);
  language: PaperLanguage = $state(paperChoice.get().language);
  page: PageSize = $state("a4");
  /** All papers in one PDF instead of one file each. */
  one = $state(false);
  replace = $state(false);
  path = $state("");
  trouble = $state("");
  exists = $state(false);
  progress: { done: number; total: number } | undefined = $state.raw();
  cancelling = $state(false);
  report: BatchReport | undefined = $state.raw();
  #suggested = "";
  #folder: string | undefined;

  /** `all` says whether the person may write every paper, or only those that patients and their doctors are given. */
  constructor(ids: readonly string[], all = true) {
    this.ids = ids;
    this.offered = BATCH_KINDS.filter(({ kind }) => all || isForPatients(kind));
    const { kind, page } = paperChoice.get();
    this.kinds = !all && !isForPatients(kind) ? ["discharge-letter"] : kind === "addendum" ? ["operative-note"] : [kind];
    if (page === "letter") this.page = page;
  }

  /** All papers have one language and one sheet, so what only one paper has is offered for that paper alone. */
  readonly #only: PaperKind = $derived(this.kinds.length === 1 && this.kinds[0] ? this.kinds[0] : "operative-note");
  readonly languages: ReturnType<typeof languagesOf> = $derived(languagesOf(this.#only));
  readonly pages: ReturnType<typeof pagesOf> = $derived(pagesOf(this.#only));
  readonly ready: boolean = $derived(this.kinds.length > 0 && this.path.trim() !== "" && this.progress === undefined);

  /** Suggests a place beside where single papers go, unless the person has written one. */
  async suggest(): Promise<void> {
    const [first] = this.ids;
    try {
      if (this.#folder === undefined && first !== undefined) {
        const choice = { kind: "discharge-letter", language: "en", page: "a4", addendum: null } as const;
        this.#folder = await desk.paperSuggestPathOf(first, choice, "pdf");
      }
      const suggestion = this.one ? pdfIn(this.#folder ?? "") : folderIn(this.#folder ?? "");
      if (this.path === this.#suggested) this.path = suggestion;
      this.#suggested = suggestion;
    } catch (thrown) {
      this.trouble = troubleOf(thrown).message;
    }
  }

  chooseOne(one: boolean): void {
    this.one = one;
    this.forget();
    void this.suggest();
  }

  /** What was said about the last attempt does not hold for the next one. */
  forget(): void {
    this.trouble = "";
    this.exists = false;
  }

  async run(replace: boolean): Promise<void> {
    if (!this.ready) return;
    this.forget();
    this.cancelling = false;
    this.progress = { done: 0, total: 0 };
    const path = this.path.trim();
    const page = this.pages.some((each) => each.page === this.page) ? this.page : "a4";
    const kinds = BATCH_KINDS.map(({ kind }) => kind).filter((kind) => this.kinds.includes(kind));
    const language = this.languages.length > 1 ? this.language : "en";
    try {
      const to = this.one ? { file: path } : { folder: path };
      const asked = { ids: [...this.ids], kinds, language, page, to, replace };
      const count = (done: number, total: number) => {
        if (this.progress) this.progress = { done, total };
      };
      this.report = await whileRunning(() => desk.papersBatch(asked, count));
    } catch (thrown) {
      const { code, message } = troubleOf(thrown);
      this.exists = code === "exists";
      this.trouble = message;
    }
    this.progress = undefined;
  }

  /** Asks the program to stop after the case it is at. */
  async cancel(): Promise<void> {
    if (this.progress === undefined || this.cancelling) return;
    this.cancelling = true;
    try {
      await desk.papersBatchCancel();
    } catch (thrown) {
      this.trouble = troubleOf(thrown).message;
      this.cancelling = false;
    }
  }
}
