import { expect, it } from "vitest";
import type { Finding } from "../../../types/Finding";
import { blocking } from "./blocking";

const finding = (message: string, blocks: boolean): Finding => ({ rule: "r", kind: blocks ? "missing" : "caution", paths: ["knee.side"], message, source: null, blocks });

it("stops for what blocks and for what would be lost, not for cautions", () => {
  const unread = { "patient.height_cm": { typed: "tall", sentence: "Write a number." } };
  expect(blocking([finding("Caution.", false), finding("The side is not recorded.", true)], unread)).toEqual([
    { path: "patient.height_cm", message: "“tall” could not be read. Write a number." },
    { path: "knee.side", message: "The side is not recorded." },
  ]);
  expect(blocking([finding("Caution.", false)], {})).toEqual([]);
});
