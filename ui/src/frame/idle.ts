// Notices that nobody has touched the window for a while. Knows neither the notebook nor the screen.

/** Milliseconds in a minute. */
const MINUTE_MS = 60_000;

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

  /** Milliseconds that are left until nobody is there; measured by the clock, since timers stand still in a sleeping computer. */
  #left(): number {
    return this.#minutes === null ? Number.POSITIVE_INFINITY : this.#last + this.#minutes * MINUTE_MS - Date.now();
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
