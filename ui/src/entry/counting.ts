// Counts answered fields, for the numbers beside the sections.
import type { Field } from "../types/Field";
import type { Kind } from "../types/Kind";
import type { Answer, Answers } from "./paths";

/** Counts the answered fields of an answer; a list of texts or codes counts once, a list of records item by item. */
export function answered(answer: Answer | undefined, kind: Kind): number {
  if (answer === undefined || answer === null) return 0;
  if (typeof answer === "string") return answer.trim() === "" ? 0 : 1;
  if (kind.is === "record" && typeof answer === "object" && !Array.isArray(answer)) {
    return kind.fields.reduce((sum, field) => sum + answered(answer[field.name], field.kind), 0);
  }
  if (kind.is === "list" && Array.isArray(answer)) {
    const each = answer.map((item) => answered(item, kind.of));
    const sum = each.reduce((left, right) => left + right, 0);
    return kind.of.is === "record" ? sum : Math.min(sum, 1);
  }
  return 1;
}

/** Counts the answered fields of one section, its own "none" among them where it lies beside the list at the top. */
export function answeredIn(answers: Answers, section: readonly Field[]): number {
  return section.reduce((sum, field) => sum + answered(answers[field.name], field.kind), 0);
}
