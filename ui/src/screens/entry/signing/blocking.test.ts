import { expect, it } from "vitest";
import type { Finding } from "#bridge";
import { blocking, overridable, reasons, unconfirmed } from "./blocking";

const finding = (message: string, blocks: boolean, more: Partial<Finding> = {}): Finding =>
  ({ rule: "r", kind: blocks ? "missing" : "caution", paths: ["knee.side"], message, source: null, blocks, overridable: false, overridden: null, ...more });

it("stops for what blocks and for what would be lost, not for cautions", () => {
  const unread = { "patient.height_cm": { typed: "tall", sentence: "Write a number." } };
  expect(blocking([finding("Caution.", false), finding("The side is not recorded.", true)], unread)).toEqual([
    { path: "patient.height_cm", message: "“tall” could not be read. Write a number." },
    { path: "knee.side", message: "The side is not recorded." },
  ]);
  expect(blocking([finding("Caution.", false)], {})).toEqual([]);
});

it("asks for a reason where the rule allows one", () => {
  const expired = finding("The insert expired.", true, { rule: "expired", overridable: true });
  expect(blocking([expired], {}), "no dead end").toEqual([]);
  const asked = overridable([expired, finding("The side is not recorded.", true), finding("Expired, too.", false, { overridable: true, overridden: "It was the only one." })]);
  expect(asked.map(({ message }) => message), "not the one that has a reason already").toEqual(["The insert expired."]);
  expect(reasons(asked), "no reason yet").toBeUndefined();
  expect(reasons(asked.map((each) => ({ ...each, reason: "  The only size left. " })))).toEqual([{ rule: "expired", paths: ["knee.side"], reason: "The only size left." }]);
});

it("leaves usual answers to their sections", () => {
  const answers = { filled: ["approach", "closing"], confirmed: ["closing"] };
  expect(unconfirmed(answers)).toEqual(["approach"]);
  expect(blocking([finding("Usual answers in Approach are not confirmed.", true, { rule: "unconfirmed_answers" })], {})).toEqual([]);
});
