// Reads what a person typed. What cannot be read gets one sentence that says what to write instead.
import type { Answer } from "./paths";

export type Read = { is: "nothing" } | { is: "answer"; answer: Answer } | { is: "unread"; sentence: string };

const nothing: Read = { is: "nothing" };
const answer = (found: Answer): Read => ({ is: "answer", answer: found });
const unread = (sentence: string): Read => ({ is: "unread", sentence });

export type NumberShape = { whole: boolean; unit: string | null; limits: [number, number] | null };

/** Reads a number; the unit may follow it, and a comma counts as a decimal point where it can be nothing else. */
export function readNumber(typed: string, shape: NumberShape): Read {
  let text = typed.trim().replaceAll("\u2212", "-");
  if (text === "") return nothing;
  if (shape.unit !== null && shape.unit !== "" && text.toLowerCase().endsWith(shape.unit.toLowerCase())) {
    text = text.slice(0, -shape.unit.length).trim();
  }
  const example = shape.whole ? "Write a whole number, such as 12." : "Write a number, such as 12 or 12.5.";
  if (/^[+-]?\d{1,3}(,\d{3})+$/.test(text)) {
    return unread(`The comma in ${text} can be read in two ways. ${example}`);
  }
  const plain = text.replace(",", ".");
  if (!/^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain)) return unread(`“${typed.trim()}” is not a number. ${example}`);
  const found = Number(plain);
  if (!Number.isFinite(found)) return unread(`“${typed.trim()}” is too large a number. ${example}`);
  if (shape.whole && !Number.isInteger(found)) return unread(`“${typed.trim()}” is not a whole number. ${example}`);
  // The program knows no negative whole numbers.
  if (shape.whole && found < 0) return unread("Write a whole number, 0 or more.");
  if (shape.limits !== null && (found < shape.limits[0] || found > shape.limits[1])) {
    return unread(`Write a number from ${shape.limits[0]} to ${shape.limits[1]}.`);
  }
  return answer(found === 0 ? 0 : found);
}

const MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
const two = (part: number) => String(part).padStart(2, "0");

/** Writes the local day of a moment as `YYYY-MM-DD`. */
export function dayOf(moment: Date): string {
  return `${moment.getFullYear()}-${two(moment.getMonth() + 1)}-${two(moment.getDate())}`;
}

function day(year: number, month: number, date: number): Read {
  const length = month >= 1 && month <= 12 ? new Date(Date.UTC(year, month, 0)).getUTCDate() : 0;
  const written = `${String(year).padStart(4, "0")}-${two(month)}-${two(date)}`;
  if (date < 1 || date > length || year < 1800) {
    return unread(`There is no day ${written}. Write year, month and day, such as 2026-03-04.`);
  }
  return answer(written);
}

/** Reads a date: `2026-03-04`, `4 March 2026`, `today`, or a date with slashes that has only one meaning. */
export function readDate(typed: string, now: Date): Read {
  const text = typed.trim().toLowerCase();
  if (text === "") return nothing;
  if (text === "today") return answer(dayOf(now));
  const iso = /^(\d{4})[-./ ]?(\d{1,2})[-./ ]?(\d{1,2})$/.exec(text);
  if (iso && (/\D/.test(text) || text.length === 8)) return day(Number(iso[1]), Number(iso[2]), Number(iso[3]));
  const named = /^(\d{1,2})\.?\s*([a-z]{3,9})\.?,?\s*(\d{4})$/.exec(text);
  const month = named ? MONTHS.indexOf((named[2] ?? "").slice(0, 3)) + 1 : 0;
  if (named && month > 0) return day(Number(named[3]), month, Number(named[1]));
  const slashed = /^(\d{1,2})[-./ ](\d{1,2})[-./ ](\d{4})$/.exec(text);
  if (slashed) return readSlashed(typed.trim(), Number(slashed[1]), Number(slashed[2]), Number(slashed[3]));
  return unread("Write the date as year, month and day, such as 2026-03-04, or “today”.");
}

function readSlashed(typed: string, first: number, second: number, year: number): Read {
  if (first === second || (first > 12 && second <= 12)) return day(year, second, first);
  if (second > 12 && first <= 12) return day(year, first, second);
  if (first > 12) return day(year, second, first);
  return unread(`${typed} can be two days. Write ${year}-${two(first)}-${two(second)} or ${year}-${two(second)}-${two(first)}.`);
}

/** Reads a local date-time; a bare time of day is completed with the day of the operation. */
export function readTime(typed: string, operationDate: string | undefined, now: Date): Read {
  const text = typed.trim();
  if (text === "") return nothing;
  if (text.toLowerCase() === "now") return answer(`${dayOf(now)}T${two(now.getHours())}:${two(now.getMinutes())}`);
  const parts = /^(?:(\S.*?)[T\s]+)?(\d{1,2})(?:[:.h](\d{2})|(?<=\d{2})(\d{2}))$/i.exec(text);
  if (!parts) return unread("Write the time, such as 08:15, or the day and time, such as 2026-03-04T08:15.");
  const hours = Number(parts[2]);
  const minutes = Number(parts[3] ?? parts[4]);
  if (hours > 23 || minutes > 59) return unread(`There is no time ${text}. Write hours and minutes, such as 08:15.`);
  const on = parts[1] === undefined ? operationDate : readDay(parts[1], now);
  if (on === undefined && parts[1] === undefined) {
    return unread("Write the operation date first, or the day and time, such as 2026-03-04T08:15.");
  }
  if (on === undefined) return unread("Write the day and time, such as 2026-03-04T08:15.");
  return answer(`${on}T${two(hours)}:${two(minutes)}`);
}

function readDay(typed: string, now: Date): string | undefined {
  const read = readDate(typed, now);
  return read.is === "answer" ? String(read.answer) : undefined;
}

/** Splits lines into the items of a list of texts. */
export function readLines(typed: string): Read {
  const lines = typed.split("\n").map((line) => line.trim()).filter((line) => line !== "");
  return lines.length === 0 ? nothing : answer(lines);
}
