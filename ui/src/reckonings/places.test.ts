import { expect, it } from "vitest";
import { miniature } from "../../dev/miniature";
import { byPlace, groupOf } from "./places";

function check(at: string, expected: string, reason: string) {
  expect(groupOf(miniature, at), reason).toBe(expected);
}

it("finds the group that something stands beside", () => {
  check("patient", "patient", "a section");
  check("knee.wear.medial", "knee.wear.medial", "a record in a record");
  check("cement.mixes", "cement.mixes", "a list of records");
  check("cement.mixes[1]", "cement.mixes[1]", "one of its items");
  check("cement.mixes[1].mixed_at", "cement.mixes[1]", "an answer stands in its record");
  check("patient.conditions", "patient", "a list of texts is an answer");
  check("patient.unheard.of", "patient", "what is not known stands in the nearest record");
  check("nowhere", "nowhere", "nothing is near");
});

it("puts together what stands at the same place, once each", () => {
  const found = byPlace([["a", "b"], ["b", "b"]], (places) => places);
  expect(found.get("a")?.length).toBe(1);
  expect(found.get("b")).toEqual([["a", "b"], ["b", "b"]]);
});
