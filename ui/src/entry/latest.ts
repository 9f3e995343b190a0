// Asks again a short while after the last change; only the answer to the latest question counts.

export class Latest<Answered> {
  #ask: () => Promise<Answered>;
  #take: (answer: Answered) => void;
  #fail: (thrown: unknown) => void;
  #wait: number;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #asked = 0;

  constructor(wait: number, ask: () => Promise<Answered>, take: (answer: Answered) => void, fail: (thrown: unknown) => void) {
    this.#wait = wait;
    this.#ask = ask;
    this.#take = take;
    this.#fail = fail;
  }

  /** Notes a change; the question is asked when it has been quiet for the wait. */
  change(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.now(), this.#wait);
  }

  /** Asks at once. */
  async now(): Promise<void> {
    clearTimeout(this.#timer);
    const mine = ++this.#asked;
    try {
      const answer = await this.#ask();
      if (mine === this.#asked) this.#take(answer);
    } catch (thrown) {
      if (mine === this.#asked) this.#fail(thrown);
    }
  }

  /** Drops what is waiting and whatever is still to come. */
  stop(): void {
    clearTimeout(this.#timer);
    this.#asked++;
  }
}
