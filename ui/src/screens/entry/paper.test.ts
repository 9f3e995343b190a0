// The paper beside the entry: which, in which language, on which sheet, how it reads.
import { expect, it, vi } from "vitest";
import { desk } from "../../../dev/bridge";
import { box, click, eachInItsOwnWindow, find, says } from "../../../dev/screen";

eachInItsOwnWindow();

const FIRST = "00000000-0000-4000-8000-000000000001";

it("keeps language and sheet for the papers that have them", async () => {
  await click(`case-row-${FIRST}`);
  expect(find("language-de"), "the operative note is written in one language").toBeNull();
  await click("paper-kind-discharge-letter");
  await click("language-de");
  await says("paper-template", "discharge-letter.de, version 1");
  expect(find("reading"), "the figures are those of English").toBeNull();
  await click("paper-kind-component-record");
  await click("page-wallet");
  await says("paper", "component-record wallet");
  await click("paper-kind-discharge-letter");
  await says("paper", "discharge-letter a4");
  await says("paper-template", "discharge-letter.de");
});

it("shows how the English letter reads, with formula, source and the costly sentences", async () => {
  await click(`case-row-${FIRST}`);
  await click("paper-kind-discharge-letter");
  await says("reading-smog_grade", "SMOG grade 7.2 (limit 8)");
  await says("reading", "long ones: considerable, complexity");
  await says("reading", "An invented book, 2001, page 7");
});

it("lets the clinic confirm a translation, and leaves the other settings alone", async () => {
  await click("settings");
  await vi.waitFor(async () => expect((await box("settings-emergency")).value).toBe("112"));
  await click("confirmed-es");
  await click("translations-save");
  await box("translations-saved");
  expect(await desk.paperSettings()).toMatchObject({ confirmed_translations: ["es"], emergency_number: "112" });
  await click("settings-save");
  await box("settings-saved");
  expect((await desk.paperSettings()).confirmed_translations, "kept by the other form").toEqual(["es"]);
});
