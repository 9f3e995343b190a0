// The entry that is open on the screen: its answers, and what was typed into it that could not be read.
// It changes answers and says so; saving, reviewing and showing the paper listen.
import { createContext } from "svelte";
import type { Case } from "../types/Case";
import type { CaseLine } from "../types/CaseLine";
import type { Entry } from "../types/Entry";
import type { Field } from "../types/Field";
import { afterRemoval, afterSwap, append, type Moved, rearrange, rekeyed } from "./lists";
import { type Answer, type Answers, answerAt, itemOf, listAt, record } from "./paths";
import { pruned } from "./pruning";
import type { Read } from "./reading";

export type Unread = { typed: string; sentence: string };

/** What was typed and could not be read, by who typed it and entry, so that it is still there when they open the entry again. */
const leftUnread = new Map<string, Record<string, Unread>>();

/** A copy without Svelte's proxies. Their own type for it is too deep for a recursive one like `Answer`. */
function plain(answers: Answers): Answers {
  return $state.snapshot(answers as unknown) as Answers;
}

export class OpenEntry {
  readonly id: string;
  readonly dictionary: readonly Field[];
  answers: Answers = $state({});
  unread: Record<string, Unread> = $state({});
  /** The field that the person is in, for its help. */
  attended: { field: Field; path: string } | undefined = $state.raw();
  /** Other entries that this one may name. */
  others: CaseLine[] = $state.raw([]);
  #changed: () => void = () => undefined;
  /** Under which what could not be read is kept. */
  #kept: string;

  /** `whose` is the mark of the person at the window: nobody is shown what somebody else typed and never saved. */
  constructor(entry: Entry, dictionary: readonly Field[], whose = "") {
    this.id = entry.case.id;
    this.#kept = `${whose} ${this.id}`;
    this.dictionary = dictionary;
    this.answers = structuredClone(entry.case) as unknown as Answers;
    this.unread = leftUnread.get(this.#kept) ?? {};
  }

  /** Calls back after every change of an answer. */
  onchange(changed: () => void): void {
    this.#changed = changed;
  }

  at(path: string): Answer | undefined {
    return answerAt(this.answers, path);
  }

  list(path: string): Answer[] {
    return listAt(this.answers, path);
  }

  set(path: string, answer: Answer | undefined): void {
    this.#forget(path);
    if (this.at(path) === answer) return;
    record(this.answers, path, answer);
    this.#changed();
  }

  /** Takes what was typed: an answer is recorded; anything unreadable stays as it was typed, and what was recorded stays recorded. */
  take(path: string, typed: string, read: Read): void {
    if (read.is !== "unread") return this.set(path, read.is === "answer" ? read.answer : undefined);
    const recorded = this.at(path);
    const stays = recorded === undefined ? "" : ` Until then ${String(recorded).replace("T", " ")} stays recorded.`;
    this.refuse(path, typed, read.sentence + stays);
  }

  refuse(path: string, typed: string, sentence: string): void {
    this.unread[path] = { typed, sentence };
    this.#remember();
  }

  add(path: string, item: Answer, none: string | undefined): number {
    const place = append(this.answers, path, item, none);
    this.#changed();
    return place;
  }

  remove(path: string, place: number): void {
    this.#rearrange(path, afterRemoval(place));
  }

  swap(path: string, one: number, other: number): void {
    this.#rearrange(path, afterSwap(one, other));
  }

  /** The entry as it is sent away, without anything empty. */
  snapshot(): Case {
    return pruned(plain(this.answers), this.dictionary) as unknown as Case;
  }

  /** Takes back answers that were refused at these places, keeping them in their boxes; says whether all were found. */
  giveBack(places: readonly { path: string; message: string }[]): boolean {
    const found = places.filter(({ path }) => ["string", "number"].includes(typeof this.at(path)));
    for (const { path, message } of found) {
      const typed = String(this.at(path));
      record(this.answers, path, undefined);
      this.refuse(path, typed, message);
    }
    return found.length > 0 && found.length === places.length;
  }

  /** Forgets what was typed and could not be read, when the changes to the entry are thrown away. */
  forgetUnread(): void {
    this.unread = {};
    leftUnread.delete(this.#kept);
  }

  itemPaths(path: string): string[] {
    return this.list(path).map((_, place) => itemOf(path, place));
  }

  #rearrange(path: string, moved: Moved): void {
    rearrange(this.answers, path, moved, this.dictionary);
    this.unread = rekeyed(this.unread, path, moved);
    this.#remember();
    this.#changed();
  }

  #forget(path: string): void {
    if (!Object.hasOwn(this.unread, path)) return;
    delete this.unread[path];
    this.#remember();
  }

  #remember(): void {
    leftUnread.set(this.#kept, $state.snapshot(this.unread));
  }
}

export const [openEntry, setOpenEntry] = createContext<OpenEntry>();
