import { expect, it } from "vitest";
import type { Reading } from "../types/Reading";
import { figuresOf } from "./figures";

const limits = { flesch_kincaid_grade: 6, smog_grade: 8 };

function check(flesch_kincaid_grade: number, smog_grade: number, expected: [string, boolean][]) {
  const reading = { flesch_kincaid_grade, smog_grade, limits } as Reading;
  expect(figuresOf(reading).map(({ words, over }) => [words, over])).toEqual(expected);
}

it("sets each grade beside its limit", () => {
  check(5.24, 7.96, [["Flesch-Kincaid grade 5.2", false], ["SMOG grade 8.0", false]]);
  check(6, 8.3, [["Flesch-Kincaid grade 6.0", false], ["SMOG grade 8.3", true]]);
  // 6.0 beside "over the limit of 6" would be a riddle.
  check(6.04, 3, [["Flesch-Kincaid grade 6.04", true], ["SMOG grade 3.0", false]]);
});
