// A stand-in for the program, for tests and `npm run dev` only; the built window never contains it.
// It keeps cases in memory and writes a paper that shows what it was given.
import type { Desk } from "../src/bridge/desk";
import { troubleOf } from "../src/bridge/trouble";
import { type Answers, answerAt } from "../src/entry/paths";
import { nameOf, wordsAt } from "../src/entry/words";
import type { AddendumLine } from "../src/types/AddendumLine";
import type { BatchReport } from "../src/types/BatchReport";
import type { Case } from "../src/types/Case";
import type { CaseLine } from "../src/types/CaseLine";
import type { Entry } from "../src/types/Entry";
import type { NotebookState } from "../src/types/NotebookState";
import type { PaperSettings } from "../src/types/PaperSettings";
import { shippedLimits } from "./limits";
import { drawings, findings, reckonings, scanned } from "./margin";
import { miniature } from "./miniature";
import { names, reading, Shelf } from "./templates";

export type * from "../src/bridge/desk";
export { troubleOf };
export const CLOSING = "evengap-closing";

const NOW = "2026-03-04T14:05";
const demonstration: NotebookState = { path: "demonstration.evengap", demonstration: true, writer: "Dr. M. Demo", cases: 2 };

const kept = new Map<string, Entry>();
let open: NotebookState | null = null;
let made = 0;
let addenda = new Map<string, AddendumLine[]>();
let shelf = new Shelf(NOW);
let stopped = false;
let settings: PaperSettings = shipped();
let separators: string[] = [];
let limits = shippedLimits();

function shipped(): PaperSettings {
  return { date_format: "day_month_in_words", emergency_number: "112", fever_c: 38, confirmed_translations: [] };
}

function keep(answers: Answers): Entry {
  const id = `00000000-0000-4000-8000-${String(++made).padStart(12, "0")}`;
  const entry: Entry = { case: { ...answers, id } as unknown as Case, state: "draft", number: 1, saved_at: NOW, signed: null };
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
  addenda = new Map();
  shelf = new Shelf(NOW);
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

function failed(message: string) {
  return { code: "failed", message, places: [] };
}

function found(id: string): Entry {
  const entry = kept.get(id);
  if (!entry) throw failed("There is no such case.");
  return entry;
}

function unfinished(entry: Case): string[] {
  return answerAt(entry as unknown as Answers, "knee.side") === undefined ? ["The side is not recorded."] : [];
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
  caseShow: async (id) => structuredClone(found(id)),
  caseSave: async (entry) => {
    if (found(entry.id).state === "signed") throw failed("This entry is signed.");
    kept.set(entry.id, { case: structuredClone(entry), state: "draft", number: 1, saved_at: NOW, signed: null });
    return { saved_at: NOW };
  },
  caseSign: async ({ id }) => {
    const { case: held } = found(id);
    const blocks = findings(held as unknown as Answers).filter((each) => each.blocks);
    const places = blocks.map(({ paths, message }) => ({ path: paths[0] ?? "", message }));
    if (places.length > 0) throw { code: "refused", message: "The entry is not complete.", places };
    kept.set(id, { case: held, state: "signed", number: 1, saved_at: NOW, signed: { by: open?.writer ?? "", at: NOW } });
    return structuredClone(found(id));
  },
  caseAddendum: async (entry, text, basedOn) => {
    const before = found(entry.id);
    if (before.number !== basedOn) throw failed("This entry was changed meanwhile.");
    if (before.state !== "signed") throw failed("Only a signed entry has addenda.");
    const there = addenda.get(entry.id) ?? [];
    addenda.set(entry.id, [...there, { number: there.length + 1, by: open?.writer ?? "", at: NOW, text }]);
    kept.set(entry.id, { ...before, number: before.number + 1, case: structuredClone(entry) });
    return structuredClone(found(entry.id));
  },
  caseAddenda: async (id) => structuredClone(addenda.get(id) ?? []),
  caseReview: async (entry) => findings(entry as unknown as Answers),
  caseReckonings: async (entry) => reckonings(entry as unknown as Answers),
  caseDrawings: async (entry) => drawings(entry as unknown as Answers),
  scanRead: async (entry, scan) => scanned(entry as unknown as Answers, scan),
  pictureRead: async (entry, picture) => [scanned(entry as unknown as Answers, new TextDecoder().decode(picture))],
  paperPreview: async (entry, { kind, language, page, addendum }) => {
    const { id, ...answers } = entry;
    const added = addendum === null ? undefined : addenda.get(id)?.find(({ number }) => number === addendum);
    const { name, version } = shelf.show(kind, language);
    return {
      html: `<h1 lang="${language}">${kind} ${page}</h1>${added ? `<p>${escaped(added.text)}</p>` : ""}<p>${escaped(JSON.stringify(answers))}</p>`,
      unfinished: unfinished(entry),
      reading: kind === "discharge-letter" && language === "en" ? reading(JSON.stringify(answers)) : null,
      template: `${name}, version ${version}`,
      warnings: [],
    };
  },
  paperSuggestPath: async (_entry, { kind }, format) => `~/Documents/${kind}.${format}`,
  paperExport: async ({ to, replace }) => {
    if (to.includes("taken") && !replace) throw { code: "exists", message: "The file exists.", places: [] };
    return { path: to, unfinished: [], warnings: [], reading: null };
  },
  papersBatch: async ({ ids, kinds, to, replace }, onprogress) => {
    if ("file" in to && to.file.includes("taken") && !replace) throw { code: "exists", message: "The file exists.", places: [] };
    stopped = false;
    const report: BatchReport = { written: [], failed: [], warnings: [], cancelled: false };
    for (const [done, id] of ids.entries()) {
      onprogress(done, ids.length);
      await new Promise((go) => setTimeout(go, 20));
      if (stopped) return { ...report, cancelled: true };
      const { case: held } = found(id);
      if (nameOf(held as unknown as Answers) === "") report.failed.push({ id, message: "The patient is not recorded." });
      else for (const kind of kinds) report.written.push({ id, kind, path: "file" in to ? to.file : `${to.folder}/${kind}-${id.slice(-2)}.pdf`, unfinished: unfinished(held) });
    }
    return report;
  },
  papersBatchCancel: async () => void (stopped = true),
  templates: async () => shelf.lines(),
  templateShow: async (kind, language) => shelf.show(kind, language),
  templateTry: async (entry, _kind, language, source) => shelf.try(entry as unknown as Answers, language, source),
  templateSave: async (kind, language, name, source) => shelf.save(kind, language, name, source),
  templateHistory: async (kind, language) => shelf.history(kind, language),
  templateRestore: async (kind, language, version) => shelf.restore(kind, language, version),
  templateNames: async (entry) => names(entry as unknown as Answers),
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
