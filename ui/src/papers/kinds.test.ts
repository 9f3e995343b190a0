import { expect, it } from "vitest";
import type { PaperChoice } from "#bridge";
import { fitted, KINDS, languagesOf, pagesOf } from "./kinds";

function check(choice: Partial<PaperChoice>, expected: Partial<PaperChoice>, reason: string) {
  const whole: PaperChoice = { kind: "operative-note", language: "en", page: "a4", addendum: null };
  expect(fitted({ ...whole, ...choice }), reason).toEqual({ ...whole, ...choice, ...expected });
}

it("offers what a paper has", () => {
  expect(KINDS.filter(({ kind }) => languagesOf(kind).length > 1).map(({ kind }) => kind)).toEqual(["discharge-letter"]);
  expect(KINDS.filter(({ kind }) => pagesOf(kind).some(({ page }) => page === "wallet")).map(({ kind }) => kind)).toEqual(["component-record"]);
});

it("keeps what goes together and lets go of the rest", () => {
  check({ kind: "discharge-letter", language: "de", page: "letter" }, {}, "all of it exists");
  check({ kind: "clinician-letter", language: "es" }, { language: "en" }, "not written in Spanish");
  check({ kind: "component-record", page: "wallet" }, {}, "for the pocket");
  check({ kind: "discharge-letter", page: "wallet" }, { page: "a4" }, "too long for a pocket");
  check({ kind: "addendum", addendum: 2 }, {}, "its number belongs to it");
  check({ kind: "operative-note", addendum: 2 }, { addendum: null }, "no other paper has one");
});
