// The window mounted over the stand-in program, for tests: finds things by their test id, types, clicks, waits.
import { flushSync, mount, unmount } from "svelte";
import { afterEach, beforeEach, expect, vi } from "vitest";
import App from "../src/App.svelte";
import { type Answers, answerAt } from "../src/entry/paths";
import { desk, reset } from "./bridge";

/** Opens the window anew before each test of a file, and closes it after. */
export function eachInItsOwnWindow(): void {
  let app: Record<string, unknown>;
  beforeEach(() => {
    reset();
    localStorage.clear();
    window.matchMedia ??= vi.fn(() => ({ matches: false, addEventListener: () => undefined })) as unknown as typeof matchMedia;
    app = mount(App, { target: document.body });
  });
  afterEach(async () => {
    await unmount(app);
  });
}

export function find<Kind extends HTMLElement>(id: string): Kind | null {
  return document.querySelector<Kind>(`[data-testid="${id}"]`);
}

/** Waits until something with this id is on the screen. */
export async function box<Kind extends HTMLElement = HTMLInputElement>(id: string): Promise<Kind> {
  return vi.waitFor(() => {
    flushSync();
    const found = find<Kind>(id);
    if (!found) throw new Error(`nothing called ${id} on the screen`);
    return found;
  });
}

export async function type(id: string, text: string) {
  const found = await box(id);
  found.focus();
  found.value = text;
  found.dispatchEvent(new Event("input", { bubbles: true }));
  flushSync();
}

export async function click(id: string) {
  (await box(id)).click();
  flushSync();
}

/** Waits until the stand-in holds this answer in its last case. */
export async function saved(path: string, expected: unknown) {
  await vi.waitFor(async () => {
    const lines = await desk.casesFind("");
    const { case: held } = await desk.caseShow(lines.at(-1)?.id ?? "");
    expect(answerAt(held as unknown as Answers, path)).toEqual(expected);
  }, 3000);
}

/** Waits until what this id names holds these words. */
export async function says(id: string, words: string) {
  await vi.waitFor(() => {
    flushSync();
    expect(find(id)?.textContent).toContain(words);
  });
}

/** Presses a key where the focus is. */
export function press(key: string, more: KeyboardEventInit = {}) {
  (document.activeElement ?? document.body).dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true, ...more }));
  flushSync();
}

/** Leaves the demonstration and opens an own notebook with a passphrase of the stand-in. */
export async function openOwn(passphrase = "the right passphrase") {
  await click("start-own-notebook");
  await type("open-path", "~/knees.evengap");
  await type("open-passphrase", passphrase);
  await click("open-go");
  await box("to-notebook");
}
