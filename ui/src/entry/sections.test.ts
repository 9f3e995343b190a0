import { expect, it } from "vitest";
import { miniature } from "../../dev/miniature";
import { sectionsOf } from "./sections";

it("keeps the order of the operation and leaves no field out but the bookkeeping", () => {
  const sections = sectionsOf(miniature);
  expect(sections.map((section) => section.name)).toEqual([
    "patient", "setting", "times", "knee", "choice", "anaesthesia", "approach", "components", "cement", "events", "about",
  ]);
  const shown = sections.flatMap((section) => section.fields);
  expect(miniature.filter((field) => !shown.includes(field)).map((field) => field.name)).toEqual(["id"]);
});

it("puts no events beside the events", () => {
  const events = sectionsOf(miniature).find((section) => section.name === "events");
  expect(events?.fields.map((field) => field.name)).toEqual(["events", "none_recorded"]);
});
