import { describe, expect, it } from "vitest";
import { unitOf, wordsIn, wordsOfName } from "./names";

describe("names", () => {
  function check(name: string, words: string, unit: string) {
    expect(`${wordsOfName(name)} | ${unitOf(name)}`, name).toBe(`${words} | ${unit}`);
  }

  it("become words, their unit apart", () => {
    check("ahka_deg", "aHKA", "°");
    check("mhka_deviation_deg", "mHKA deviation", "°");
    check("bmi_kg_m2", "BMI", "kg/m²");
    check("egfr_ml_min_1_73m2", "eGFR", "ml/min per 1.73 m²");
    check("extension_difference_mm", "extension, lateral − medial", "mm");
    check("blood_volume_l", "blood volume", "l");
  });

  it("are readable where nobody has foreseen them", () => {
    check("something_quite_new_mg", "something quite new", "mg");
    check("l", "l", "");
    check("_odd__name_", "odd name", "");
  });
});

describe("sentences", () => {
  function check(sentence: string, expected: string) {
    expect(wordsIn(sentence)).toBe(expected);
  }

  it("lose their underscores and nothing else", () => {
    check("needs weight_kg and jlca_deg", "needs weight and JLCA");
    check("needs inflations[1].down_at.", "needs inflations 2, time down.");
    check("bmi = weight in kg / (height in m)²; e.g. 25.0", "bmi = weight in kg / (height in m)²; e.g. 25.0");
    check("MPTA − LDFA, mHKA", "MPTA − LDFA, mHKA");
  });
});
