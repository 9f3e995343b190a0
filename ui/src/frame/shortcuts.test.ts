import { expect, it } from "vitest";
import { type Shortcut, shortcutOf } from "./shortcuts";

const none = { ctrlKey: false, metaKey: false, altKey: false, shiftKey: false };

function check(keys: string, expected: Shortcut | undefined) {
  const parts = keys.split("+");
  const pressed = { ...none, key: parts.at(-1) ?? "", ctrlKey: parts.includes("Ctrl"), altKey: parts.includes("Alt"), shiftKey: parts.includes("Shift") };
  expect(shortcutOf(pressed), keys).toBe(expected);
}

it("knows the keys that work everywhere", () => {
  check("Ctrl+f", "search");
  check("Ctrl+n", "new");
  check("Ctrl+e", "export");
  check("Ctrl+l", "lock");
  check("Alt+ArrowDown", "next");
  check("Alt+ArrowUp", "previous");
});

it("leaves other keys to whom they belong", () => {
  check("f", undefined);
  check("ArrowDown", undefined);
  check("Ctrl+Shift+n", undefined);
  check("Ctrl+Alt+e", undefined);
  check("Ctrl+ArrowDown", undefined);
});
