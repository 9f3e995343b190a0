// One act of a form: whether it is under way, what went wrong, what came of it.
import { troubleOf } from "#bridge";
import { whileRunning } from "../../frame/idle";

export class Doing {
  busy = $state(false);
  trouble = $state("");
  done = $state("");
  /** Whether there is a file of this name already, so that a person must say whether to replace it. */
  exists = $state(false);

  /** Runs an act; its answer is the sentence to show. False when it failed. */
  async run(act: () => Promise<string>): Promise<boolean> {
    this.forget();
    this.busy = true;
    try {
      this.done = await whileRunning(act);
      return true;
    } catch (thrown) {
      const { code, message } = troubleOf(thrown);
      this.exists = code === "exists";
      this.trouble = message;
      return false;
    } finally {
      this.busy = false;
    }
  }

  refuse(sentence: string): void {
    this.forget();
    this.trouble = sentence;
  }

  forget(): void {
    this.trouble = "";
    this.done = "";
    this.exists = false;
  }
}
