import { describe, expect, it } from "vitest";
import { miniature } from "../../dev/miniature";
import type { Answer } from "./paths";
import { capital, fieldAt, nameOf, small, titleOf, wordsAt } from "./words";

describe("words", () => {
  it("set large and small first letters", () => {
    expect(capital("left")).toBe("Left");
    expect(capital("eGFR"), "an abbreviation stays").toBe("eGFR");
    expect(small("Wear"), "a plain word").toBe("wear");
    expect(small("VTE prevention"), "an abbreviation stays").toBe("VTE prevention");
  });

  it("title the items of a list", () => {
    const components = fieldAt(miniature, "components");
    const fields = components?.kind.is === "list" && components.kind.of.is === "record" ? components.kind.of.fields : [];
    const check = (item: Answer, expected: string) => expect(titleOf(item, fields)).toBe(expected);
    check({ role: "tibial_tray", name: "Oak", lot: "7" }, "Tibial tray · Oak · 7");
    check({ name: " " }, "");
    check({}, "");
  });

  it("find the field of a path in lists and records", () => {
    expect(fieldAt(miniature, "cement.mixes[3].mixed_at")?.label).toBe("Mixed");
    expect(fieldAt(miniature, "knee.wear.medial.cartilage")?.label).toBe("Cartilage");
    expect(fieldAt(miniature, "knee.nothing")).toBeUndefined();
  });

  it("say the side in words, and nothing where nothing is recorded", () => {
    expect(wordsAt({ knee: { side: "left" } }, miniature, "knee.side")).toBe("Left");
    expect(wordsAt({}, miniature, "knee.side")).toBe("");
  });

  it("name the patient from what there is", () => {
    expect(nameOf({ patient: { family_name: "Ek", given_name: "Åsa" } })).toBe("Ek, Åsa");
    expect(nameOf({ patient: { given_name: "Åsa", family_name: " " } })).toBe("Åsa");
    expect(nameOf({})).toBe("");
  });
});
