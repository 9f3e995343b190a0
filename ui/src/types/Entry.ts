import type { Case } from "./Case";

export type Entry = { case: Case; state: "draft" | "signed"; saved_at: string | null };
