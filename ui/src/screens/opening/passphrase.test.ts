import { expect, it } from "vitest";
import { passphraseTrouble } from "./passphrase";

it("refuses what is short or written differently", () => {
  expect(passphraseTrouble("short", "short")).toContain("12 characters");
  expect(passphraseTrouble("four plain words here", "four plain words hear")).toContain("differ");
  expect(passphraseTrouble("four plain words here", "four plain words here")).toBe("");
});
