// Labels on their way into the entry: pasted, scanned, dropped.
import { flushSync } from "svelte";
import { beforeEach, describe, expect, it, vi } from "vitest";
import { box, click, eachInItsOwnWindow, find, saved, type } from "../../dev/screen";

eachInItsOwnWindow();

describe("labels", () => {
  const SCAN = "010952000000001710T228401";
  /** What the stand-in reads out of the scan. */
  const LOT = "T228401";

  beforeEach(async () => {
    await click("new-case");
    await box("scan-box");
  });

  /** Presses keys as a scanner does: a few milliseconds apart, and each letter ends up in the box that has the focus. */
  function wedge(target: HTMLElement, keys: string, every = 4) {
    let at = 10_000;
    const press = (key: string) => {
      const event = new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true });
      Object.defineProperty(event, "timeStamp", { value: (at += every) });
      const taken = target.dispatchEvent(event);
      if (taken && key.length === 1 && (target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement)) {
        target.value += key;
        target.dispatchEvent(new Event("input", { bubbles: true }));
      }
    };
    for (const key of keys) press(key);
    press("Enter");
    flushSync();
  }

  it("become components when they are pasted", async () => {
    await type("scan-box", SCAN);
    await click("scan-read");
    await saved("components[0].lot", LOT);
    expect(find("scan-said")?.textContent).toContain(`lot ${LOT}. Component 1.`);
    await vi.waitFor(() => expect(document.activeElement, "ready for the role").toBe(find("field-components[0].role")));
    expect((await box("scan-box")).value, "ready for the next").toBe("");
    await type("scan-box", SCAN);
    await click("scan-read");
    await vi.waitFor(() => expect(find("scan-said")?.textContent).toContain("there already"));
    await saved("components", [{ lot: LOT, scan: { raw: SCAN, scheme: "gs1", device_identifier: "09520000000017" } }]);
  });

  it("say what is wrong with them", async () => {
    await type("scan-box", "no label at all");
    await click("scan-read");
    await vi.waitFor(() => expect(find("scan-said")?.textContent).toContain("no component label"));
    await saved("components", undefined);
  });

  it("come from a scanner wherever nothing has the focus", async () => {
    wedge(document.body, SCAN);
    await saved("components[0].lot", LOT);
  });

  it("come from a scanner in any box of the section, and nothing of them stays there", async () => {
    await click("add-components");
    const name = await box<HTMLTextAreaElement>("field-components[0].name");
    await type("field-components[0].name", "Birch");
    wedge(name, SCAN);
    await saved("components[1].lot", LOT);
    await saved("components[0]", { name: "Birch" });
  });

  it("fill the empty component that waits for them", async () => {
    await click("add-components");
    wedge(await box("field-components[0].lot"), SCAN);
    await vi.waitFor(() => expect(find("scan-said")?.textContent).toContain("Component 1."));
    await saved("components[0].lot", LOT);
    expect(find("remove-components[1]")).toBeNull();
  });

  it("do not come from hands, nor into other sections", async () => {
    const name = await box<HTMLTextAreaElement>("field-patient.family_name");
    wedge(name, SCAN);
    await saved("patient.family_name", SCAN);
    await click("add-components");
    const lot = await box<HTMLTextAreaElement>("field-components[0].lot");
    wedge(lot, SCAN, 80);
    await saved("components", [{ lot: SCAN }]);
  });

  it("come from a picture that is dropped on the section or chosen", async () => {
    const drop = new Event("drop", { bubbles: true, cancelable: true });
    const file = new File([SCAN], "label.png", { type: "image/png" });
    Object.defineProperty(drop, "dataTransfer", { value: { files: [file] } });
    (await box("section-body-components")).dispatchEvent(drop);
    expect(drop.defaultPrevented, "the page is not exchanged for the file").toBe(true);
    await saved("components[0].lot", LOT);
    const input = await box("scan-picture");
    Object.defineProperty(input, "files", { value: [new File(["x"], "notes.pdf", { type: "application/pdf" })] });
    input.dispatchEvent(new Event("change", { bubbles: true }));
    await vi.waitFor(() => expect(find("scan-said")?.textContent).toContain("notes.pdf is not a PNG or JPEG"));
  });
});
