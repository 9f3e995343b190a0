// Signing an entry, and adding to it afterwards.
import { expect, it, vi } from "vitest";
import { desk } from "../../../../dev/bridge";
import { box, click, eachInItsOwnWindow, find, says, type } from "../../../../dev/screen";

eachInItsOwnWindow();

const FIRST = "00000000-0000-4000-8000-000000000001";

async function sign() {
  await click(`case-row-${FIRST}`);
  await click("sign");
  await click("sign-go");
  await says("signed", "Signed by Dr. M. Demo on 2026-03-04 at 14:05.");
}

it("says what stands in the way and leads there", async () => {
  await click("new-case");
  await type("field-patient.height_cm", "tall");
  await click("sign");
  await says("sign-blocked", "“tall” could not be read.");
  expect(find("sign-go"), "no way past it").toBeNull();
  const [unread, missing] = (await box<HTMLElement>("sign-blocked")).querySelectorAll("button");
  expect(unread?.textContent).toContain("tall");
  missing?.click();
  await vi.waitFor(() => expect(document.activeElement?.id, "the box of the missing answer").toBe("field-knee.side--left"));
  expect(find("sign-blocked"), "the sheet is gone").toBeNull();
});

it("signs only after saying that it never changes, and then nothing can be typed", async () => {
  await click(`case-row-${FIRST}`);
  await click("sign");
  const agree = await box<HTMLButtonElement>("sign-go");
  expect(agree.closest("dialog")?.textContent).toContain("A signed entry never changes.");
  await click("sign-not-now");
  expect((await desk.caseShow(FIRST)).state).toBe("draft");
  await click("sign");
  await click("sign-go");
  await box("signed");
  expect((await desk.caseShow(FIRST)).state).toBe("signed");
  expect((await box("field-patient.family_name")).closest("fieldset")?.disabled).toBe(true);
  expect(find("sign")).toBeNull();
});

it("adds a text with changed answers, and shows its page", async () => {
  await sign();
  expect(find("paper-kind-addendum"), "nothing was added yet").toBeNull();
  await click("addendum-begin");
  await click("addendum-add");
  await says("addendum-trouble", "Write what is added and why.");
  await type("field-patient.given_name", "Solveig");
  await says("paper-of-changes", "The signed paper stays as it is.");
  await type("addendum-text", "The given name was wrong.");
  expect((await desk.caseShow(FIRST)).case.patient?.given_name, "nothing is saved on the way").toBe("Sunniva");
  await click("addendum-add");
  await says("addenda", "The given name was wrong.");
  expect((await desk.caseShow(FIRST)).case.patient?.given_name).toBe("Solveig");
  expect(find("addendum"), "the form is gone").toBeNull();
  await click("addendum-page-1");
  await says("paper", "The given name was wrong.");
});

it("asks before an addendum is lost", async () => {
  await sign();
  await click("addendum-begin");
  await type("field-patient.given_name", "Solveig");
  await click("to-cases");
  await click("leave-stay");
  expect((await box("field-patient.given_name")).value, "still there").toBe("Solveig");
  await click("addendum-discard");
  await click("leave-go");
  await vi.waitFor(() => expect(find("addendum")).toBeNull());
  expect((await box("field-patient.given_name")).value, "as it was signed").toBe("Sunniva");
  await click("addendum-begin");
  await click("to-cases");
  await box("search");
});
