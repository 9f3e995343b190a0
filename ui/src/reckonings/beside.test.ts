// What stands beside the answers on the screen: reckonings, drawings, marks.
import { beforeEach, describe, expect, it, vi } from "vitest";
import { box, click, eachInItsOwnWindow, find, type } from "../../dev/screen";

eachInItsOwnWindow();

describe("beside the answers", () => {
  beforeEach(async () => {
    await click("new-case");
    await box("field-patient.family_name");
  });

  it("a reckoning says its result, and how it came about when asked", async () => {
    await type("field-patient.height_cm", "170");
    const line = await box("reckoning-patient-bmi");
    expect(line.textContent, "nothing is guessed").toContain("needs weight");
    await type("field-patient.weight_kg", "85");
    await vi.waitFor(() => expect(line.textContent).toContain("29.4\u00a0kg/m²"));
    expect(find("reckoning-open-patient-bmi")?.getAttribute("aria-expanded")).toBe("false");
    await click("reckoning-open-patient-bmi");
    expect(find("reckoning-open-patient-bmi")?.getAttribute("aria-expanded")).toBe("true");
    expect(line.textContent).toContain("bmi = weight in kg / (height in m)²");
    expect(line.querySelector('[data-testid="sources"]')?.textContent).toContain("An invented book, page 7, 2001 (published)");
    await type("field-patient.weight_kg", "60");
    await vi.waitFor(() => expect(line.textContent, "stays open while the numbers change").toContain("20.7612"));
    expect(line.isConnected).toBe(true);
  });

  it("a drawing stands at the end of its group and is named in words", async () => {
    expect(find("drawing-axis")).toBeNull();
    await click("field-knee.side--left");
    const drawing = await box("drawing-axis");
    expect(drawing.getAttribute("aria-label")).toBe("A line from left to right.");
    expect(drawing.querySelector("svg")).not.toBeNull();
    expect(drawing.closest("[data-path]")?.getAttribute("data-path")).toBe("knee.wear");
  });

  it("a finding marks its field, describes its box and is listed with its source", async () => {
    await click("field-patient.smoker--yes");
    await box("found-mark-patient.smoker");
    const row = (await box("field-patient.smoker--yes")).closest("[role=radiogroup]");
    const described = (row?.getAttribute("aria-describedby") ?? "").split(" ").map((id) => document.getElementById(id)?.textContent ?? "");
    expect(described.join(" ")).toContain("To bear in mind: The patient smokes.");
    const findings = await box("findings");
    expect(findings.querySelector("summary")?.textContent).toContain("to bear in mind 1 · missing 1");
    expect(findings.textContent, "only when asked").not.toContain("An invented book");
    await click("findings-sources");
    expect(findings.textContent).toContain("An invented book");
    await click("field-patient.smoker--no");
    await vi.waitFor(() => expect(find("found-mark-patient.smoker")).toBeNull());
  });
});
