// Notices that nobody has touched the window for a while. Knows neither the notebook nor the screen.

/** Milliseconds in a minute. */
const MINUTE_MS = 60_000;

/** How much is under way that nobody has to watch, and when the last of it ended. */
let running = 0;
let ended = 0;

/** Runs something that may take long. While it runs the window is in use, although nobody touches it. */
export async function whileRunning<Answer>(act: () => Promise<Answer>): Promise<Answer> {
  running += 1;
  try {
    return await act();
  } finally {
    running -= 1;
    ended = Date.now();
  }
}

export class Idle {
  #away: () => void;
  #minutes: number | null = null;
  #last = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;

  /** `away` is called once each time that nobody was there for the whole while. */
  constructor(away: () => void) {
    this.#away = away;
  }

  /** Watches for so many minutes of quiet, from now on; null watches no more. */
  watch(minutes: number | null): void {
    this.#minutes = minutes;
    this.#last = Date.now();
    this.#again();
  }

  /** Notes that somebody is there. After a computer slept, the first key comes too late and does not count. */
  touched(): void {
    if (this.#minutes === null) return;
    if (this.#left() <= 0) return this.#gone();
    this.#last = Date.now();
  }

  stop(): void {
    clearTimeout(this.#timer);
  }

  /** Milliseconds that are left until work has ended and nobody is there; measured by the clock, since timers stand still in a sleeping computer. */
  #left(): number {
    if (this.#minutes === null) return Number.POSITIVE_INFINITY;
    const last = running > 0 ? Date.now() : Math.max(this.#last, ended);
    return last + this.#minutes * MINUTE_MS - Date.now();
  }

  #again(): void {
    clearTimeout(this.#timer);
    if (this.#minutes === null) return;
    this.#timer = setTimeout(() => (this.#left() <= 0 ? this.#gone() : this.#again()), Math.max(this.#left(), 0));
  }

  #gone(): void {
    this.watch(null);
    this.#away();
  }
}
