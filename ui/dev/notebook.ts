// The people, backups, history and other computer of the stand-in program.
import type { BackupSettings, Conflict, HistoryStep, NotebookState, PersonLine, Right, Role } from "../src/bridge/desk";
import type { Case } from "../src/types/Case";

const ALL: Right[] = ["list_cases", "read_entries", "write_drafts", "sign", "all_papers", "print_papers", "templates", "settings", "history", "exchange", "back_up", "security"];
const KEEPER: Right[] = ["security", "people", "recovery_sheet", "restore", "verify", "back_up"];
const RIGHTS: Record<Role, Right[]> = {
  surgeon: ALL,
  registrar: ["list_cases", "read_entries", "write_drafts", "all_papers", "print_papers", "history", "back_up"],
  clinic: ["list_cases", "print_papers"],
  keeper: [],
};

function failed(message: string) {
  return { code: "failed", message, places: [] };
}

/** Who opens the notebook with which passphrase, how it is backed up, and what came from another computer. */
export class Cabinet {
  people: PersonLine[] = [];
  passphrases = new Map<string, string>();
  backup: BackupSettings = { folder: null, every_days: 7 };
  lastBackup: string | null = null;
  lockAfter = 10;
  conflicts: Conflict[] = [];
  readonly steps = new Map<string, HistoryStep[]>();
  #now: string;

  constructor(now: string) {
    this.#now = now;
    this.add("Dr. M. Demo", "surgeon", true, "the right passphrase");
    this.add("Front desk", "clinic", false, "the clinic passphrase");
    this.add("Recovery sheet", "keeper", true, "the code of the sheet");
    for (const each of this.people) each.recovery = each.name === "Recovery sheet";
  }

  add(name: string, role: Role, keeper: boolean, passphrase: string): void {
    if (passphrase.length < 12) throw failed("Write a passphrase of 12 characters or more.");
    const mark = `person-${this.people.length + 1}`;
    this.people.push({ mark, name, role, keeper, added_at: this.#now, removed_at: null, you: false, from_elsewhere: false, recovery: false, can_open: true });
    this.passphrases.set(mark, passphrase);
  }

  person(mark: string): PersonLine {
    const person = this.people.find((each) => each.mark === mark);
    if (!person) throw failed("There is no such person.");
    return person;
  }

  /** Opens with a passphrase, or throws what the desk says. */
  open(path: string, passphrase: string, cases: number): NotebookState {
    const [mark] = [...this.passphrases].find(([, each]) => each === passphrase) ?? [];
    if (mark === undefined) throw { code: "wrong_passphrase", message: "The passphrase does not open this notebook. Type it again; small and capital letters and blanks count.", places: [] };
    for (const each of this.people) each.you = each.mark === mark;
    return this.state(path, false, cases);
  }

  state(path: string, demonstration: boolean, cases: number): NotebookState {
    const you = this.people.find((each) => each.you) ?? this.people[0];
    if (!you) throw failed("Nobody is there.");
    const { mark, name, role, keeper, recovery } = you;
    return {
      path, demonstration, cases, writer: name,
      person: { mark, name, role, keeper, recovery },
      rights: [...RIGHTS[role], ...(keeper ? KEEPER : [])],
      backup: { ...this.backup, last_at: this.lastBackup, days_since: this.lastBackup === null ? null : 0, due: this.lastBackup === null },
      lock_after_minutes: this.lockAfter,
      open_conflicts: this.conflicts.length,
      recovery_sheet_at: null,
      kept_as: null,
    };
  }

  /** Notes a step of a case's history; the family name alone tells what changed. */
  step(before: Case | undefined, now: Case, by: string, kind: HistoryStep["kind"], text: string | null = null): string {
    const there = this.steps.get(now.id) ?? [];
    const node = `${now.id.slice(-2)}-${there.length + 1}`;
    const name = (entry: Case | undefined) => entry?.patient?.family_name ?? null;
    const changed = name(before) !== name(now);
    const changes = changed ? [{ path: "patient.family_name", labels: ["Patient", "Family name"], before: name(before), now: name(now), unit: null, kind: { is: "text" as const } }] : [];
    this.steps.set(now.id, [{ node, at: this.#now, by, kind, number: 1, text, changes, branch: "ours" }, ...there]);
    return node;
  }
}
