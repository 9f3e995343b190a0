// Tells the keys of a scanner from those of a hand. Times are arguments; it touches no box and knows no label's meaning.

/**
 * Keys that mostly follow each other faster than this (milliseconds) come from a scanner. Scanners that act as a keyboard
 * send a key every 1 to 15 ms, slow wireless ones up to about 30; a fast typist needs 60 to 100 ms from key to key and
 * goes below 35 only for two or three keys that are rolled with neighbouring fingers. The median counts, because a busy
 * computer hands on single keys late, and half a scan could look like another label.
 */
export const HAND_MS = 35;
/** Keys further apart than this (milliseconds) do not belong together; it also ends a scan without Enter or Tab. */
export const PAUSE_MS = 150;
/** No label that names a lot or a device is shorter. */
export const SHORTEST = 8;
/** Separates the parts of a GS1 label: ASCII 29. */
export const SEPARATOR = "\u001d";

export type Key = { is: "sent"; text: string } | { is: "end" } | { is: "held" } | { is: "other" };

/** What of a key press is looked at. */
export type Press = Pick<KeyboardEvent, "key" | "ctrlKey" | "metaKey" | "altKey" | "repeat">;

const HELD = ["Shift", "Control", "Alt", "AltGraph", "CapsLock", "NumLock"];

/** Says what a key press is to a scan. A key that repeats because it is held down comes from a hand. */
export function keyOf({ key, ctrlKey, metaKey, altKey, repeat }: Press): Key {
  if (HELD.includes(key)) return { is: "held" };
  if (repeat) return { is: "other" };
  if (key === SEPARATOR || (ctrlKey && !altKey && key === "]")) return { is: "sent", text: SEPARATOR };
  if (key === "Enter" || key === "Tab") return { is: "end" };
  // AltGr is Ctrl and Alt together on some systems.
  const commanding = metaKey || ctrlKey !== altKey;
  return key.length === 1 && !commanding ? { is: "sent", text: key } : { is: "other" };
}

/** Says whether a text begins as a component label does (GS1, HIBC or ISBT 128) and is long enough for one. */
export function looksLikeLabel(text: string): boolean {
  const bare = text.replace(/^\][A-Za-z][0-9A-Za-z]/, "").replace(/^\u001d/, "");
  if (bare.length < SHORTEST) return false;
  if (/^\(\d{2,4}\)\S/.test(bare)) return true;
  // HIBC begins with +, ISBT 128 with = or &.
  if (/^\+[A-Z0-9$/]/i.test(bare) || /^[=&][A-Z0-9<>%]/i.test(bare)) return true;
  // A device with its fourteen digits, dates with their six, lots and serials.
  return /^(?:0[012]\d{14}|1[1-7]\d{6}(?!\d{2}$)|(?:10|21)[0-9A-Za-z]|24[01][0-9A-Za-z])/.test(bare) && !/\s/.test(bare);
}

function median(numbers: readonly number[]): number {
  return numbers.toSorted((one, other) => one - other)[Math.floor(numbers.length / 2)] ?? Number.POSITIVE_INFINITY;
}

/** Letters that came in one go. */
export class Burst {
  #text = "";
  #gaps: number[] = [];
  #last = Number.NEGATIVE_INFINITY;

  /** Takes a letter at a time in milliseconds; says which of its go it is, and whether it came faster than a hand's. */
  sent(text: string, at: number): { count: number; fast: boolean } {
    const gap = at - this.#last;
    if (gap > PAUSE_MS) this.forget();
    else this.#gaps.push(gap);
    this.#text += text;
    this.#last = at;
    return { count: this.#text.length, fast: gap <= HAND_MS };
  }

  /** Takes a key that only shifts the next one. */
  held(at: number): void {
    if (at - this.#last > PAUSE_MS) this.forget();
    else this.#last = at;
  }

  /** Ends the go at a time in milliseconds; gives the scan, if it was one. */
  end(at: number): string | undefined {
    const [text, gap, quiet] = [this.#text, median(this.#gaps), at - this.#last];
    this.forget();
    return quiet <= 2 * PAUSE_MS && gap <= HAND_MS && looksLikeLabel(text) ? text : undefined;
  }

  forget(): void {
    this.#text = "";
    this.#gaps = [];
    this.#last = Number.NEGATIVE_INFINITY;
  }
}
