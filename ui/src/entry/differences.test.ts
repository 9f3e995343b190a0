import { expect, it } from "vitest";
import { miniature } from "../../dev/miniature";
import type { Case } from "../types/Case";
import { differences, shownAs } from "./differences";

const entry = (answers: object) => ({ id: "one", ...answers }) as unknown as Case;

function check(one: object, other: object, expected: [string, string, string][], reason: string) {
  const found = differences(entry(one), entry(other), miniature).map(({ labels, one: before, other: now }) => [labels.join(", "), before, now]);
  expect(found, reason).toEqual(expected);
}

it("names each answer that differs, in words and with its unit", () => {
  check({ patient: { height_cm: 170 } }, { patient: { height_cm: 171 } }, [["Patient, Height", "170 cm", "171 cm"]], "a number");
  check({}, { knee: { side: "left" } }, [["Knee, Side", "", "Left"]], "one that was not recorded");
  check({ patient: { smoker: true } }, { patient: { smoker: false } }, [["Patient, Smokes", "Yes", "No"]], "no is an answer");
  check({ components: [{ lot: "A" }] }, { components: [{ lot: "A" }, { lot: "B" }] }, [["Components, no. 2, Lot", "", "B"]], "an item that came");
});

it("finds nothing where nothing differs", () => {
  check({ patient: { conditions: ["gout"] } }, { patient: { conditions: ["gout"] } }, [], "equal lists");
  check({ patient: {} }, {}, [], "an empty record is no answer");
});

it("tells a whole item that came or went", () => {
  expect(shownAs({ role: "tibial_tray", lot: "A1" }, { is: "record", fields: [] }, null)).toBe("tibial tray · A1");
  expect(shownAs(null, null, null)).toBe("");
});
