// Names of results and inputs (`ahka_deg`) as the words that a person reads (“aHKA”, °). Knows no values.

/** What a name ends with and the unit that it stands for, the longest first. */
const UNITS: readonly [ending: string, unit: string][] = [
  ["ml_min_1_73m2", "ml/min per 1.73 m²"],
  ["mg_per_kg", "mg/kg"],
  ["umol_l", "µmol/l"],
  ["ml_min", "ml/min"],
  ["kg_m2", "kg/m²"],
  ["fraction", ""],
  ["percent", "%"],
  ["years", "years"],
  ["mmhg", "mmHg"],
  ["days", "days"],
  ["g_l", "g/l"],
  ["deg", "°"],
  ["min", "min"],
  ["m2", "m²"],
  ["mm", "mm"],
  ["cm", "cm"],
  ["kg", "kg"],
  ["mg", "mg"],
  ["ml", "ml"],
  ["c", "°C"],
  ["g", "g"],
  ["l", "l"],
];

/** Parts of names that are not written as they are spelt. */
const WORDS: Readonly<Record<string, string>> = {
  ahka: "aHKA",
  hka: "HKA",
  mhka: "mHKA",
  jlo: "JLO",
  ldfa: "LDFA",
  mpta: "MPTA",
  jlca: "JLCA",
  acl: "ACL",
  pcl: "PCL",
  mcl: "MCL",
  lcl: "LCL",
  asa: "ASA",
  bmi: "BMI",
  bsa: "BSA",
  egfr: "eGFR",
  vte: "VTE",
  smog: "SMOG",
  minus: "−",
};

/** Names that say more than their parts. */
const WHOLE: Readonly<Record<string, string>> = {
  applied_at: "time applied",
  before_mm: "thickness before",
  button_mm: "thickness of the button",
  closed_at: "time of closing",
  down_at: "time down",
  extension_difference_mm: "extension, lateral − medial",
  flexion_difference_mm: "flexion, lateral − medial",
  flexion_minus_extension_medial_mm: "flexion − extension, medial",
  flexion_minus_extension_lateral_mm: "flexion − extension, lateral",
  flexion_minus_extension_mean_mm: "flexion − extension, mean",
  given_at: "time given",
  hard_at: "time hard",
  incision_at: "time of incision",
  last_dose_days_after_operation: "last dose after the operation",
  mixed_at: "time mixed",
  neighbours: "near",
  no_corner_under_minimum: "no corner under the minimum",
  phenotype_words: "phenotype",
  residual_mm: "residual thickness",
  score_0_48: "score",
  score_12_60: "on the old scale",
  score_before_0_48: "score before",
  seated_at: "time seated",
  up_at: "time up",
};

function ending(name: string): readonly [string, string] | undefined {
  return UNITS.find(([end]) => name.endsWith(`_${end}`));
}

/** Gives the unit that a name ends with; empty where it has none. */
export function unitOf(name: string): string {
  return ending(name)?.[1] ?? "";
}

/** Gives a name without the unit that it ends with. */
export function withoutUnit(name: string): string {
  const end = ending(name);
  return end === undefined ? name : name.slice(0, -end[0].length - 1);
}

/** Gives the words of a name, without its unit. */
export function wordsOfName(name: string): string {
  const whole = WHOLE[name];
  if (whole !== undefined) return whole;
  const words = withoutUnit(name)
    .split("_")
    .filter((part) => part !== "")
    .map((part) => WORDS[part] ?? part);
  return words.join(" ");
}

function wordsOfPath(path: string): string {
  const parts = path.split(".").map((part) => {
    const [, name = part, place] = /^(.*?)\[(\d+)\]$/.exec(part) ?? [];
    return place === undefined ? wordsOfName(name) : `${wordsOfName(name)} ${Number(place) + 1}`;
  });
  return parts.join(", ");
}

/** Gives a sentence in which every name with an underscore or a place in a list is written in words. */
export function wordsIn(sentence: string): string {
  return sentence.replace(/[a-z][a-z0-9_]*(?:\[\d+\]|\.[a-z][a-z0-9_]*)*/g, (found) => (/[_[]/.test(found) ? wordsOfPath(found) : found));
}
