// How wide each field stands in the twelve columns of the entry.
import type { Field } from "../types/Field";
import type { Kind } from "../types/Kind";

export type Span = 3 | 4 | 6 | 12;

/** Most choices that stand side by side; more become a drop-down list. */
export const SIDE_BY_SIDE = 4;

/** Gives the columns that a field takes. */
export function spanOf(field: Field): Span {
  const { kind } = field;
  switch (kind.is) {
    case "text":
      return field.long ? 12 : 6;
    case "code":
      return spanOfChoices(kind);
    case "record":
    case "list":
      return 12;
    case "component":
    case "id":
      return 6;
    default:
      return 3;
  }
}

function isSmall(field: Field): boolean {
  return field.kind.is === "record" && field.kind.fields.reduce((sum, inner) => sum + spanOf(inner), 0) <= 6;
}

export type Half = "left" | "right";

/** Finds the small records that stand side by side: two that follow each other, such as extension and flexion. */
export function paired(fields: readonly Field[]): Map<Field, Half> {
  const found = new Map<Field, Half>();
  for (const [place, field] of fields.entries()) {
    const next = fields[place + 1];
    if (next === undefined || found.has(field) || !isSmall(field) || !isSmall(next)) continue;
    found.set(field, "left").set(next, "right");
  }
  return found;
}

function spanOfChoices(kind: Extract<Kind, { is: "code" }>): Span {
  const longest = Math.max(...kind.codes.map((code) => code.words.length));
  if (kind.codes.length > SIDE_BY_SIDE) return longest <= 22 ? 4 : 6;
  const letters = kind.codes.reduce((sum, code) => sum + code.words.length + 4, 0);
  return letters <= 26 ? 4 : letters <= 38 ? 6 : 12;
}
