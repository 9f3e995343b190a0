// Asks before a screen with unsaved work is left. The screen shows the question, whoever wants to leave waits.

export class Leaving {
  /** Whether the question stands on the screen. */
  asked = $state(false);
  #waiting: ((goes: boolean) => void)[] = [];

  /** Puts the question; true when the work may be lost. */
  ask(): Promise<boolean> {
    this.asked = true;
    return new Promise((resolve) => this.#waiting.push(resolve));
  }

  /** Answers everybody who waits. */
  answer(goes: boolean): void {
    this.asked = false;
    for (const resolve of this.#waiting.splice(0)) resolve(goes);
  }
}
