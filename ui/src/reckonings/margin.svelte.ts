// What the program says about the open entry: findings, reckonings and drawings, asked for again as answers change.
import { createContext } from "svelte";
import { desk } from "#bridge";
import { Latest } from "../entry/latest";
import type { OpenEntry } from "../entry/open.svelte";
import type { Beside } from "../types/Beside";
import type { Drawn } from "../types/Drawn";
import type { Finding } from "../types/Finding";
import { byPlace, groupOf } from "./places";

/** Milliseconds after the last change before the entry is reviewed and reckoned again. */
export const MARGIN_MS = 300;

export class Margin {
  findings: Finding[] = $state.raw([]);
  beside: Beside[] = $state.raw([]);
  drawn: Drawn[] = $state.raw([]);
  #found = $derived(byPlace(this.findings, ({ paths }) => paths));
  #besideAt: Map<string, Beside[]>;
  #drawnAt: Map<string, Drawn[]>;
  #asking: Pick<Latest<unknown>, "change" | "now" | "stop">[];

  constructor(entry: OpenEntry) {
    const group = ({ at }: { at: string }) => [groupOf(entry.dictionary, at)];
    this.#besideAt = $derived(byPlace(this.beside, group));
    this.#drawnAt = $derived(byPlace(this.drawn, group));
    this.#asking = [
      // The review needs a readable entry; what is wrong with it is said where the entry is saved.
      new Latest(MARGIN_MS, () => desk.caseReview(entry.snapshot()), (findings) => (this.findings = findings), () => undefined),
      // Numbers that no longer follow from the answers must not stay beside them.
      new Latest(MARGIN_MS, () => desk.caseReckonings(entry.snapshot()), (beside) => (this.beside = beside), () => (this.beside = [])),
      new Latest(MARGIN_MS, () => desk.caseDrawings(entry.snapshot()), (drawn) => (this.drawn = drawn), () => (this.drawn = [])),
    ];
  }

  /** Gives the findings that name an answer. */
  foundAt(path: string): readonly Finding[] {
    return this.#found.get(path) ?? [];
  }

  /** Gives the reckonings that stand beside a group of answers. */
  besideAt(path: string): readonly Beside[] {
    return this.#besideAt.get(path) ?? [];
  }

  /** Gives the drawings that stand beside a group of answers. */
  drawnAt(path: string): readonly Drawn[] {
    return this.#drawnAt.get(path) ?? [];
  }

  /** Notes a change of the answers. */
  change(): void {
    for (const latest of this.#asking) latest.change();
  }

  /** Asks at once. */
  now(): void {
    for (const latest of this.#asking) void latest.now();
  }

  stop(): void {
    for (const latest of this.#asking) latest.stop();
  }
}

export const [margin, setMargin] = createContext<Margin>();
