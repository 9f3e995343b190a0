import { describe, expect, it } from "vitest";
import { type Read, readDate, readLines, readNumber, readTime } from "./reading";

const now = new Date(2026, 2, 4, 8, 5);

/** Expected: the answer, null for nothing, or a part of the sentence behind "? ". */
function check(read: Read, expected: unknown, reason: string) {
  if (typeof expected === "string" && expected.startsWith("? ")) {
    expect(read.is, reason).toBe("unread");
    expect(read.is === "unread" && read.sentence, reason).toContain(expected.slice(2));
  } else if (expected === null) expect(read, reason).toEqual({ is: "nothing" });
  else expect(read, reason).toEqual({ is: "answer", answer: expected });
}

describe("readNumber", () => {
  const number = (typed: string, expected: unknown, reason: string) =>
    check(readNumber(typed, { whole: false, unit: "mm", limits: null }), expected, reason);
  const whole = (typed: string, expected: unknown, reason: string) =>
    check(readNumber(typed, { whole: true, unit: null, limits: [0, 4] }), expected, reason);

  it("reads numbers as people write them", () => {
    number(" 12.5 ", 12.5, "plain");
    number("12.", 12, "half typed");
    number("9 mm", 9, "with its unit");
    number("1,5", 1.5, "decimal comma");
    number("−3", -3, "typographic minus");
    number("-0", 0, "no negative nothing");
    number("", null, "empty is not an answer");
    whole("4", 4, "at the limit");
  });

  it("says what cannot be read", () => {
    number("about 9", "? is not a number", "words");
    number("1,500", "? two ways", "thousand or decimal");
    number("1e3", "? is not a number", "no exponents");
    number("9".repeat(400), "? too large", "no number for JSON");
    whole("-1", "? 0 or more", "nothing is there less than no times");
    number("Infinity", "? is not a number", "not finite");
    whole("2.5", "? whole number", "decimals");
    whole("5", "? from 0 to 4", "outside the hard limits");
  });
});

describe("readDate", () => {
  const date = (typed: string, expected: unknown, reason: string) => check(readDate(typed, now), expected, reason);

  it("reads what has one meaning", () => {
    date("2026-03-04", "2026-03-04", "the written form");
    date("20260304", "2026-03-04", "without strokes");
    date("today", "2026-03-04", "from the clock that it was given");
    date("4 March 2026", "2026-03-04", "month in words");
    date("13/3/2026", "2026-03-13", "only the first can be the day");
    date("3/13/2026", "2026-03-13", "only the second can be the day");
    date("5.5.2026", "2026-05-05", "both the same");
    date("2024-02-29", "2024-02-29", "leap day");
    date("", null, "empty is not an answer");
  });

  it("says what cannot be read", () => {
    date("4/3/2026", "? 2026-04-03 or 2026-03-04", "two days");
    date("2026-02-29", "? no day 2026-02-29", "no leap year");
    date("31/4/2026", "? no day 2026-04-31", "April has 30");
    date("40/40/2026", "? no day", "nonsense");
    date("3/26", "? such as 2026-03-04", "incomplete");
    date("12 Foo 2026", "? such as 2026-03-04", "no such month");
  });
});

describe("readTime", () => {
  const time = (typed: string, on: string | undefined, expected: unknown, reason: string) =>
    check(readTime(typed, on, now), expected, reason);

  it("completes a time of day with the operation date", () => {
    time("8:15", "2026-03-02", "2026-03-02T08:15", "short hour");
    time("0815", "2026-03-02", "2026-03-02T08:15", "no colon");
    time("2026-03-05T00:10", "2026-03-02", "2026-03-05T00:10", "past midnight, written in full");
    time("5 March 2026 00:10", undefined, "2026-03-05T00:10", "day in words");
    time("now", undefined, "2026-03-04T08:05", "from the clock that it was given");
  });

  it("says what cannot be read", () => {
    time("8:15", undefined, "? operation date first", "no day to complete it with");
    time("25:00", "2026-03-02", "? no time 25:00", "hour");
    time("morning", "2026-03-02", "? such as 08:15", "words");
    time("815", "2026-03-02", "? such as 08:15", "three digits");
    time("4/3/2026 08:15", "2026-03-02", "? day and time", "the day has two meanings");
  });
});

describe("readLines", () => {
  it("takes one item per line", () => {
    check(readLines(" gout\n\nasthma "), ["gout", "asthma"], "trimmed, blank lines dropped");
    check(readLines("\n "), null, "nothing but blanks");
  });
});
