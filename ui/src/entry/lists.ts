// Adds, removes and moves the items of a list, and keeps answers that name a component pointing at the same one.
import type { Field } from "../types/Field";
import type { Kind } from "../types/Kind";
import { type Answer, type Answers, answerAt, itemOf, listAt, record } from "./paths";

/** Where the item that was at a place is now; undefined: it is gone. */
export type Moved = (place: number) => number | undefined;

/** The change of places when one item is removed. */
export function afterRemoval(removed: number): Moved {
  return (place) => (place === removed ? undefined : place > removed ? place - 1 : place);
}

/** The change of places when two items trade theirs. */
export function afterSwap(one: number, other: number): Moved {
  return (place) => (place === one ? other : place === other ? one : place);
}

/** Puts the items of a list in their new places, in place; a list of components takes its references along. */
export function rearrange(answers: Answers, path: string, moved: Moved, dictionary: readonly Field[]): void {
  const after: Answer[] = [];
  for (const [place, item] of listAt(answers, path).entries()) {
    const now = moved(place);
    if (now !== undefined) after[now] = item;
  }
  record(answers, path, after.length === 0 ? undefined : after);
  if (path === "components") followComponents(answers, { is: "record", fields: [...dictionary] }, moved);
}

function followComponents(answer: Answer | undefined, kind: Kind, moved: Moved): void {
  if (typeof answer !== "object" || answer === null) return;
  if (kind.is === "list" && Array.isArray(answer)) {
    for (const item of answer) followComponents(item, kind.of, moved);
  } else if (kind.is === "record" && !Array.isArray(answer)) {
    for (const field of kind.fields) {
      const inside = answer[field.name];
      if (field.kind.is !== "component") followComponents(inside, field.kind, moved);
      else if (typeof inside === "number") record(answer, field.name, moved(inside));
    }
  }
}

/** Renames the keys of whatever is kept by path (texts that could not be read) after a list changed. */
export function rekeyed<T>(kept: Record<string, T>, path: string, moved: Moved): Record<string, T> {
  const after: Record<string, T> = {};
  for (const [key, value] of Object.entries(kept)) {
    const place = key.startsWith(`${path}[`) ? Number.parseInt(key.slice(path.length + 1), 10) : Number.NaN;
    if (Number.isNaN(place)) {
      after[key] = value;
      continue;
    }
    const now = moved(place);
    const rest = key.slice(itemOf(path, place).length);
    if (now !== undefined) after[itemOf(path, now) + rest] = value;
  }
  return after;
}

/** Adds an item at the end and gives its place; the "none" of that list, if it has one, no longer holds. */
export function append(answers: Answers, path: string, item: Answer, none: string | undefined): number {
  const place = listAt(answers, path).length;
  record(answers, itemOf(path, place), item);
  if (none !== undefined && answerAt(answers, none) === true) record(answers, none, undefined);
  return place;
}

/** Gives the "none" field that belongs to a list: in the dictionary it stands directly after it. */
export function noneAfter(list: Field, beside: readonly Field[]): Field | undefined {
  if (list.kind.is !== "list") return undefined;
  const next = beside[beside.indexOf(list) + 1];
  return next?.name === "none_recorded" ? next : undefined;
}
