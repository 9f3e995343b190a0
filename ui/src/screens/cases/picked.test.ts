import { expect, it } from "vitest";
import type { CaseLine } from "../../types/CaseLine";
import { Picked, restOfDay, titleOf } from "./picked.svelte";

const line = (id: string, operation_date: string) => ({ id, operation_date }) as CaseLine;
const [a, b, c, d] = [line("a", "2026-03-02"), line("b", "2026-03-02"), line("c", ""), line("d", "2026-03-01")] as const;
const lines = [a, b, c, d];

it("chooses one by one and lets go again", () => {
  const picked = new Picked();
  picked.toggle(a);
  picked.toggle(d);
  picked.toggle(a);
  expect([...picked.ids]).toEqual(["d"]);
});

it("reaches from the last one touched, in both directions", () => {
  const picked = new Picked();
  picked.reach(c, lines);
  expect([...picked.ids], "without a beginning it is one case").toEqual(["c"]);
  picked.reach(a, lines);
  expect([...picked.ids].sort()).toEqual(["a", "b", "c"]);
});

it("knows what is left of the day", () => {
  const picked = new Picked();
  picked.toggle(a);
  expect(restOfDay(lines, picked).map(({ id }) => id)).toEqual(["b"]);
  picked.add([b]);
  expect(restOfDay(lines, picked)).toEqual([]);
  picked.toggle(c);
  expect(restOfDay(lines, picked), "a case without a day has no others").toEqual([]);
});

it("tells both knees of one patient apart", () => {
  expect(titleOf({ name: "Winther, Ib", side: "left", operation_date: "2026-03-02" } as CaseLine)).toBe("Winther, Ib, left, 2026-03-02");
  expect(titleOf({ name: "", side: "", operation_date: "" } as CaseLine)).toBe("A patient not recorded");
});
