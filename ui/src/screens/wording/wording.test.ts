// Working on the wording of a paper: typing, flaws, saving, going back, leaving.
import type { EditorView } from "@codemirror/view";
import { EditorView as View } from "@codemirror/view";
import { expect, it, vi } from "vitest";
import { desk } from "../../../dev/bridge";
import { box, click, eachInItsOwnWindow, find, press, says, type } from "../../../dev/screen";

eachInItsOwnWindow();

const FIRST = "00000000-0000-4000-8000-000000000001";

async function editor(): Promise<EditorView> {
  return vi.waitFor(() => {
    const content = find("template-editor")?.shadowRoot?.querySelector<HTMLElement>(".cm-content");
    const view = content && View.findFromDOM(content);
    if (!view) throw new Error("the editor is not open");
    return view;
  }, 5000);
}

/** Types at the end of the template. */
async function write(text: string) {
  const view = await editor();
  view.dispatch({ changes: { from: view.state.doc.length, insert: text }, userEvent: "input.type" });
}

async function openLetter() {
  await click(`case-row-${FIRST}`);
  await click("paper-kind-discharge-letter");
  await click("to-wording");
  await says("in-force", "In force: discharge-letter, version 1, built-in.");
  await editor();
}

it("tries the text on the open case as one types", async () => {
  await openLetter();
  await says("tried-on", "Ødegård, Sunniva");
  await says("paper", "Dear Sunniva,");
  await write("We did a {{ choice.procedure }} replacement.");
  await says("paper", "We did a total replacement.");
  await says("reading", "Flesch-Kincaid grade");
  await click("other-case");
  await type("case-search", "papad");
  await click("try-on-00000000-0000-4000-8000-000000000002");
  await says("tried-on", "Papadáki");
  await says("paper", "We did a  replacement.");
});

it("shows flaws with their place and nearest name, and leads there", async () => {
  await openLetter();
  await write("\nDear {{ knee.sid }}");
  await says("flaws", "line 9, column 9");
  await says("flaws", "Did you mean knee.side?");
  expect(find("preview-waits"), "the paper is the last one that could be written").not.toBeNull();
  await click("flaw-0");
  const { state } = await editor();
  expect(state.sliceDoc(state.selection.main.from, state.selection.main.to)).toBe("knee.sid");
  await vi.waitFor(async () => expect((await editor()).dom.querySelector(".cm-lintRange-error")?.textContent).toBe("knee.sid"));
});

it("puts a name in at the cursor", async () => {
  await openLetter();
  await type("names-search", "what was done");
  await box("name-choice.procedure");
  expect(document.querySelectorAll("[data-testid^=name-]").length, "the others are filtered out").toBe(1);
  const view = await editor();
  view.dispatch({ selection: { anchor: view.state.doc.length } });
  await click("name-choice.procedure");
  expect(view.state.doc.toString()).toMatch(/\{\{ choice\.procedure \}\}$/);
});

it("keeps a refused text with its places, and what was in force", async () => {
  await openLetter();
  await write("only on other cases");
  await click("template-save");
  await says("template-refused", "discharge-letter, version 1, stays in force.");
  await says("flaws", "It fails on the case “stiff-valgus-knee”.");
  await says("paper", "only on other cases");
  expect(find("preview-waits"), "on this case the text as it stands can be written").toBeNull();
  expect((await editor()).state.doc.toString()).toContain("only on other cases");
  expect((await desk.templateShow("discharge-letter", "en")).own).toBe(false);
});

it("saves, lists what was, and goes back to the built-in wording", async () => {
  await openLetter();
  const before = (await editor()).state.doc.toString();
  await write("See you soon.");
  expect((await box("template-name")).value, "not under the built-in name").toBe("Own discharge letter");
  await type("template-name", "Our letter");
  press("s", { ctrlKey: true });
  await says("template-done", "Saved as version 1.");
  await says("in-force", "In force: Our letter, version 1.");
  await says("template-discharge-letter-en", "own");
  await click("template-history");
  await says("history", "Our letter, version 1");
  await click("read-1");
  await says("history-text", "See you soon.");
  await click("restore-built-in");
  await says("template-done", "The built-in wording is in force again.");
  expect((await editor()).state.doc.toString()).toBe(before);
  await click("template-history");
  await click("restore-1");
  await says("in-force", "In force: Our letter, version 1.");
});

it("asks before unsaved wording is left", async () => {
  await openLetter();
  await write("unsaved");
  await click("from-wording");
  await click("leave-stay");
  expect((await editor()).state.doc.toString()).toContain("unsaved");
  await click("template-operative-note-en");
  await click("leave-go");
  await says("in-force", "In force: operative-note, version 1");
  await click("from-wording");
  await box("head-side");
});

it("is reached from the settings, and shows the cautions that no template can remove", async () => {
  await click("settings");
  await click("wording-discharge-letter-de");
  await says("in-force", "discharge-letter.de");
  await says("cautions", "it cannot remove them");
  await says("cautions", "Call an ambulance at once");
  await says("tried-on", "Ødegård");
});
