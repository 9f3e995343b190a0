// The grades of a letter as words, each beside its limit.
import type { Reading } from "../types/Reading";

export type Figure = { name: "flesch_kincaid_grade" | "smog_grade"; words: string; limit: string; over: boolean };

const NAMES: readonly { name: Figure["name"]; words: string }[] = [
  { name: "flesch_kincaid_grade", words: "Flesch-Kincaid grade" },
  { name: "smog_grade", words: "SMOG grade" },
];

/** Gives the grades with one decimal. What is held against the limit is the grade itself, so 6.04 is over 6. */
export function figuresOf(reading: Reading): Figure[] {
  return NAMES.map(({ name, words }) => {
    const over = reading[name] > reading.limits[name];
    // A grade that is over by less than is shown gets the decimals that show it.
    const shown = over && Number(reading[name].toFixed(1)) <= reading.limits[name] ? reading[name].toFixed(2) : reading[name].toFixed(1);
    return { name, words: `${words} ${shown}`, limit: String(reading.limits[name]), over };
  });
}
