// The kinds of findings in the order in which they matter, with the words for them.
import type { FindingKind } from "../types/FindingKind";

export const FINDING_KINDS: readonly { kind: FindingKind; words: string }[] = [
  { kind: "conflict", words: "Cannot both be true" },
  { kind: "out_of_range", words: "Outside the ordinary range" },
  { kind: "caution", words: "To bear in mind" },
  { kind: "missing", words: "Missing" },
];
