// Where on the screen something stands that the program says about a group of answers.
import { parentOf } from "../entry/paths";
import { fieldAt } from "../entry/words";
import type { Field } from "../types/Field";

/** Gives the group of answers (a record, a list of records or one of its items) at a path or nearest around it. */
export function groupOf(dictionary: readonly Field[], at: string): string {
  for (let path = at; path !== ""; path = parentOf(path)) {
    const kind = fieldAt(dictionary, path)?.kind;
    if (kind?.is === "record" || (kind?.is === "list" && kind.of.is === "record")) return path;
  }
  return at;
}

/** Puts things together that stand at the same place. */
export function byPlace<Thing>(things: readonly Thing[], placesOf: (thing: Thing) => readonly string[]): Map<string, Thing[]> {
  const found = new Map<string, Thing[]>();
  for (const thing of things) {
    for (const place of new Set(placesOf(thing))) {
      const there = found.get(place);
      if (there) there.push(thing);
      else found.set(place, [thing]);
    }
  }
  return found;
}
