import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { Latest } from "./latest";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

function rig() {
  const taken: string[] = [];
  const ends: ((answer: string) => void)[] = [];
  const latest = new Latest<string>(150, () => new Promise((end) => void ends.push(end)), (answer) => void taken.push(answer), () => undefined);
  return { latest, taken, ends };
}

it("asks once after a burst of changes", async () => {
  const { latest, ends } = rig();
  for (let key = 0; key < 5; key++) latest.change();
  await vi.advanceTimersByTimeAsync(150);
  expect(ends.length).toBe(1);
});

it("takes the answer to the latest question, whatever the order of the answers", async () => {
  const { latest, taken, ends } = rig();
  void latest.now();
  void latest.now();
  ends[1]?.("second");
  ends[0]?.("first");
  await vi.advanceTimersByTimeAsync(0);
  expect(taken, "the late first answer is dropped").toEqual(["second"]);
});

it("takes nothing after it was stopped", async () => {
  const { latest, taken, ends } = rig();
  void latest.now();
  latest.change();
  latest.stop();
  ends[0]?.("late");
  await vi.advanceTimersByTimeAsync(500);
  expect(taken).toEqual([]);
  expect(ends.length, "the waiting question is not asked").toBe(1);
});
