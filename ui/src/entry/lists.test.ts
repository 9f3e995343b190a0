import { describe, expect, it } from "vitest";
import { miniature } from "../../dev/miniature";
import { afterRemoval, afterSwap, append, type Moved, noneAfter, rearrange, rekeyed } from "./lists";
import type { Answers } from "./paths";

function check(before: Answers, path: string, moved: Moved, after: Answers, reason: string) {
  rearrange(before, path, moved, miniature);
  expect(before, reason).toEqual(after);
}

const parts = (...lots: string[]) => lots.map((lot) => ({ lot }));

describe("rearrange", () => {
  it("moves and removes items", () => {
    check({ events: [{ what: "a" }, { what: "b" }] }, "events", afterSwap(0, 1), { events: [{ what: "b" }, { what: "a" }] }, "swap");
    check({ events: [{ what: "a" }] }, "events", afterRemoval(0), {}, "the last item takes the list away");
  });

  it("keeps references at the same component", () => {
    check(
      { components: parts("a", "b"), cement: { mixes: [{ component: 1 }] }, events: [{ component: 0 }] },
      "components",
      afterSwap(0, 1),
      { components: parts("b", "a"), cement: { mixes: [{ component: 0 }] }, events: [{ component: 1 }] },
      "both follow",
    );
    check(
      { components: parts("a", "b", "c"), cement: { mixes: [{ component: 2 }, { component: 0 }] } },
      "components",
      afterRemoval(0),
      { components: parts("b", "c"), cement: { mixes: [{ component: 1 }, {}] } },
      "the removed one is no longer named",
    );
    check({ components: parts("a", "b"), events: [{ component: 1 }, { what: "x" }] }, "events", afterSwap(0, 1),
      { components: parts("a", "b"), events: [{ what: "x" }, { component: 1 }] }, "other lists move no reference");
  });
});

describe("rekeyed", () => {
  it("takes unread texts along", () => {
    const kept = { "components[0].lot": 1, "components[12].lot": 2, "components[1].made_on": 3, "times.incision": 4 };
    expect(rekeyed(kept, "components", afterRemoval(0))).toEqual({ "components[11].lot": 2, "components[0].made_on": 3, "times.incision": 4 });
  });
});

describe("append", () => {
  it("adds at the end and takes back the none of that list", () => {
    const answers: Answers = { patient: { none_recorded: true }, none_recorded: true };
    expect(append(answers, "patient.allergies", {}, "patient.none_recorded")).toBe(0);
    expect(answers, "the other none stays").toEqual({ patient: { allergies: [{}] }, none_recorded: true });
  });

  it("leaves a none alone that belongs to another list", () => {
    const answers: Answers = { none_recorded: true };
    append(answers, "components", {}, undefined);
    expect(answers).toEqual({ components: [{}], none_recorded: true });
  });
});

describe("noneAfter", () => {
  const named = (name: string) => miniature.filter((field) => field.name === name).slice(0, 1);

  it("finds the none that stands directly after a list", () => {
    for (const [name, expected] of [["events", "No events"], ["components", undefined], ["patient", undefined]] as const) {
      for (const field of named(name)) expect(noneAfter(field, miniature)?.label, name).toBe(expected);
    }
  });
});
