import { expect, it } from "vitest";
import type { BatchReport } from "../../../types/BatchReport";
import { headline } from "./report";

function check(written: string[], failed: string[], cancelled: boolean, expected: string) {
  const report: BatchReport = {
    written: written.map((id) => ({ id, kind: "operative-note", path: `/${id}.pdf`, unfinished: [] })),
    failed: failed.map((id) => ({ id, message: "No." })),
    warnings: [],
    cancelled,
  };
  expect(headline(report)).toBe(expected);
}

it("says in one breath what came of it", () => {
  check(["a", "a", "b"], [], false, "3 papers of 2 cases were written.");
  check(["a"], ["b"], false, "One paper of one case was written. One could not be written; the others did not wait for it.");
  check(["a", "a"], [], true, "2 papers of one case were written. Then it was stopped; what was written stays.");
  check([], ["a", "b"], false, "No paper was written. 2 could not be written; the others did not wait for them.");
  check([], [], true, "No paper was written. It was stopped.");
});
