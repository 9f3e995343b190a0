// What the person who opened the notebook may do here. It hides what cannot be done; the desk refuses it anyway.
import type { NotebookState, Right, Role } from "#bridge";

/** Says whether the person may; without an open notebook nobody may anything. */
export function may(notebook: NotebookState | null, right: Right): boolean {
  return notebook?.rights.includes(right) ?? false;
}

export const ROLES: readonly { role: Role; words: string; meaning: string }[] = [
  { role: "surgeon", words: "Surgeon", meaning: "Reads and writes entries, signs, writes all papers, changes templates and settings." },
  { role: "registrar", words: "Registrar", meaning: "Reads and writes drafts and writes all papers. Does not sign." },
  { role: "clinic", words: "Clinic", meaning: "Sees the list and prints letters and component records. Reads no entry." },
  { role: "keeper", words: "Keeper only", meaning: "Adds and removes people, backs up, restores and checks. Reads no case." },
];

export function roleWords(role: Role): string {
  return ROLES.find((each) => each.role === role)?.words ?? role;
}
