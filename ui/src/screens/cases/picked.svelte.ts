// The cases that were chosen in the list. A choice stays while one searches for the next case.
import { SvelteSet } from "svelte/reactivity";
import type { CaseLine } from "../../types/CaseLine";

export class Picked {
  readonly ids = new SvelteSet<string>();
  /** Operation day of the case that was chosen last; empty where there is none. */
  day = $state("");
  /** Where a range begins. */
  #from: string | undefined;

  /** Chooses a case, or no longer. */
  toggle(line: CaseLine): void {
    this.#from = line.id;
    if (this.ids.delete(line.id)) return;
    this.ids.add(line.id);
    this.day = line.operation_date;
  }

  /** Chooses all cases from the last one that was touched to this one. */
  reach(line: CaseLine, lines: readonly CaseLine[]): void {
    const from = lines.findIndex(({ id }) => id === this.#from);
    const to = lines.findIndex(({ id }) => id === line.id);
    if (from < 0) return this.toggle(line);
    this.add(lines.slice(Math.min(from, to), Math.max(from, to) + 1));
  }

  add(lines: readonly CaseLine[]): void {
    for (const { id } of lines) this.ids.add(id);
    this.day = lines.at(-1)?.operation_date ?? this.day;
  }

  remove(lines: readonly CaseLine[]): void {
    for (const { id } of lines) this.ids.delete(id);
  }

  clear(): void {
    this.ids.clear();
    this.day = "";
    this.#from = undefined;
  }
}

/** Names a case in a report: the patient, and what tells this knee from the other one. */
export function titleOf({ name, side, operation_date }: CaseLine): string {
  return [name === "" ? "A patient not recorded" : name, side, operation_date].filter((part) => part !== "").join(", ");
}

/** Gives the cases of a day that are not chosen yet. */
export function restOfDay(lines: readonly CaseLine[], { ids, day }: Picked): CaseLine[] {
  return day === "" ? [] : lines.filter((line) => line.operation_date === day && !ids.has(line.id));
}
