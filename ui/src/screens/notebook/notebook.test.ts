// The notebook itself: people, passphrases, backups, another computer, and what the clinic sees.
import { expect, it, vi } from "vitest";
import { cabinetNow, desk } from "../../../dev/bridge";
import { box, click, eachInItsOwnWindow, find, openOwn, says, type } from "../../../dev/screen";

eachInItsOwnWindow();

const FIRST = "00000000-0000-4000-8000-000000000001";

it("adds somebody with a role and removes somebody", async () => {
  await openOwn();
  await click("to-notebook");
  await click("part-people");
  await says("people", "Front desk");
  await type("add-person-name", "Dr. R. Trainee");
  await click("add-person-role-registrar");
  await type("add-person-passphrase", "short");
  await type("add-person-again", "short");
  await click("add-person-go");
  await says("add-person-trouble", "12 characters");
  await type("add-person-passphrase", "five words that are long");
  await type("add-person-again", "five words that are long");
  await click("add-person-go");
  await says("people", "Dr. R. Trainee");
  await click("person-person-2");
  await click("person-remove-go");
  await says("person-remove-trouble", "Tick the box");
  await click("person-sure");
  await click("person-remove-go");
  await vi.waitFor(() => expect(find("people")?.textContent).not.toContain("Front desk"));
});

it("changes the own passphrase", async () => {
  await openOwn();
  await click("to-notebook");
  await type("passphrase-old", "something else");
  await type("passphrase-new", "five words that are long");
  await type("passphrase-again", "five words that are long");
  await click("passphrase-go");
  await says("passphrase-trouble", "not yours, so nothing was changed");
  await type("passphrase-old", "the right passphrase");
  await click("passphrase-go");
  await says("passphrase-done", "Changed.");
  expect((await box("passphrase-old")).value, "not left in the box").toBe("");
});

it("reminds of a backup until there is one", async () => {
  await openOwn();
  await says("backup-banner", "no backup yet");
  await click("to-backup");
  await type("backup-path", "/stick/taken.evengap");
  await click("backup-go");
  await click("backup-replace");
  await says("backup-done", "checked by opening it");
  await click("to-cases");
  await box("search");
  expect(find("backup-banner")).toBeNull();
});

it("backs up by itself where a folder is set", async () => {
  cabinetNow().backup = { folder: "/stick", every_days: 7 };
  await openOwn();
  await vi.waitFor(() => expect(cabinetNow().lastBackup).not.toBeNull());
  await vi.waitFor(() => expect(find("backup-banner")).toBeNull());
});

it("asks where both computers changed a case", async () => {
  await openOwn();
  await click("to-notebook");
  await click("part-exchange");
  await type("receive-path", "/stick/knees.evengap-exchange");
  await type("receive-passphrase", "the passphrase of the file");
  await click("receive-go");
  await says("receive-done", "1 changed on both computers");
  await click("conflict-1");
  await says("conflict", "Odegard");
  await click("keep-theirs");
  await vi.waitFor(() => expect(find("conflicts")).toBeNull());
  expect((await desk.caseShow(FIRST)).case.patient?.family_name).toBe("Odegard");
});

it("checks the notebook and restores a backup into a new file", async () => {
  await openOwn();
  await click("to-notebook");
  await click("part-check");
  await click("check-go");
  await says("check-report", "Everything is as it was written.");
  await click("part-backup");
  await click("to-restore");
  await type("restore-from", "/stick/knees.evengap");
  await type("restore-to", "/home/taken.evengap");
  await click("restore-go");
  await says("restore-trouble", "There is a file already.");
  await type("restore-to", "/home/again.evengap");
  await click("restore-go");
  await says("restore-report", "2 cases (1 signed, one draft)");
  expect((await box("open-path")).value, "it can be opened at once").toBe(find<HTMLInputElement>("restore-to")?.value);
});

it("tells whoever opens it with the recovery sheet what to do", async () => {
  await click("start-own-notebook");
  await type("open-path", "~/knees.evengap");
  await type("open-passphrase", "the code of the sheet");
  await click("open-go");
  await says("recovery-next", "Give a new passphrase to whoever lost theirs");
  await click("part-you");
  expect(find("passphrase-old"), "a code cannot be changed like a passphrase").toBeNull();
  await click("lock");
  await type("unlock-passphrase", "the right passphrase");
  await click("unlock-go");
  await box("search");
});

it("gives the clinic the list and the letters, and nothing else", async () => {
  await openOwn("the clinic passphrase");
  expect((await box("search")).placeholder, "it finds by what the list shows").not.toContain("component");
  for (const id of ["new-case", "settings", "backup-banner"]) expect(find(id), id).toBeNull();
  await click(`case-row-${FIRST}`);
  await says("paper", "discharge-letter a4");
  expect(find("paper-kind-operative-note")).toBeNull();
  expect(find("field-patient.family_name")).toBeNull();
  await click("print-go");
  await says("print-done", "Written to");
  await click("to-notebook");
  for (const part of ["people", "backup", "check", "exchange"]) expect(find(`part-${part}`), part).toBeNull();
});

it("shows the history of a case, drafts folded", async () => {
  await openOwn();
  await click(`case-row-${FIRST}`);
  await type("field-patient.family_name", "Ødegaard");
  await click("history-open");
  await says("history", "Ødegaard");
  expect(document.querySelectorAll("[data-testid=step-draft]").length, "two saves of one person, one group").toBe(1);
  await click("step-open");
  await vi.waitFor(() => expect(document.querySelectorAll("[data-testid=history] table").length).toBe(2));
});

it("signs in spite of a finding only with a reason", async () => {
  await openOwn();
  await click(`case-row-${FIRST}`);
  await type("field-patient.height_cm", "99");
  await click("sign");
  await says("sign-overrides", "The height is out of its range.");
  await click("sign-go");
  await says("sign-trouble", "Write a reason");
  await type("sign-reason-0", "Measured twice, lying down.");
  await click("sign-go");
  await says("signed", "Signed by Dr. M. Demo");
});
