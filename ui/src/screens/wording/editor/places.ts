// Where a flaw lies in a text. Lines and columns are counted from 1, in characters.
import type { Flaw } from "../../../types/Flaw";

/** A stretch of a text, in UTF-16 units as the browser counts. */
export type Stretch = { from: number; to: number };

/** Finds the stretch that a flaw marks: the word at its place, or one character. A place outside the text is brought inside. */
export function stretchOf(text: string, { line, column }: Pick<Flaw, "line" | "column">): Stretch {
  const lines = text.split("\n");
  const place = Math.min(Math.max(line, 1), lines.length) - 1;
  const start = lines.slice(0, place).reduce((sum, each) => sum + each.length + 1, 0);
  const inLine = lines[place] ?? "";
  const before = [...inLine].slice(0, Math.max(column, 1) - 1).join("");
  const from = start + before.length;
  const word = /^[\p{L}\p{N}_.]+/u.exec(inLine.slice(before.length))?.[0] ?? [...inLine.slice(before.length)][0] ?? "";
  return { from, to: from + word.length };
}

/** Reads `line:column` of a refused save; anything else is the beginning of the text. */
export function flawOf({ path, message }: { path: string; message: string }): Flaw {
  const [, line, column] = /^(\d+):(\d+)$/.exec(path) ?? [];
  return { line: Number(line ?? 1), column: Number(column ?? 1), message, hint: null };
}

/** Puts the flaws found while typing and those of a refused save together, each once, in the order of the text. */
export function together(found: readonly Flaw[], refused: readonly Flaw[]): Flaw[] {
  // A refused save says message and hint in one sentence.
  const known = (flaw: Flaw) => found.some((each) => each.line === flaw.line && each.column === flaw.column && flaw.message.startsWith(each.message));
  return [...found, ...refused.filter((flaw) => !known(flaw))].sort((one, other) => one.line - other.line || one.column - other.column);
}
