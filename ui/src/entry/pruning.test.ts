import { describe, expect, it } from "vitest";
import { miniature } from "../../dev/miniature";
import type { Answers } from "./paths";
import { pruned } from "./pruning";

function check(answers: Answers, expected: Answers, reason: string) {
  expect(pruned(answers, miniature), reason).toEqual(expected);
}

describe("pruned", () => {
  it("leaves out what is empty", () => {
    check({ patient: { family_name: "  ", allergies: [] } }, {}, "blank text and empty list");
    check({ knee: { wear: { medial: {} }, side: "left" } }, { knee: { side: "left" } }, "nested empty records");
    check({ patient: { conditions: ["", "gout", " "] } }, { patient: { conditions: ["gout"] } }, "blank lines");
    check({ patient: { height_cm: 0, smoker: false } }, { patient: { height_cm: 0, smoker: false } }, "0 and no are answers");
  });

  it("keeps the places of components", () => {
    check({ components: [{}, { lot: "2" }, {}] }, { components: [{}, { lot: "2" }] }, "only the empty end goes");
  });

  it("keeps unknown keys as they are", () => {
    check({ later: "", patient: { mood: [] } }, { later: "", patient: { mood: [] } }, "not ours to drop");
  });
});
