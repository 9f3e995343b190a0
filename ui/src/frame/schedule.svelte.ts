// Backs up by itself: when a notebook is opened and every hour while it is open, if a backup is due and has a folder.
import { desk, troubleOf } from "#bridge";
import { whileRunning } from "./idle";
import { may } from "./rights";
import type { Shell } from "./shell.svelte";

/** Milliseconds between two looks at whether a backup is due. */
export const LOOK_MS = 60 * 60 * 1000;

export class Schedule {
  running = $state(false);
  /** Why the last one by itself failed; empty when it did not. */
  trouble = $state("");
  #shell: Shell;
  #clock: ReturnType<typeof setInterval> | undefined;
  #path = "";

  constructor(shell: Shell) {
    this.#shell = shell;
  }

  /** Watches the notebook of this path from now on; the empty path means none. */
  watch(path: string): void {
    if (path === this.#path) return;
    this.stop();
    this.#path = path;
    this.trouble = "";
    if (path === "") return;
    void this.look();
    this.#clock = setInterval(() => void this.look(), LOOK_MS);
  }

  stop(): void {
    clearInterval(this.#clock);
    this.#path = "";
  }

  /** Looks whether a backup is due now, and makes it. */
  async look(): Promise<void> {
    if (this.running) return;
    await this.#shell.refresh();
    const { notebook } = this.#shell;
    if (notebook === null || !may(notebook, "back_up") || !notebook.backup.due || notebook.backup.folder === null) return;
    this.running = true;
    try {
      await whileRunning(() => desk.notebookBackUp(null, false, () => undefined));
      this.trouble = "";
      await this.#shell.refresh();
    } catch (thrown) {
      this.trouble = troubleOf(thrown).message;
    }
    this.running = false;
  }
}
