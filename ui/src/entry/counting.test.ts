import { describe, expect, it } from "vitest";
import { miniature } from "../../dev/miniature";
import { answeredIn } from "./counting";
import type { Answers } from "./paths";

function check(answers: Answers, name: string, expected: number, reason: string) {
  const section = miniature.filter((field) => field.name === name);
  expect(answeredIn(answers, section), reason).toBe(expected);
}

describe("answeredIn", () => {
  it("counts leaves", () => {
    check({}, "patient", 0, "nothing recorded");
    check({ patient: { family_name: "Ek", height_cm: 0, smoker: false } }, "patient", 3, "0 and no are answers");
    check({ patient: { family_name: " ", allergies: [] } }, "patient", 0, "blank is not an answer");
    check({ patient: { allergies: [{ substance: "latex", reaction: "rash" }] } }, "patient", 2, "each field of an item");
    check({ patient: { conditions: ["gout", "asthma"] } }, "patient", 1, "lines count once");
    check({ knee: { wear: { medial: { bone_loss: true } } } }, "knee", 1, "nested records");
    check({ none_recorded: true }, "none_recorded", 1, "no events is an answer");
  });
});
