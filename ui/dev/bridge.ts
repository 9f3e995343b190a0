// A stand-in for the program, for tests and `npm run dev` only; the built window never contains it.
// It keeps cases in memory and writes a paper that shows what it was given.
import type { Desk } from "../src/bridge/desk";
import { troubleOf } from "../src/bridge/trouble";
import { type Answers, answerAt } from "../src/entry/paths";
import { nameOf, wordsAt } from "../src/entry/words";
import type { Case } from "../src/types/Case";
import type { CaseLine } from "../src/types/CaseLine";
import type { Entry } from "../src/types/Entry";
import type { NotebookState } from "../src/types/NotebookState";
import type { PaperSettings } from "../src/types/PaperSettings";
import { shippedLimits } from "./limits";
import { drawings, findings, reckonings, scanned } from "./margin";
import { miniature } from "./miniature";

export type * from "../src/bridge/desk";
export { troubleOf };
export const CLOSING = "evengap-closing";

const NOW = "2026-03-04T14:05";
const demonstration: NotebookState = { path: "demonstration.evengap", demonstration: true, writer: "Dr. M. Demo", cases: 2 };

const kept = new Map<string, Entry>();
let open: NotebookState | null = null;
let made = 0;
let settings: PaperSettings = shipped();
let separators: string[] = [];
let limits = shippedLimits();

function shipped(): PaperSettings {
  return { date_format: "day_month_in_words", emergency_number: "112", fever_c: 38 };
}

function keep(answers: Answers): Entry {
  const id = `00000000-0000-4000-8000-${String(++made).padStart(12, "0")}`;
  const entry: Entry = { case: { ...answers, id } as unknown as Case, state: "draft", saved_at: NOW };
  kept.set(id, entry);
  return structuredClone(entry);
}

/** Puts the stand-in back to its two invented cases and a closed notebook. */
export function reset(): void {
  kept.clear();
  open = null;
  made = 0;
  settings = shipped();
  separators = [];
  limits = shippedLimits();
  keep({
    patient: { family_name: "Ødegård", given_name: "Sunniva", hospital_number: "D-1001", birth_date: "1951-07-19" },
    setting: { operation_date: "2026-03-02" },
    knee: { side: "right" },
    choice: { procedure: "total" },
  });
  keep({ patient: { family_name: "Papadáki" } });
}
reset();

function line({ case: held, state, saved_at }: Entry): CaseLine {
  const answers = held as unknown as Answers;
  const text = (path: string) => String(answerAt(answers, path) ?? "");
  return {
    id: held.id,
    name: nameOf(answers),
    hospital_number: text("patient.hospital_number"),
    birth_date: text("patient.birth_date"),
    operation_date: text("setting.operation_date"),
    side: wordsAt(answers, miniature, "knee.side"),
    procedure: wordsAt(answers, miniature, "choice.procedure"),
    state,
    saved_at: saved_at ?? "",
  };
}

function escaped(text: string): string {
  return text.replace(/[&<>]/g, (letter) => `&#${letter.charCodeAt(0)};`);
}

const notOpen = { code: "not_open", message: "No notebook is open.", places: [] };

export const desk: Desk = {
  dictionary: async () => miniature,
  notebookCurrent: async () => open,
  notebookOpenDemonstration: async () => (open = demonstration),
  notebookCreate: async (path, _passphrase, writer) => {
    kept.clear();
    return (open = { path, demonstration: false, writer, cases: 0 });
  },
  notebookOpen: async (path, passphrase) => {
    if (passphrase !== "the right passphrase") throw { code: "wrong_passphrase", message: "Wrong passphrase.", places: [] };
    return (open = { path, demonstration: false, writer: "Dr. M. Demo", cases: kept.size });
  },
  notebookClose: async () => (open = null),
  notebookSuggestPath: async () => "~/Documents/knees.evengap",
  casesFind: async (text) => {
    if (open === null) throw notOpen;
    return [...kept.values()].filter((entry) => JSON.stringify(entry).toLowerCase().includes(text.toLowerCase())).map(line);
  },
  caseNew: async () => keep({}),
  caseShow: async (id) => {
    const found = kept.get(id);
    if (!found) throw { code: "failed", message: "There is no such case.", places: [] };
    return structuredClone(found);
  },
  caseSave: async (entry) => {
    kept.set(entry.id, { case: structuredClone(entry), state: "draft", saved_at: NOW });
    return { saved_at: NOW };
  },
  caseReview: async (entry) => findings(entry as unknown as Answers),
  caseReckonings: async (entry) => reckonings(entry as unknown as Answers),
  caseDrawings: async (entry) => drawings(entry as unknown as Answers),
  scanRead: async (entry, scan) => scanned(entry as unknown as Answers, scan),
  pictureRead: async (entry, picture) => [scanned(entry as unknown as Answers, new TextDecoder().decode(picture))],
  paperPreview: async (entry, kind) => {
    const { id: _, ...answers } = entry;
    const unfinished = answerAt(entry as unknown as Answers, "knee.side") === undefined ? ["The side is not recorded."] : [];
    return { html: `<h1>${kind}</h1><p>${escaped(JSON.stringify(answers))}</p>`, unfinished };
  },
  paperSuggestPath: async (_entry, kind, format) => `~/Documents/${kind}.${format}`,
  paperExport: async ({ to, replace }) => {
    if (to.includes("taken") && !replace) throw { code: "exists", message: "The file exists.", places: [] };
    return { path: to };
  },
  paperSettings: async () => ({ ...settings }),
  paperSettingsSave: async (asked) => {
    if (!/\d\d/.test(asked.emergency_number)) throw { code: "failed", message: "Emergency number: write a number.", places: [] };
    return (settings = asked);
  },
  limits: async () => structuredClone(limits),
  limitsSave: async (asked) => structuredClone((limits = { ...limits, limits: asked })),
  scannerSeparators: async () => [...separators],
  scannerSeparatorsSave: async (asked) => {
    const wrong = asked.find((separator) => /^[\p{L}\p{N}]+$/u.test(separator));
    if (wrong !== undefined) throw { code: "failed", message: `Separator “${wrong}”: write a sign.`, places: [] };
    return (separators = asked);
  },
  windowClose: async () => undefined,
};
