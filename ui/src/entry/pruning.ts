// Leaves out what is empty before an entry is sent away. Keys that the dictionary does not know stay as they are.
import type { Field } from "../types/Field";
import type { Kind } from "../types/Kind";
import type { Answer, Answers } from "./paths";

/** Gives a copy of the answers without empty texts, records and lists. */
export function pruned(answers: Answers, fields: readonly Field[]): Answers {
  const known = new Map(fields.map((field) => [field.name, field.kind]));
  const kept: Answers = {};
  for (const [name, answer] of Object.entries(answers)) {
    const kind = known.get(name);
    const left = kind === undefined ? answer : prunedAnswer(answer, kind);
    if (left !== undefined) kept[name] = left;
  }
  return kept;
}

function prunedAnswer(answer: Answer, kind: Kind): Answer | undefined {
  if (answer === null) return undefined;
  if (typeof answer === "string") return answer.trim() === "" ? undefined : answer;
  if (Array.isArray(answer) && kind.is === "list") return prunedList(answer, kind.of);
  if (typeof answer === "object" && !Array.isArray(answer) && kind.is === "record") {
    const left = pruned(answer, kind.fields);
    return Object.keys(left).length === 0 ? undefined : left;
  }
  return answer;
}

function prunedList(items: Answer[], kind: Kind): Answer[] | undefined {
  const left = items.map((item) => prunedAnswer(item, kind));
  if (kind.is !== "record") {
    const filled = left.filter((item) => item !== undefined);
    return filled.length === 0 ? undefined : filled;
  }
  // Other answers point at components by their place, so only empty items at the end may go.
  while (left.length > 0 && left.at(-1) === undefined) left.pop();
  return left.length === 0 ? undefined : left.map((item) => item ?? {});
}
