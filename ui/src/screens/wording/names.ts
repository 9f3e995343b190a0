// Finds names of the view as one types.
import type { ViewName } from "../../types/ViewName";
import type { ViewNameWhat } from "../../types/ViewNameWhat";

/** What a name holds, in words. */
export const SORTS: Readonly<Record<ViewNameWhat, string>> = {
  text: "text",
  number: "number",
  date: "date",
  time: "time",
  yes_no: "yes or no",
  code: "code",
  truth: "true or false",
  record: "group",
  list: "list",
};

const plain = (text: string) => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();

/** Gives the names that hold every asked word in name, meaning or example; those whose own name holds them come first. */
export function matching(names: readonly ViewName[], asked: string): readonly ViewName[] {
  const words = plain(asked).split(/\s+/).filter((word) => word !== "");
  if (words.length === 0) return names;
  const holds = (text: string) => words.every((word) => plain(text).includes(word));
  const found = names.filter(({ name, meaning, example }) => holds(`${name} ${meaning} ${example ?? ""}`));
  return [...found.filter(({ name }) => holds(name)), ...found.filter(({ name }) => !holds(name))];
}
