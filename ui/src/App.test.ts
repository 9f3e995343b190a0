// The screens mounted over the stand-in program: what a person does, and what is saved of it.
import { flushSync } from "svelte";
import { beforeEach, describe, expect, it, vi } from "vitest";
import { desk } from "../dev/bridge";
import { miniature } from "../dev/miniature";
import { box, click, eachInItsOwnWindow, find, press, saved, type } from "../dev/screen";
import { below, itemOf } from "./entry/paths";
import type { Field } from "./types/Field";

eachInItsOwnWindow();

/** The paths of all answers below some fields, with the lists that are grown on the way. */
function answers(fields: readonly Field[], path: string): { path: string; lists: string[] }[] {
  return fields.flatMap((field) => {
    const own = below(path, field.name);
    if (field.kind.is === "record") return answers(field.kind.fields, own);
    if (field.kind.is !== "list" || field.kind.of.is !== "record") return [{ path: own, lists: [] }];
    const inside = answers(field.kind.of.fields, itemOf(own, 0));
    return inside.map((each) => ({ ...each, lists: [own, ...each.lists] }));
  });
}

describe("the list", () => {
  it("opens on the demonstration and finds as one types", async () => {
    await box("case-row-00000000-0000-4000-8000-000000000001");
    expect(find("demo-banner")?.textContent, "marked as demonstration").toContain("DEMONSTRATION");
    await type("search", "papad");
    await vi.waitFor(() => expect(document.querySelectorAll("[data-testid^=case-row]").length).toBe(1));
    expect(document.querySelector("tbody")?.textContent, "half-filled rows are quiet about it").toContain("not recorded");
  });
});

describe("the keyboard", () => {
  it("goes from the search through the rows and back", async () => {
    await box("case-row-00000000-0000-4000-8000-000000000001");
    (await box("search")).focus();
    press("ArrowDown");
    expect(document.activeElement?.textContent).toContain("Ødegård");
    press("End");
    expect(document.activeElement?.textContent).toContain("Papadáki");
    press("ArrowUp");
    press("ArrowUp");
    expect(document.activeElement, "above the first row is the search").toBe(find("search"));
    (document.activeElement as HTMLElement).blur();
    press("/");
    expect(document.activeElement, "the stroke leads to the search").toBe(find("search"));
  });

  it("begins a case, walks through its sections and goes back to the list", async () => {
    await box("case-row-00000000-0000-4000-8000-000000000001");
    (document.activeElement as HTMLElement).blur();
    press("n");
    await box("field-patient.family_name");
    press("ArrowDown", { altKey: true });
    expect(document.activeElement?.textContent, "the second section").toBe("Setting");
    press("ArrowUp", { altKey: true });
    expect(document.activeElement?.textContent).toBe("Patient");
    press("e", { ctrlKey: true });
    await box("export-path");
    press("f", { ctrlKey: true });
    await box("search");
  });
});

describe("the label scanner", () => {
  it("may send its own separator", async () => {
    await click("settings");
    await type("settings-separators", "A1");
    await click("separators-save");
    expect((await box("separators-trouble")).textContent).toContain("“A1”");
    await type("settings-separators", " ^  | ");
    await click("separators-save");
    await box("separators-saved");
    expect(await desk.scannerSeparators()).toEqual(["^", "|"]);
  });
});

describe("the settings of the papers", () => {
  it("are kept when they can be right, and say what to write when not", async () => {
    await click("settings");
    await vi.waitFor(async () => expect((await box("settings-emergency")).value, "what was kept is shown").toBe("112"));
    await type("settings-fever", "warm");
    await click("settings-save");
    expect((await box("settings-trouble")).textContent).toContain("“warm” is not a number");
    await type("settings-fever", "38,5");
    await type("settings-emergency", "999");
    await click("settings-date-year_month_day");
    await click("settings-save");
    await box("settings-saved");
    expect(await desk.paperSettings()).toEqual({ date_format: "year_month_day", emergency_number: "999", fever_c: 38.5, confirmed_translations: [] });
  });
});

describe("the limits of the reckonings", () => {
  it("can be changed with their source, and go back to the shipped ones", async () => {
    await click("settings");
    await vi.waitFor(async () => expect((await box("limit-kerf_mm-value")).value).toBe("1"));
    await type("limit-kerf_mm-value", "1,3");
    await click("limits-save");
    expect((await box("limits-trouble")).textContent, "whose number is it now?").toContain("Width of the saw cut: the number is no longer");
    await type("limit-source-kerf_mm", "Theatre protocol");
    await click("limits-save");
    await box("limits-saved");
    expect((await desk.limits()).limits.kerf_mm).toMatchObject({ value: 1.3, source: { title: "Theatre protocol", kind: "common_practice" } });
    await click("limit-restore-kerf_mm");
    await click("limits-save");
    await vi.waitFor(async () => expect((await desk.limits()).limits.kerf_mm.value).toBe(1));
    expect(find("limit-restore-kerf_mm"), "nothing left to restore").toBeNull();
  });
});

