import { expect, it } from "vitest";
import { wordsOfValue } from "./values";

function check(value: unknown, unit: string | null, expected: string, exact = false) {
  expect(wordsOfValue(value, unit, exact).replaceAll("\u00a0", " "), JSON.stringify(value)).toBe(expected);
}

it("writes numbers with their units", () => {
  check(29.4118, "kg/m²", "29.4 kg/m²");
  check(29.4118, "kg/m²", "29.4118 kg/m²", true);
  check(-2.5, "°", "−2.5°");
  check(-0.04, "mm", "0 mm");
  check(0.8694, null, "0.87");
  check(4.871, "l", "4.87 l");
  check(0, "min", "0 min");
});

it("writes times, codes, yes and no", () => {
  check("2026-03-04T08:15", null, "2026-03-04 08:15");
  check("bone_on_bone", null, "bone on bone");
  check(true, null, "yes");
  check(false, null, "no");
  check(null, "mm", "");
});

it("writes lists and groups", () => {
  check([], "min", "none");
  check([9, 10, 12], "mm", "9, 10, 12 mm");
  check([{ dose_mg: 1000, route: "oral" }], null, "dose 1000 mg, route oral");
  check([{ dose_mg: 1000 }, { dose_mg: 500 }], null, "1: dose 1000 mg; 2: dose 500 mg");
});
