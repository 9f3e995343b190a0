import { expect, it } from "vitest";
import { boxFor } from "./jump";

const screen = document.createElement("div");
screen.innerHTML = `
  <section data-section="knee"><h2>Knee</h2>
    <div data-path="knee.side"><input id="field-knee.side--left"></div>
    <div data-path="knee.wear"><input id="field-knee.wear.note"></div>
  </section>
  <section data-section="team"><div data-path="team"><button disabled>Up</button><button>Remove</button>
    <input id="field-team[0].person"></div></section>
  <section data-section="components"><div data-path="components"><button id="add">Add</button></div></section>`;

function check(path: string, id: string | undefined, reason: string) {
  expect(boxFor(screen, path)?.id, reason).toBe(id);
}

it("finds the nearest box", () => {
  check("knee.wear.note", "field-knee.wear.note", "its own");
  check("knee.side", "field-knee.side--left", "the first choice of a group");
  check("knee.wear", "field-knee.wear.note", "the first box of a record");
  check("team", "field-team[0].person", "the first box of a list, not the buttons before it");
  check("components[3].lot", "add", "an item that is not there leads to its list");
  check("knee.unknown", "field-knee.side--left", "an unknown field leads to its section");
  check("nowhere", undefined, "nothing is near");
});
