// Scans on their way into the entry: asked of the program one after the other, because the second code of a label
// belongs to the component that the first one made.
import { createContext } from "svelte";
import { desk, troubleOf } from "#bridge";
import type { OpenEntry } from "../entry/open.svelte";
import { type Answer, itemOf } from "../entry/paths";
import type { Scanned } from "../types/Scanned";
import { pictureTrouble } from "./picture";

/** The section whose list scans go into. */
export const COMPONENTS = "components";

/** Some sentences name the component already. */
const NAMED = /component \d/i;

export class Scanning {
  /** What was read last, in one sentence. */
  said = $state("");
  warnings: readonly string[] = $state.raw([]);
  trouble = $state("");
  #entry: OpenEntry;
  #placed: (path: string) => void;
  #queue: Promise<void> = Promise.resolve();

  /** `placed` is told the path of the component that a scan went into. */
  constructor(entry: OpenEntry, placed: (path: string) => void) {
    this.#entry = entry;
    this.#placed = placed;
  }

  /** Reads a scan or a label as somebody typed it. */
  read(scan: string): Promise<void> {
    return this.#next(async () => [await desk.scanRead(this.#entry.snapshot(), scan)]);
  }

  /** Reads the codes in a picture of a label. */
  async picture(file: File): Promise<void> {
    const trouble = pictureTrouble(file);
    if (trouble !== "") return this.#say("", [], trouble);
    await this.#next(async () => {
      this.#say("Reading the picture.", [], "");
      const bytes = new Uint8Array(await file.arrayBuffer());
      return desk.pictureRead(this.#entry.snapshot(), bytes);
    });
  }

  /** Forgets what was said last. */
  dismiss(): void {
    this.#say("", [], "");
  }

  #next(ask: () => Promise<Scanned[]>): Promise<void> {
    this.#queue = this.#queue.then(async () => {
      try {
        this.#take(await ask());
      } catch (thrown) {
        this.#say("", [], troubleOf(thrown).message);
      }
    });
    return this.#queue;
  }

  #take(scans: readonly Scanned[]): void {
    const places = scans.map((scan) => this.#put(scan));
    const sentences = scans.map(({ sentence }, each) => (NAMED.test(sentence) ? sentence : `${sentence} Component ${(places[each] ?? 0) + 1}.`));
    this.#say(sentences.join(" "), scans.flatMap(({ warnings }) => warnings), "");
    const last = places.at(-1);
    if (last !== undefined) this.#placed(itemOf(COMPONENTS, last));
  }

  #put({ component, into }: Scanned): number {
    // An empty item at the end is not in what the program was given; the scan goes into it.
    const place = into ?? this.#entry.snapshot().components?.length ?? 0;
    const path = itemOf(COMPONENTS, place);
    const there = this.#entry.at(path);
    const scanned = component as unknown as { [name: string]: Answer };
    const before = typeof there === "object" && there !== null && !Array.isArray(there) ? there : {};
    this.#entry.set(path, { ...before, ...scanned });
    return place;
  }

  #say(said: string, warnings: readonly string[], trouble: string): void {
    this.said = said;
    this.warnings = warnings;
    this.trouble = trouble;
  }
}

export const [scanning, setScanning] = createContext<Scanning>();
