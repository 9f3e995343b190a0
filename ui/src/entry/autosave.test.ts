import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { Autosave, QUIET_MS, RETRY_MS } from "./autosave";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

/** An autosave whose saves end when the test says so; `said` collects the states as words. */
function rig() {
  const said: string[] = [];
  const ends: { well: (at: string) => void; badly: (why: Error) => void }[] = [];
  const autosave = new Autosave({
    save: () => new Promise((well, badly) => void ends.push({ well, badly })),
    show: (state) => void said.push("at" in state ? `saved ${state.at}` : "reason" in state ? `not saved: ${state.reason}` : state.is),
    reason: (thrown) => (thrown as Error).message,
  });
  return { autosave, said, ends };
}

describe("Autosave", () => {
  it("waits for the last key", async () => {
    const { autosave, said, ends } = rig();
    autosave.change();
    await vi.advanceTimersByTimeAsync(QUIET_MS - 1);
    autosave.change();
    await vi.advanceTimersByTimeAsync(QUIET_MS - 1);
    expect(ends.length, "still typing").toBe(0);
    await vi.advanceTimersByTimeAsync(1);
    expect(ends.length, "one save for both keys").toBe(1);
    ends[0]?.well("14:05");
    await vi.advanceTimersByTimeAsync(0);
    expect(said).toEqual(["waiting", "waiting", "saving", "saved 14:05"]);
  });

  it("saves again what changed while it was saving, never two at once", async () => {
    const { autosave, said, ends } = rig();
    autosave.change();
    await vi.advanceTimersByTimeAsync(QUIET_MS);
    autosave.change();
    await vi.advanceTimersByTimeAsync(QUIET_MS * 3);
    expect(ends.length, "the first is still on its way").toBe(1);
    ends[0]?.well("14:05");
    await vi.advanceTimersByTimeAsync(QUIET_MS);
    expect(ends.length, "the later change is not lost").toBe(2);
    expect(said, "not called saved while a change waits").not.toContain("saved 14:05");
  });

  it("says why it could not save, and tries again", async () => {
    const { autosave, said, ends } = rig();
    autosave.change();
    await vi.advanceTimersByTimeAsync(QUIET_MS);
    ends[0]?.badly(new Error("The disk is full."));
    await vi.advanceTimersByTimeAsync(0);
    expect(said.at(-1)).toBe("not saved: The disk is full.");
    await vi.advanceTimersByTimeAsync(RETRY_MS);
    ends[1]?.well("14:06");
    await vi.advanceTimersByTimeAsync(0);
    expect(said.at(-1)).toBe("saved 14:06");
  });

  it("flushes at once and says whether everything is saved", async () => {
    const { autosave, ends } = rig();
    expect(await autosave.flush(), "nothing to save").toBe(true);
    expect(ends.length).toBe(0);
    autosave.change();
    const flushed = autosave.flush();
    await vi.advanceTimersByTimeAsync(0);
    ends[0]?.badly(new Error("no"));
    expect(await flushed, "a failed save leaves the change unsaved").toBe(false);
    const again = autosave.flush();
    await vi.advanceTimersByTimeAsync(0);
    ends[1]?.well("14:07");
    expect(await again).toBe(true);
    await vi.advanceTimersByTimeAsync(RETRY_MS * 2);
    expect(ends.length, "no save left over").toBe(2);
  });

  it("flushes a change that came during a save", async () => {
    const { autosave, ends } = rig();
    autosave.change();
    await vi.advanceTimersByTimeAsync(QUIET_MS);
    autosave.change();
    const flushed = autosave.flush();
    ends[0]?.well("1");
    await vi.advanceTimersByTimeAsync(0);
    expect(ends.length, "second save started without waiting").toBe(2);
    ends[1]?.well("2");
    expect(await flushed).toBe(true);
    await vi.advanceTimersByTimeAsync(RETRY_MS);
    expect(ends.length, "no third save of the same answers").toBe(2);
  });
});
