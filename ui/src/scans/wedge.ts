// Listens for a scanner that acts as a keyboard: what it typed is taken back out of the box and handed on as a scan.
import { Burst, keyOf, PAUSE_MS, SHORTEST } from "./burst";

type Box = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;

const WRITTEN = "input:not([type=radio], [type=checkbox], [type=file]), textarea";

export class Wedge {
  #wants: (target: EventTarget | null) => boolean;
  #take: (scan: string) => void;
  #burst = new Burst();
  #timer: ReturnType<typeof setTimeout> | undefined;
  /** The box that the burst goes into, as it was before. */
  #before: { box: Box; value: string } | undefined;

  /** `wants` says whether a scan may begin at the element that has the focus. */
  constructor(wants: (target: EventTarget | null) => boolean, take: (scan: string) => void) {
    this.#wants = wants;
    this.#take = take;
  }

  /** Hears a key before anything else does. */
  readonly key = (event: KeyboardEvent): void => {
    clearTimeout(this.#timer);
    if (!this.#wants(event.target)) return this.#burst.forget();
    const key = keyOf(event);
    const at = event.timeStamp;
    if (key.is === "held") this.#burst.held(at);
    else if (key.is === "other") this.#burst.forget();
    else if (key.is === "end") {
      if (!this.#finish(at)) return;
      event.preventDefault();
      event.stopPropagation();
    } else this.#sent(key.text, at, event);
  };

  /** Forgets what has come so far; a hand that points somewhere does not hold a scanner. */
  readonly stop = (): void => {
    clearTimeout(this.#timer);
    this.#burst.forget();
  };

  #sent(text: string, at: number, event: KeyboardEvent): void {
    const { count, fast } = this.#burst.sent(text, at);
    const target = event.target instanceof HTMLElement ? event.target : undefined;
    if (count === 1) this.#before = isBox(target) ? { box: target, value: target.value } : undefined;
    // Nothing is lost where letters are not written, and a space must not press a button.
    else if (fast && !target?.matches(WRITTEN)) event.preventDefault();
    if (count >= SHORTEST) this.#timer = setTimeout(() => this.#finish(at), PAUSE_MS);
  }

  #finish(at: number): boolean {
    const scan = this.#burst.end(at);
    if (scan === undefined) return false;
    this.#takeBack();
    this.#take(scan);
    return true;
  }

  #takeBack(): void {
    if (this.#before === undefined) return;
    const { box, value } = this.#before;
    this.#before = undefined;
    if (!box.isConnected || box.value === value) return;
    box.value = value;
    for (const name of ["input", "change"]) box.dispatchEvent(new Event(name, { bubbles: true }));
  }
}

function isBox(target: HTMLElement | undefined): target is Box {
  return target instanceof HTMLSelectElement || (target?.matches(WRITTEN) ?? false);
}
