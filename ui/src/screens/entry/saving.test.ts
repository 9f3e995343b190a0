// When saving is refused: somebody else saved meanwhile, or the file cannot be written.
import { afterEach, expect, it, vi } from "vitest";
import { desk, saveElsewhere } from "../../../dev/bridge";
import { box, click, eachInItsOwnWindow, find, type } from "../../../dev/screen";

eachInItsOwnWindow();
afterEach(() => void vi.restoreAllMocks());

const FIRST = "00000000-0000-4000-8000-000000000001";
const family = async () => (await desk.caseShow(FIRST)).case.patient?.family_name;

/** Types a name into an entry that somebody else has saved meanwhile. */
async function clash() {
  await click(`case-row-${FIRST}`);
  await box("field-patient.family_name");
  const { case: entry } = await desk.caseShow(FIRST);
  saveElsewhere({ ...entry, patient: { ...entry.patient, family_name: "Elsewhere" } });
  await type("field-patient.family_name", "Here");
  await vi.waitFor(() => expect(find("clash")?.textContent).toContain("Elsewhere"), 3000);
}

it("shows both versions and puts mine on top", async () => {
  await clash();
  expect(find("clash")?.textContent).toContain("Here");
  expect(await family(), "nothing is overwritten before somebody has chosen").toBe("Elsewhere");
  await click("clash-mine");
  await vi.waitFor(async () => expect(await family()).toBe("Here"), 3000);
  const names = (await desk.caseHistory(FIRST)).flatMap(({ changes }) => changes.map(({ now }) => now));
  expect(names.slice(0, 2), "both are in the history").toEqual(["Here", "Elsewhere"]);
});

it("takes the other one and keeps mine in the history", async () => {
  await clash();
  await click("clash-take");
  await vi.waitFor(async () => expect((await box("field-patient.family_name")).value).toBe("Elsewhere"));
  expect(await family()).toBe("Elsewhere");
  const names = (await desk.caseHistory(FIRST)).flatMap(({ changes }) => changes.map(({ now }) => now));
  expect(names.slice(0, 3)).toEqual(["Elsewhere", "Here", "Elsewhere"]);
});

it("lets the choice wait without losing a word", async () => {
  await clash();
  await click("clash-later");
  expect((await box("field-patient.family_name")).value).toBe("Here");
  await click("to-cases");
  await box("clash-mine");
  expect(find("search"), "one cannot leave before choosing").toBeNull();
});

it("says in plain words why nothing is saved, keeps the text and goes on by itself", async () => {
  await click(`case-row-${FIRST}`);
  const save = vi.spyOn(desk, "caseSave").mockRejectedValue({ code: "failed", message: "The disk is full. Make room.", places: [] });
  await type("field-patient.family_name", "Typed");
  await vi.waitFor(() => expect(find("not-saved")?.textContent).toContain("The disk is full. Make room."), 3000);
  expect((await box("field-patient.family_name")).value).toBe("Typed");
  save.mockRestore();
  await click("save-again");
  await vi.waitFor(async () => expect(await family()).toBe("Typed"));
  await vi.waitFor(() => expect(find("not-saved")).toBeNull());
});
