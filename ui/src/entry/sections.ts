// Divides the dictionary into the sections that the entry screen shows, in the order of the operation.
import type { Field } from "../types/Field";
import { noneAfter } from "./lists";

export type Section = {
  name: string;
  label: string;
  /** The top-level fields of the section: one record or list, with its "none" if it has one. */
  fields: Field[];
};

/** Name of the section that holds the entry's own bookkeeping. */
export const ABOUT = "about";
/** Bookkeeping that the program keeps by itself. */
const KEPT = ["format", "id", "created_at", "filled", "confirmed", "overrides"];

/** Gives the sections; what is no section of its own comes last, as a section about the entry itself. */
export function sectionsOf(dictionary: readonly Field[]): Section[] {
  const shown = dictionary.filter((field) => !KEPT.includes(field.name));
  const nones = shown.map((field) => noneAfter(field, shown));
  const sections = shown
    .filter((field) => field.kind.is === "record" || field.kind.is === "list")
    .map((field) => {
      const none = nones[shown.indexOf(field)];
      return { name: field.name, label: field.label, fields: none === undefined ? [field] : [field, none] };
    });
  const rest = shown.filter((field) => !["record", "list"].includes(field.kind.is) && !nones.includes(field));
  return rest.length === 0 ? sections : [...sections, { name: ABOUT, label: "This entry", fields: rest }];
}
