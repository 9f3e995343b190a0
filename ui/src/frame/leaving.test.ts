import { expect, it } from "vitest";
import { Leaving } from "./leaving.svelte";

it("lets everybody wait for one answer", async () => {
  const leaving = new Leaving();
  const both = Promise.all([leaving.ask(), leaving.ask()]);
  expect(leaving.asked).toBe(true);
  leaving.answer(false);
  expect(await both, "closing the window twice is still one question").toEqual([false, false]);
  expect(leaving.asked, "the question is gone").toBe(false);
});
