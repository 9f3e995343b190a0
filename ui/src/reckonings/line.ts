// The one line in which a reckoning stands beside the answers: its title and its main results in words.
import type { Answer } from "../types/Answer";
import type { Output } from "../types/Output";
import type { Source } from "../types/Source";
import type { SourceKind } from "../types/SourceKind";
import { wordsIn, withoutUnit, wordsOfName } from "./names";
import { wordsOfValue } from "./values";

/** The results that the line shows, where a reckoning has more than belong there. */
const MAIN: Readonly<Record<string, readonly string[]>> = {
  alignment: ["ahka_deg", "jlo_deg", "hka_deg", "phenotype_words"],
  antibiotic_timing: ["minutes_before_incision", "within_window", "redosing_interval_ends_at"],
  blood_loss_haematocrit: ["blood_loss_ml"],
  blood_loss_haemoglobin: ["blood_loss_ml"],
  cement_times: ["mix_1_mixed_to_applied_min", "mix_1_mixed_to_seated_min", "mix_1_mixed_to_hard_min"],
  cut: ["deviation_mm", "within_tolerance"],
  gaps: ["extension_difference_mm", "flexion_difference_mm", "flexion_minus_extension_mean_mm", "extension_space", "flexion_space"],
  insert_choice: ["no_corner_under_minimum"],
  local_anaesthetic: ["mass_mg", "fraction_together", "over_limit"],
  score: ["score_0_48", "change"],
};
/** So many results of any other reckoning. */
const FEW = 4;

/** Reckonings whose results only repeat their statements. */
const STATED = ["partial_suitability"];

/** Results that are what the title says, although their name is another. */
const OWN = ["score_0_48"];

/** Results that nobody misses where they could not be computed. */
const UNASKED = ["change"];

const KINDS: Readonly<Record<SourceKind, string>> = {
  published: "published",
  common_practice: "common practice",
  from_memory: "from memory",
};

export const SOURCE_KINDS = Object.entries(KINDS).map(([kind, words]) => ({ kind: kind as SourceKind, words }));

export type Shown = { name: string; value: string; needs: string };

/** Gives all results in words, exactly as they were computed. */
export function resultsOf(answer: Answer): Shown[] {
  return STATED.includes(answer.reckoning) ? [] : named(answer, answer.results, true);
}

/** Gives the main results as one text; empty where there is none to show. */
export function lineOf(answer: Answer): string {
  if (STATED.includes(answer.reckoning)) return `${answer.statements?.length ?? 0} criteria, side by side`;
  const chosen = mainOf(answer);
  const shown = named(answer, chosen, false).filter(({ value }) => value !== "" && value !== "none");
  const first = chosen[0]?.name ?? "";
  const own = withoutUnit(first) === answer.reckoning || OWN.includes(first);
  return shown.map(({ name, value }, place) => (own && place === 0 ? value : saying(name, value))).join(" · ");
}

function mainOf(answer: Answer): Output[] {
  const main = MAIN[answer.reckoning];
  return main === undefined ? answer.results.slice(0, FEW) : answer.results.filter(({ name }) => main.includes(name));
}

/** Says what a reckoning needs, where it or the first of its main results could not be computed. */
export function needsOf(answer: Answer): string {
  if (answer.not_computable !== undefined) return wordsIn(answer.not_computable);
  const lacking = mainOf(answer).find(({ name, not_computable }) => not_computable !== undefined && !UNASKED.includes(name));
  return named(answer, lacking === undefined ? [] : [lacking], false).map(({ name, needs }) => `${name} ${needs}`).join("");
}

function saying(name: string, value: string): string {
  return value === "yes" || value === "no" ? `${name}: ${value}` : `${name} ${value}`;
}

/** A list of which only one item was given numbers it all the same; the number then says nothing. */
const NUMBERED = /^mix_1_/;

function named(answer: Answer, results: readonly Output[], exact: boolean): Shown[] {
  const alone = answer.results.every(({ name }) => NUMBERED.test(name));
  return results.map(({ name, value, unit, not_computable }) => ({
    name: wordsOfName(alone ? name.replace(NUMBERED, "") : name),
    value: wordsOfValue(value, unit, exact),
    needs: wordsIn(not_computable ?? ""),
  }));
}

/** Writes a source in one line, with its year and how well it is held. */
export function sourceWords({ title, place, year, kind }: Source): string {
  return `${sourceText({ title, place, year })} (${KINDS[kind]})`;
}

/** Writes the title of a source, where it stands and its year. */
export function sourceText({ title, place, year }: Pick<Source, "title" | "place" | "year">): string {
  return [title, place, year === null ? "" : String(year)].filter((part) => part !== "").join(", ");
}
