import { expect, it } from "vitest";
import { flawOf, stretchOf, together } from "./places";

function check(text: string, line: number, column: number, expected: string, reason: string) {
  const { from, to } = stretchOf(text, { line, column });
  expect(text.slice(from, to), reason).toBe(expected);
}

it("marks the word at a place", () => {
  check("a\n{{ patient.name }}\nb", 2, 4, "patient.name", "a name with its record");
  check("{% if %}", 1, 1, "{", "no word there");
  check("𝒳 ø {{ x }}", 1, 8, "x", "characters, not UTF-16 units");
  check("a\nb", 9, 1, "b", "after the last line");
  check("ab\nc", 1, 99, "", "after the end of a line");
});

it("reads the places of a refused save", () => {
  expect(flawOf({ path: "12:3", message: "Wrong." })).toEqual({ line: 12, column: 3, message: "Wrong.", hint: null });
  expect(flawOf({ path: "", message: "Wrong." }).line, "no place at all").toBe(1);
});

it("says each flaw once, in the order of the text", () => {
  const found = { line: 3, column: 2, message: "There is nothing called a.", hint: "Did you mean b?" };
  const again = { line: 3, column: 2, message: "There is nothing called a. Did you mean b?", hint: null };
  const other = { line: 1, column: 1, message: "It fails on another case.", hint: null };
  expect(together([found], [again, other])).toEqual([other, found]);
});
