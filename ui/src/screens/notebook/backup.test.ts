import { expect, it } from "vitest";
import { backupName } from "./backup";

it("puts the day into the name", () => {
  expect(backupName("/home/m/knees.evengap", new Date(2026, 2, 4))).toBe("/home/m/knees backup 2026-03-04.evengap");
  expect(backupName("knees", new Date(2026, 10, 25))).toBe("knees backup 2026-11-25.evengap");
});
