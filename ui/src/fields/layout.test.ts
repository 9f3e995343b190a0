import { expect, it } from "vitest";
import { miniature } from "../../dev/miniature";
import type { Field } from "../types/Field";
import { paired, spanOf } from "./layout";

const number: Field = { name: "medial_mm", label: "Medial", help: "", unit: "mm", plausible: null, limits: null, long: false, kind: { is: "number" } };
const space = (name: string): Field => ({ ...number, name, kind: { is: "record", fields: [number, { ...number, name: "lateral_mm" }] } });

it("sets two small records side by side, and a third one alone", () => {
  const fields = [number, space("extension"), space("flexion"), space("third"), number, space("alone")];
  expect([...paired(fields)].map(([field, half]) => [field.name, half])).toEqual([["extension", "left"], ["flexion", "right"]]);
});

it("gives records and long texts the whole row", () => {
  const spans = new Map(miniature.map((field) => [field.name, spanOf(field)]));
  expect(spans.get("patient")).toBe(12);
  expect(spanOf({ ...number, kind: { is: "text" }, long: true })).toBe(12);
  expect(spanOf(number), "a number is short").toBe(3);
});
