// Values of results and inputs as words: numbers with their units, times, yes and no, lists.
import { unitOf, wordsIn, wordsOfName } from "./names";

/** Decimals that a unit is worth in a line of text; one where the unit is not named here. */
const DECIMALS: Readonly<Record<string, number>> = {
  "": 2,
  "m²": 2,
  l: 2,
  ml: 0,
  mmHg: 0,
  "ml/min": 0,
  "ml/min per 1.73 m²": 0,
};

/** Most decimals that a reckoning gives. */
const EXACT = 4;

function numberWords(value: number, decimals: number): string {
  const rounded = Number(value.toFixed(decimals));
  return String(rounded === 0 ? 0 : rounded).replace("-", "−");
}

/** Puts the unit behind a number; degrees and per cent stand close to it, others are never parted from it. */
export function withUnit(number: string, unit: string | null): string {
  if (unit === null || unit === "") return number;
  return unit === "°" || unit === "%" ? `${number}${unit}` : `${number}\u00a0${unit}`;
}

/** Writes a value for reading; `exact` keeps the decimals that the reckoning gave. */
export function wordsOfValue(value: unknown, unit: string | null, exact = false): string {
  if (value === null || value === undefined) return "";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "number") return withUnit(numberWords(value, exact ? EXACT : (DECIMALS[unit ?? ""] ?? 1)), unit);
  if (typeof value === "string") return wordsIn(value.replace(/^(\d{4}-\d\d-\d\d)T(\d\d:\d\d).*$/, "$1 $2"));
  if (Array.isArray(value)) return listWords(value, unit, exact);
  return Object.entries(value)
    .map(([name, inner]) => `${wordsOfName(name)} ${wordsOfValue(inner, unitOf(name), exact)}`)
    .join(", ");
}

function listWords(values: readonly unknown[], unit: string | null, exact: boolean): string {
  if (values.length === 0) return "none";
  const plain = values.every((value) => typeof value !== "object");
  if (plain) return withUnit(values.map((value) => wordsOfValue(value, "", exact)).join(", "), unit);
  if (values.length === 1) return wordsOfValue(values[0], unit, exact);
  return values.map((value, place) => `${place + 1}: ${wordsOfValue(value, unit, exact)}`).join("; ");
}
