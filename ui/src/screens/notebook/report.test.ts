import { expect, it } from "vitest";
import { lookedAt, restored, told } from "./report";

it("tells only what there is", () => {
  const none = { written_by: "Dr. A", written_at: "2026-03-04T14:05", new: 0, same: 0, newer: 0, older: 0, conflicts: [] };
  expect(told(none)).toContain("There is no case in this file.");
  expect(told({ ...none, new: 2, same: 1 })).toBe("Written by Dr. A on 2026-03-04. Cases: 2 new, 1 the same.");
  expect(told({ ...none, conflicts: [{ id: "x", name: "X", what: "conflict" }] })).toContain("Cases: 1 changed on both computers.");
});

it("counts in words that fit", () => {
  const verify = { pages: 37, entries: 1, signed: 0, addenda: 1, steps: 2, papers: 0, ledger_rows: 1, ledger_head: null, problems: [] };
  expect(lookedAt(verify)).toBe("one case, 0 signed versions, one addendum, 2 saved versions, 0 kept papers, 37 pages of the file");
  const report = { path: "", cases: 2, signed: 1, drafts: 1, addenda: 0, papers: 1, people: 1, newest_saved_at: "2026-03-04T14:05", verify };
  expect(restored(report)).toBe("2 cases (1 signed, one draft), 0 addenda, one kept paper, one person, last saved 2026-03-04");
});
