// One try after the other with a passphrase: what went wrong, and how long the next one must wait.
import { troubleOf } from "#bridge";

/** Reads the seconds out of the sentence that says how long to wait. */
export function secondsIn(sentence: string): number {
  return Number(/(\d+) seconds?/.exec(sentence)?.[1] ?? 0);
}

export class Attempt {
  trouble = $state("");
  busy = $state(false);
  /** Seconds until the next passphrase is looked at. */
  wait = $state(0);
  readonly sentence: string = $derived(
    this.wait > 0 ? `Several wrong passphrases in a row. The next one is looked at in ${this.wait === 1 ? "one second" : `${this.wait} seconds`}.` : this.trouble,
  );
  #clock: ReturnType<typeof setInterval> | undefined;

  /** Tries; false when it failed, with the sentence for it. */
  async run(act: () => Promise<void>): Promise<boolean> {
    this.stop();
    this.trouble = "";
    this.busy = true;
    try {
      await act();
      return true;
    } catch (thrown) {
      const { code, message } = troubleOf(thrown);
      this.trouble = message;
      if (code === "wait") this.#waitFor(secondsIn(message));
      return false;
    } finally {
      this.busy = false;
    }
  }

  stop(): void {
    clearInterval(this.#clock);
    this.wait = 0;
  }

  #waitFor(seconds: number): void {
    this.wait = seconds;
    if (seconds === 0) return;
    this.trouble = "";
    this.#clock = setInterval(() => {
      this.wait -= 1;
      if (this.wait <= 0) this.stop();
    }, 1000);
  }
}
