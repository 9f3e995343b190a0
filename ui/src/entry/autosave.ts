// Saves a short while after the last key, one save at a time, and never forgets a change that failed to be saved.
// Knows neither the bridge nor the screen.

export type SaveState =
  | { is: "saved"; at: string }
  | { is: "waiting" }
  | { is: "saving" }
  | { is: "not_saved"; reason: string };

export type Saving = {
  /** Saves what is on the screen now and gives the time of saving; throws what the screen should say. */
  save: () => Promise<string>;
  /** Called whenever the state changes. */
  show: (state: SaveState) => void;
  /** The sentence for something thrown. */
  reason: (thrown: unknown) => string;
};

/** Milliseconds after the last key before an entry is saved. */
export const QUIET_MS = 400;
/** Milliseconds before a save that failed is tried again by itself. */
export const RETRY_MS = 5000;

export class Autosave {
  #saving: Saving;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #running: Promise<void> | undefined;
  #changed = false;
  #paused = false;

  constructor(saving: Saving) {
    this.#saving = saving;
  }

  /** Notes that something changed. */
  change(): void {
    this.#changed = true;
    this.#saving.show({ is: "waiting" });
    this.#after(QUIET_MS);
  }

  /** Saves at once whatever is not yet saved; resolves to true when nothing is left unsaved. */
  async flush(): Promise<boolean> {
    clearTimeout(this.#timer);
    await this.#running;
    if (this.#changed && !this.#paused) await this.#run();
    return !this.#changed;
  }

  /** Saves nothing by itself until `resume`; what changes meanwhile stays known. */
  pause(): void {
    this.#paused = true;
    clearTimeout(this.#timer);
  }

  /** Goes on after `pause`, at once with what is not yet saved. */
  resume(): void {
    this.#paused = false;
    if (this.#changed) void this.#run();
  }

  /** Stops the clock; what is not saved stays known to `flush`. */
  stop(): void {
    clearTimeout(this.#timer);
  }

  #after(wait: number): void {
    clearTimeout(this.#timer);
    if (this.#paused) return;
    this.#timer = setTimeout(() => {
      if (this.#changed) void this.#run();
    }, wait);
  }

  #run(): Promise<void> {
    this.#running ??= this.#once().finally(() => {
      this.#running = undefined;
    });
    return this.#running;
  }

  async #once(): Promise<void> {
    // A change that comes while this save is on its way sets the flag again and is saved by the next run.
    this.#changed = false;
    this.#saving.show({ is: "saving" });
    try {
      const at = await this.#saving.save();
      if (this.#changed) this.#after(QUIET_MS);
      else this.#saving.show({ is: "saved", at });
    } catch (thrown) {
      this.#changed = true;
      this.#saving.show({ is: "not_saved", reason: this.#saving.reason(thrown) });
      this.#after(RETRY_MS);
    }
  }
}
