import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { Idle, whileRunning } from "./idle";

const MINUTE = 60_000;
let away: ReturnType<typeof vi.fn<() => void>>;
let idle: Idle;

beforeEach(() => {
  vi.useFakeTimers();
  away = vi.fn<() => void>();
  idle = new Idle(away);
});
afterEach(() => {
  idle.stop();
  vi.useRealTimers();
});

it("calls once when nobody was there for the whole while", () => {
  idle.watch(10);
  vi.advanceTimersByTime(10 * MINUTE - 1);
  expect(away).not.toHaveBeenCalled();
  vi.advanceTimersByTime(1);
  expect(away).toHaveBeenCalledTimes(1);
  vi.advanceTimersByTime(60 * MINUTE);
  expect(away, "not again until it is watched again").toHaveBeenCalledTimes(1);
});

it("begins anew with every touch", () => {
  idle.watch(10);
  vi.advanceTimersByTime(9 * MINUTE);
  idle.touched();
  vi.advanceTimersByTime(9 * MINUTE);
  expect(away).not.toHaveBeenCalled();
  vi.advanceTimersByTime(MINUTE);
  expect(away).toHaveBeenCalledTimes(1);
});

it("does not take the key that wakes a sleeping computer for somebody who was there", () => {
  idle.watch(10);
  // The clock goes on, the timers did not.
  vi.setSystemTime(Date.now() + 8 * 60 * MINUTE);
  idle.touched();
  expect(away).toHaveBeenCalledTimes(1);
});

it("watches nothing when told so", () => {
  idle.watch(1);
  idle.watch(null);
  idle.touched();
  vi.advanceTimersByTime(60 * MINUTE);
  expect(away).not.toHaveBeenCalled();
});

it("takes a changed while from then on", () => {
  idle.watch(10);
  vi.advanceTimersByTime(2 * MINUTE);
  idle.watch(1);
  vi.advanceTimersByTime(MINUTE);
  expect(away).toHaveBeenCalledTimes(1);
});

it("takes work under way for somebody who is there, and counts from its end", async () => {
  idle.watch(10);
  let end = () => undefined as void;
  const work = whileRunning(() => new Promise<void>((resolve) => (end = resolve)));
  vi.advanceTimersByTime(25 * MINUTE);
  expect(away, "a long batch is not cut off").not.toHaveBeenCalled();
  end();
  await work;
  vi.advanceTimersByTime(10 * MINUTE - 1);
  expect(away, "the while begins at its end").not.toHaveBeenCalled();
  vi.advanceTimersByTime(10 * MINUTE);
  expect(away).toHaveBeenCalledTimes(1);
});

it("counts work that failed as ended", async () => {
  await expect(whileRunning(() => Promise.reject(new Error("full")))).rejects.toThrow("full");
  idle.watch(10);
  vi.advanceTimersByTime(10 * MINUTE);
  expect(away).toHaveBeenCalledTimes(1);
});
