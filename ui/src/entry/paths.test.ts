import { describe, expect, it } from "vitest";
import { answerAt, type Answers, listAt, record, steps } from "./paths";

function check(before: Answers, path: string, answer: Parameters<typeof record>[2], after: Answers, reason: string) {
  record(before, path, answer);
  expect(before, reason).toEqual(after);
}

describe("paths", () => {
  it("splits names and list places", () => {
    expect(steps("visits[0].events[12].what")).toEqual(["visits", 0, "events", 12, "what"]);
    expect(steps(""), "the top has no steps").toEqual([]);
  });

  it("reads what is recorded and nothing else", () => {
    const answers: Answers = { knee: { side: "left" }, components: [{ lot: "L1" }] };
    expect(answerAt(answers, "components[0].lot")).toBe("L1");
    expect(answerAt(answers, "components[1].lot"), "past the end").toBeUndefined();
    expect(answerAt(answers, "knee.side.more"), "below a text").toBeUndefined();
    expect(answerAt(answers, "toString"), "nothing inherited").toBeUndefined();
    expect(listAt(answers, "knee"), "a record is not a list").toEqual([]);
  });

  it("records in place", () => {
    check({}, "knee.side", "left", { knee: { side: "left" } }, "records on the way are made");
    check({}, "team[0].person", "M", { team: [{ person: "M" }] }, "lists on the way are made");
    check({ knee: { side: "left" } }, "knee.side", undefined, { knee: {} }, "undefined takes away");
    check({}, "knee.side", undefined, {}, "taking away makes nothing");
    check({ knee: null }, "knee.side", "left", { knee: { side: "left" } }, "null is not recorded");
    check({ a: [1, 2, 3] }, "a[1]", undefined, { a: [1, 3] }, "an item leaves no hole");
  });
});
