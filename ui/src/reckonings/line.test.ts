import { describe, expect, it } from "vitest";
import type { Answer } from "../types/Answer";
import type { Output } from "../types/Output";
import { lineOf, needsOf, resultsOf, sourceWords } from "./line";

function answer(reckoning: string, results: Output[], more: Partial<Answer> = {}): Answer {
  return { reckoning, title: reckoning, results, statements: [], formula: "", inputs: [], limits: [], sources: [], notes: [], ...more };
}
const number = (name: string, value: number | null, unit: string, not_computable?: string): Output =>
  not_computable === undefined ? { name, value, unit } : { name, value, unit, not_computable };
const text = (name: string, value: string | boolean): Output => ({ name, value, unit: null });

describe("the line", () => {
  function check(given: Answer, expected: string) {
    expect(lineOf(given).replaceAll("\u00a0", " ")).toBe(expected);
  }

  it("does not say the title twice", () => {
    check(answer("bmi", [number("bmi_kg_m2", 29.4118, "kg/m²"), text("band", "pre-obese")]), "29.4 kg/m² · band pre-obese");
  });

  it("shows the main results only", () => {
    const results = [number("ahka_deg", -3, "°"), number("mhka_deviation_deg", -6, "°"), text("phenotype", "I"), text("phenotype_words", "I (varus)")];
    check(answer("alignment", results), "aHKA −3° · phenotype I (varus)");
    check(answer("unforeseen", [..."abcdef"].map((name) => number(name, 1, "mm"))), "a 1 mm · b 1 mm · c 1 mm · d 1 mm");
  });

  it("says yes and no", () => {
    check(answer("cut", [number("deviation_mm", 0.5, "mm"), text("within_tolerance", true)]), "deviation 0.5 mm · within tolerance: yes");
  });

  it("leaves out what is not computable or empty", () => {
    const pauses = { name: "pauses_min", value: [], unit: "min" } as unknown as Output;
    check(answer("tourniquet_time", [number("total_min", 80, "min"), number("x_mm", null, "mm", "needs y_mm"), pauses]), "total 80 min");
  });

  it("does not number the one mix beside which it stands", () => {
    check(answer("cement_times", [number("mix_1_mixed_to_hard_min", 11, "min")]), "mixed to hard 11 min");
  });
});

it("says what is needed where nothing could be computed", () => {
  expect(needsOf(answer("bmi", [], { not_computable: "needs weight_kg" }))).toBe("needs weight");
  expect(needsOf(answer("patella", [number("change_mm", null, "mm", "needs before_mm")]))).toBe("change needs thickness before");
  expect(needsOf(answer("score", [number("change", null, "points", "needs score_before")])), "the first score has none before it").toBe("");
  expect(needsOf(answer("bmi", [number("bmi_kg_m2", 20, "kg/m²")])), "nothing").toBe("");
});

it("gives all results as they were computed", () => {
  const found = resultsOf(answer("bmi", [number("bmi_kg_m2", 29.4118, "kg/m²"), number("z_mm", null, "mm", "needs y_mm")]));
  expect(found).toEqual([{ name: "BMI", value: "29.4118\u00a0kg/m²", needs: "" }, { name: "z", value: "", needs: "needs y" }]);
});

it("writes a source with its year and how well it is held", () => {
  expect(sourceWords({ title: "Mosteller", place: "N Engl J Med 317:1098", year: 1987, kind: "published" })).toBe("Mosteller, N Engl J Med 317:1098, 1987 (published)");
  expect(sourceWords({ title: "Some laxity is wanted", place: "", year: null, kind: "common_practice" })).toBe("Some laxity is wanted (common practice)");
});
