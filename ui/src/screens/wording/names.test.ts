import { expect, it } from "vitest";
import type { ViewName } from "../../types/ViewName";
import { matching } from "./names";

const view = (name: string, meaning: string, example: string | null): ViewName => ({ name, what: "text", meaning, example });
const names = [view("patient.family_name", "Family name", "Ødegård"), view("derived.operation", "What was done", "left knee"), view("knee.side", "Side", "left")];

function check(asked: string, expected: string[]) {
  expect(matching(names, asked).map(({ name }) => name), asked).toEqual(expected);
}

it("finds names by name, meaning and example", () => {
  check("", ["patient.family_name", "derived.operation", "knee.side"]);
  check("  KNEE ", ["knee.side", "derived.operation"]);
  check("left side", ["knee.side"]);
  check("ødegard", ["patient.family_name"]);
  check("nothing", []);
});
