import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { Attempt, secondsIn } from "./attempt.svelte";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

const failing = (code: string, message: string) => () => Promise.reject({ code, message, places: [] });

it("counts down until the next passphrase is looked at", async () => {
  const attempt = new Attempt();
  expect(await attempt.run(failing("wait", "Wait 4 seconds and try again."))).toBe(false);
  expect(attempt.wait).toBe(4);
  expect(attempt.sentence).toContain("4 seconds");
  vi.advanceTimersByTime(3000);
  expect(attempt.sentence).toContain("one second");
  vi.advanceTimersByTime(1000);
  expect(attempt.wait, "the next one may come").toBe(0);
  expect(attempt.sentence).toBe("");
});

it("says what went wrong in plain words", async () => {
  const attempt = new Attempt();
  await attempt.run(failing("wrong_passphrase", "One of the signs of this recovery code is wrong."));
  expect(attempt.sentence, "what the program noticed helps more than that it was wrong").toBe("One of the signs of this recovery code is wrong.");
  await attempt.run(failing("failed", "There is no file."));
  expect(attempt.sentence).toBe("There is no file.");
  expect(await attempt.run(async () => undefined)).toBe(true);
  expect(attempt.sentence, "forgotten with the next try").toBe("");
});

it("reads seconds out of a sentence", () => {
  expect(secondsIn("Wait 60 seconds.")).toBe(60);
  expect(secondsIn("Wait 1 second.")).toBe(1);
  expect(secondsIn("Wait.")).toBe(0);
});
