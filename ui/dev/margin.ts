// What the stand-in program says beside the answers: one reckoning, one drawing, one scheme of labels.
import { type Answers, answerAt, listAt } from "../src/entry/paths";
import type { Beside } from "../src/types/Beside";
import type { Component } from "../src/types/Component";
import type { Drawn } from "../src/types/Drawn";
import type { Finding } from "../src/types/Finding";
import type { Scanned } from "../src/types/Scanned";
import type { Source } from "../src/types/Source";

const source: Source = { title: "An invented book", year: 2001, kind: "published", place: "page 7" };

export function findings(answers: Answers): Finding[] {
  const found: Finding[] = [];
  const find = (kind: Finding["kind"], path: string, message: string, source: string | null) =>
    found.push({ rule: "stand_in", kind, paths: [path], message, source, blocks: kind !== "caution", overridable: kind === "conflict", overridden: null });
  if (answerAt(answers, "knee.side") === undefined) find("missing", "knee.side", "The side is not recorded.", null);
  if (answerAt(answers, "patient.height_cm") === 99) find("conflict", "patient.height_cm", "The height is out of its range.", null);
  if (answerAt(answers, "patient.smoker") === true) find("caution", "patient.smoker", "The patient smokes.", "An invented book");
  return found;
}

export function reckonings(answers: Answers): Beside[] {
  const height = answerAt(answers, "patient.height_cm");
  const weight = answerAt(answers, "patient.weight_kg");
  if (typeof height !== "number" && typeof weight !== "number") return [];
  const both = typeof height === "number" && typeof weight === "number";
  const given = [{ name: "height_cm", value: height, unit: "cm" }, { name: "weight_kg", value: weight, unit: "kg" }];
  const answer: Beside["answer"] = {
    reckoning: "bmi",
    title: "Body mass index",
    results: both ? [{ name: "bmi_kg_m2", value: (weight * 10000) / height ** 2, unit: "kg/m²" }] : [],
    ...(both ? {} : { not_computable: `needs ${typeof height === "number" ? "weight_kg" : "height_cm"}` }),
    statements: [],
    formula: "bmi = weight in kg / (height in m)²",
    inputs: given.filter(({ value }) => value !== undefined),
    limits: [],
    sources: [source],
    notes: [],
  };
  return [{ at: "patient", answer }];
}

export function drawings(answers: Answers): Drawn[] {
  if (answerAt(answers, "knee.side") === undefined) return [];
  const svg = '<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="10mm" viewBox="0 0 40 10"><line x1="2" y1="5" x2="38" y2="5" stroke="#1f2328"/></svg>';
  return [{ name: "axis", at: "knee.wear", svg, alt: "A line from left to right." }];
}

/** Reads `01…10…` and nothing else. A label that is there already is that component. */
export function scanned(answers: Answers, scan: string): Scanned {
  const [, device, lot] = /^01(\d{14})10([0-9A-Z]+)$/.exec(scan) ?? [];
  if (device === undefined || lot === undefined) throw { code: "failed", message: "This is no component label that can be read.", places: [] };
  const raw = (component: unknown) => (component as Component).scan?.raw;
  const there = listAt(answers, "components").findIndex((component) => raw(component) === scan);
  const component: Component = { lot, scan: { raw: scan, scheme: "gs1", device_identifier: device } };
  if (there >= 0) return { component, into: there, warnings: [], sentence: "This label is there already." };
  const warnings = lot.includes("17") ? ["The lot may hold a date."] : [];
  return { component, into: null, warnings, sentence: `Read: device ${device}, lot ${lot}.` };
}
