// Locking and unlocking over the open screens: nothing is lost, nothing is shown.
import { flushSync } from "svelte";
import { afterEach, expect, it, vi } from "vitest";
import { desk } from "../../dev/bridge";
import { box, click, eachInItsOwnWindow, find, openOwn, press, says, type } from "../../dev/screen";

eachInItsOwnWindow();
afterEach(() => void vi.restoreAllMocks());

const FIRST = "00000000-0000-4000-8000-000000000001";

async function unlock(passphrase: string) {
  await vi.waitFor(async () => expect((await box<HTMLButtonElement>("unlock-go")).disabled).toBe(false));
  await type("unlock-passphrase", passphrase);
  await click("unlock-go");
}

it("saves first, covers the screen, and comes back to the same case", async () => {
  await openOwn();
  await click(`case-row-${FIRST}`);
  await type("field-patient.family_name", "Ødegaard");
  await type("field-patient.height_cm", "tall");
  press("l", { ctrlKey: true });
  await says("locked-why", "Everything is saved");
  expect(find("locked")?.textContent, "no patient on the cover").not.toContain("Ødeg");
  expect(document.querySelector<HTMLElement>(".window")?.inert, "nothing behind it can be reached").toBe(true);
  expect(await desk.notebookCurrent(), "the file is closed").toBeNull();
  await unlock("not this one, surely");
  await says("unlock-trouble", "does not open");
  await unlock("the right passphrase");
  await vi.waitFor(() => expect(find("locked")).toBeNull());
  expect((await box("field-patient.family_name")).value).toBe("Ødegaard");
  expect((await box("field-patient.height_cm")).value, "what could not be read as well").toBe("tall");
  expect((await desk.caseShow(FIRST)).case.patient?.family_name, "saved before it was locked").toBe("Ødegaard");
  await type("field-patient.height_cm", "");
});

it("keeps what could not be saved for the person who typed it", async () => {
  await openOwn();
  await click(`case-row-${FIRST}`);
  const save = vi.spyOn(desk, "caseSave").mockRejectedValue({ code: "gone", message: "The file is gone.", places: [] });
  await type("field-patient.family_name", "Ødegaard");
  await click("lock");
  await says("locked-why", "could not be saved");
  await unlock("the clinic passphrase");
  await says("unlock-trouble", "Dr. M. Demo opens the notebook first");
  expect(await desk.notebookCurrent(), "closed again").toBeNull();
  save.mockRestore();
  await unlock("the right passphrase");
  await vi.waitFor(async () => expect((await desk.caseShow(FIRST)).case.patient?.family_name).toBe("Ødegaard"), 3000);
});

it("shows nobody what somebody else typed and could not be read", async () => {
  await openOwn();
  await desk.personAdd("Second", "surgeon", false, "the second passphrase");
  await click(`case-row-${FIRST}`);
  await type("field-patient.height_cm", "tall");
  await click("lock");
  await unlock("the second passphrase");
  await click(`case-row-${FIRST}`);
  expect((await box("field-patient.height_cm")).value, "somebody else's").not.toBe("tall");
  await click("lock");
  await unlock("the right passphrase");
  await click(`case-row-${FIRST}`);
  expect((await box("field-patient.height_cm")).value, "one's own").toBe("tall");
  await type("field-patient.height_cm", "");
});

it("begins at the list for somebody else", async () => {
  await openOwn();
  await click(`case-row-${FIRST}`);
  await box("field-patient.family_name");
  await click("lock");
  await unlock("the clinic passphrase");
  await box("search");
  expect(find("field-patient.family_name"), "the entry is not theirs to see").toBeNull();
  expect(find("new-case")).toBeNull();
});

it("keeps an addendum that is being written", async () => {
  await openOwn();
  await click(`case-row-${FIRST}`);
  await click("sign");
  await click("sign-go");
  await click("addendum-begin");
  await type("addendum-text", "The lot was wrong.");
  await click("lock");
  await unlock("the right passphrase");
  expect((await box("addendum-text")).value).toBe("The lot was wrong.");
});

it("locks by itself, but never the demonstration", async () => {
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout", "Date"] });
  try {
    await vi.advanceTimersByTimeAsync(60 * 60_000);
    flushSync();
    expect(find("locked"), "there is nothing to protect").toBeNull();
    await openOwn();
    flushSync();
    await vi.advanceTimersByTimeAsync(11 * 60_000);
    flushSync();
    await says("locked-why", "Nobody was here");
  } finally {
    vi.useRealTimers();
  }
});

it("keeps nothing of a patient in the window's storage", async () => {
  await openOwn();
  await click(`case-row-${FIRST}`);
  await type("field-patient.family_name", "Ødegaard");
  await type("field-patient.height_cm", "tall");
  await click("paper-kind-discharge-letter");
  await click("lock");
  await says("locked-why", "Everything is saved");
  const kept = Object.fromEntries(Array.from({ length: localStorage.length }, (_, place) => [localStorage.key(place), localStorage.getItem(localStorage.key(place) ?? "")]));
  expect(kept).toEqual({ "evengap.notebook": "~/knees.evengap", "evengap.paper.kind": "discharge-letter", "evengap.paper.language": "en", "evengap.paper.page": "a4" });
  expect(sessionStorage.length).toBe(0);
});