describe("the entry", () => {
  beforeEach(async () => {
    await click("new-case");
    await box("field-patient.family_name");
  });

  it("has a box for every answer of the dictionary", async () => {
    const unseen = ["id", "none_recorded", "patient.none_recorded"];
    for (const { path, lists } of answers(miniature, "")) {
      for (const list of lists) {
        if (!document.querySelector(`[data-item="${itemOf(list, 0)}"]`)) await click(`add-${list}`);
      }
      if (unseen.includes(path)) continue;
      expect(document.querySelector(`[id^="field-${path}"]`), `a box for ${path}`).not.toBeNull();
    }
  });

  it("saves what was typed and shows it in the paper", async () => {
    await type("field-patient.family_name", "Ó Briain");
    await click("field-knee.side--left");
    await saved("patient.family_name", "Ó Briain");
    await saved("knee.side", "left");
    await vi.waitFor(() => expect(find("paper")?.textContent).toContain("Ó Briain"));
    expect(find("head-side")?.textContent?.trim(), "the side in words").toBe("Left knee");
    await click("clear-knee.side");
    await saved("knee.side", undefined);
  });

  it("keeps what cannot be read in its box and saves the rest", async () => {
    await type("field-patient.height_cm", "tall");
    await type("field-patient.given_name", "Nuala");
    await saved("patient", { given_name: "Nuala" });
    const height = await box("field-patient.height_cm");
    height.blur();
    flushSync();
    expect(height.value, "still as it was typed").toBe("tall");
    expect(find("unread-patient.height_cm")?.textContent).toContain("is not a number");
    await click("to-cases");
    await click("case-row-00000000-0000-4000-8000-000000000003");
    expect((await box("field-patient.height_cm")).value, "and there again when the entry is opened again").toBe("tall");
    await type("field-patient.height_cm", "171 cm");
    await saved("patient.height_cm", 171);
    expect(find("unread-patient.height_cm")).toBeNull();
    await type("field-patient.height_cm", "tall");
    await type("field-patient.given_name", "Nuala Beth");
    await saved("patient", { given_name: "Nuala Beth", height_cm: 171 });
    (await box("field-patient.height_cm")).blur();
    flushSync();
    expect(find("unread-patient.height_cm")?.textContent, "a slip takes no answer away").toContain("171 stays recorded");
  });

  it("tells not recorded from no", async () => {
    await click("field-patient.smoker--no");
    await saved("patient.smoker", false);
    await click("field-patient.smoker--not_recorded");
    await saved("patient.smoker", undefined);
  });

  it("keeps a cement mix at its component when components move", async () => {
    for (const [place, name] of ["Birch", "Rowan"].entries()) {
      await click("add-components");
      await type(`field-components[${place}].name`, name);
    }
    await click("add-cement.mixes");
    const mix = await box<HTMLSelectElement>("field-cement.mixes[0].component");
    mix.value = "1";
    mix.dispatchEvent(new Event("change", { bubbles: true }));
    await saved("cement.mixes", [{ component: 1 }]);
    await click("up-components[1]");
    await saved("cement.mixes", [{ component: 0 }]);
    await click("remove-components[0]");
    await saved("components", [{ name: "Birch" }]);
    await saved("cement", undefined);
  });

  it("takes the none back when the list gets an item", async () => {
    await click("field-patient.none_recorded");
    await saved("patient.none_recorded", true);
    await click("add-patient.allergies");
    await type("field-patient.allergies[0].substance", "latex");
    await saved("patient", { allergies: [{ substance: "latex" }] });
  });
});

describe("the export", () => {
  it("asks before it replaces a file", async () => {
    await click("new-case");
    await click("export");
    await vi.waitFor(() => expect(find<HTMLInputElement>("export-path")?.value).toBe("~/Documents/operative-note.pdf"));
    await click("export-format-txt");
    await vi.waitFor(() => expect(find<HTMLInputElement>("export-path")?.value).toBe("~/Documents/operative-note.txt"));
    await type("export-path", "/taken.txt");
    await click("export-go");
    await click("export-replace");
    expect((await box("export-done")).textContent).toContain("/taken.txt");
  });
});

describe("the own notebook", () => {
  it("begins one and leaves the demonstration", async () => {
    await click("start-own-notebook");
    await type("begin-writer", "Ms A. Tester");
    await type("begin-passphrase", "four plain words here");
    await type("begin-again", "four plain words hear");
    await click("begin-go");
    expect((await box("begin-trouble")).textContent).toContain("differ");
    await type("begin-again", "four plain words here");
    await click("begin-go");
    await box("other-notebook");
    expect(find("demo-banner"), "no longer the demonstration").toBeNull();
  });

  it("says that a passphrase is wrong", async () => {
    await click("start-own-notebook");
    await type("open-path", "~/knees.evengap");
    await type("open-passphrase", "not this one");
    await click("open-go");
    await vi.waitFor(() => expect(find("open-trouble")?.textContent).toContain("does not open"));
  });
});
