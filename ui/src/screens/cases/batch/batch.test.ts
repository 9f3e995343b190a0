// Papers of several cases, from choosing the cases to the report.
import { expect, it, vi } from "vitest";
import { desk } from "../../../../dev/bridge";
import { box, click, eachInItsOwnWindow, find, press, says, type } from "../../../../dev/screen";

eachInItsOwnWindow();

const id = (number: number) => `00000000-0000-4000-8000-${String(number).padStart(12, "0")}`;

/** Adds a case of the same day as the first one. */
async function another(family_name: string) {
  const { case: entry } = await desk.caseNew();
  await desk.caseSave({ ...entry, patient: { family_name }, setting: { operation_date: "2026-03-02" } }, null);
  await click("search");
  await type("search", " ");
  await type("search", "");
  return box(`case-row-${entry.id}`);
}

it("chooses with the keyboard, a day at once, and keeps the choice while searching", async () => {
  await box(`case-row-${id(1)}`);
  await another("Winther");
  (await box("search")).focus();
  press("ArrowDown");
  press(" ");
  await says("picked-bar", "One case chosen");
  expect(find<HTMLInputElement>(`pick-${id(1)}`)?.checked).toBe(true);
  await says("pick-day", "All of 2026-03-02 (1 more)");
  await click("pick-day");
  await says("picked-bar", "2 cases chosen");
  expect(find("pick-day"), "nothing left of that day").toBeNull();
  await type("search", "papad");
  await says("picked-bar", "2 of them not in this search");
  await click("pick-all");
  await says("picked-bar", "3 cases chosen");
  await click("pick-none");
  expect(find("picked-bar")).toBeNull();
});

it("writes what it can and says what it could not", async () => {
  await box(`case-row-${id(1)}`);
  await click("new-case");
  await click("to-cases");
  await box(`case-row-${id(3)}`);
  await click("pick-all");
  await click("batch");
  await vi.waitFor(() => expect(find<HTMLInputElement>("batch-path")?.value).toBe("~/Documents/papers"));
  await click("batch-kind-component-record");
  await click("batch-go");
  await box("batch-running");
  await says("batch-report", "4 papers of 2 cases were written. One could not be written; the others did not wait for it.");
  expect(find("batch-failed")?.textContent, "with its reason").toContain("The patient is not recorded.");
  expect(find("batch-unfinished")?.textContent).toContain("Papadáki, operative note: The side is not recorded.");
});

it("can be stopped, and asks before it replaces a file", async () => {
  await box(`case-row-${id(1)}`);
  await click("pick-all");
  await click("batch");
  await click("batch-one");
  await vi.waitFor(() => expect(find<HTMLInputElement>("batch-path")?.value).toBe("~/Documents/papers.pdf"));
  await type("batch-path", "/taken.pdf");
  await click("batch-go");
  await click("batch-replace-it");
  await click("batch-cancel");
  await says("batch-report", "stopped");
});

it("offers sheets and languages to the papers that have them, alone", async () => {
  await click(`pick-${id(1)}`);
  await click("batch");
  expect(find("batch-language-de"), "the operative note has one language").toBeNull();
  await click("batch-kind-component-record");
  expect(find("batch-page-wallet")).toBeNull();
  await click("batch-kind-operative-note");
  await box("batch-page-wallet");
  await click("batch-kind-component-record");
  await click("batch-kind-discharge-letter");
  await box("batch-language-de");
});
