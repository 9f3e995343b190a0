// A stand-in for the program, for tests and `npm run dev` only; the built window never contains it.
// It keeps cases in memory and writes a paper that shows what it was given.
import type { Desk, NotebookState, Entry } from "../src/bridge/desk";
import { troubleOf } from "../src/bridge/trouble";
import { type Answers, answerAt } from "../src/entry/paths";
import { nameOf, wordsAt } from "../src/entry/words";
import type { AddendumLine } from "../src/types/AddendumLine";
import type { BatchReport } from "../src/types/BatchReport";
import type { Case } from "../src/types/Case";
import type { CaseLine } from "../src/types/CaseLine";
import type { PaperSettings } from "../src/types/PaperSettings";
import { shippedLimits } from "./limits";
import { drawings, findings, reckonings, scanned } from "./margin";
import { miniature } from "./miniature";
import { Cabinet } from "./notebook";
import { names, reading, Shelf } from "./templates";

export type * from "../src/bridge/desk";
export { troubleOf };
export const CLOSING = "evengap-closing";

const NOW = "2026-03-04T14:05";

const kept = new Map<string, Entry>();
let open: NotebookState | null = null;
let made = 0;
let cabinet = new Cabinet(NOW);
let addenda = new Map<string, AddendumLine[]>();
let shelf = new Shelf(NOW);
let stopped = false;
let settings: PaperSettings = shipped();
let separators: string[] = [];
let limits = shippedLimits();

function shipped(): PaperSettings {
  return { date_format: "day_month_in_words", emergency_number: "112", fever_c: 38, confirmed_translations: [] };
}

function state(demonstration = open?.demonstration ?? false): NotebookState {
  return cabinet.state(open?.path ?? "demonstration.evengap", demonstration, kept.size);
}

/** Stores a version of an entry as somebody else would, behind the window's back. */
export function saveElsewhere(entry: Case): void {
  const before = found(entry.id);
  kept.set(entry.id, { ...before, case: structuredClone(entry), version: cabinet.step(before.case, entry, "Dr. E. Else", "draft") });
}

export function cabinetNow(): Cabinet {
  return cabinet;
}

function keep(answers: Answers): Entry {
  const id = `00000000-0000-4000-8000-${String(++made).padStart(12, "0")}`;
  const held = { ...answers, id } as unknown as Case;
  const version = Object.keys(answers).length === 0 ? "" : cabinet.step(undefined, held, "Dr. M. Demo", "draft");
  const entry: Entry = { case: held, state: "draft", number: 1, saved_at: NOW, signed: null, version };
  kept.set(id, entry);
  return structuredClone(entry);
}

/** Puts the stand-in back to its two invented cases and a closed notebook. */
export function reset(): void {
  kept.clear();
  open = null;
  made = 0;
  cabinet = new Cabinet(NOW);
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
  notebookCurrent: async () => (open = open === null ? null : state()),
  notebookOpenDemonstration: async () => (open = state(true)),
  notebookCreate: async (path, _passphrase, writer) => {
    kept.clear();
    cabinet.person("person-1").name = writer;
    return (open = cabinet.state(path, false, 0));
  },
  notebookOpen: async (path, passphrase) => (open = cabinet.open(path, passphrase, kept.size)),
  notebookClose: async () => (open = null),
  notebookLock: async () => {
    const path = open?.path ?? "";
    open = null;
    return path;
  },
  notebookVerify: async () => ({ pages: 40, entries: kept.size, signed: 0, addenda: 0, steps: 4, papers: 0, ledger_rows: 4, ledger_head: null, problems: [] }),
  notebookBackUp: async (to, replace, onprogress) => {
    if (to?.includes("taken") && !replace) throw { code: "exists", message: "The file exists.", places: [] };
    onprogress(1, 1);
    cabinet.lastBackup = NOW;
    return { path: to ?? `${cabinet.backup.folder}/knees.evengap`, cases: kept.size, bytes: 200_000 };
  },
  backupSettings: async () => ({ ...cabinet.backup }),
  backupSettingsSave: async (asked) => (cabinet.backup = { ...asked }),
  notebookRestore: async (from, _passphrase, to) => {
    if (to.includes("taken")) throw { code: "exists", message: "There is a file already.", places: [] };
    const verify = { pages: 40, entries: 2, signed: 1, addenda: 0, steps: 4, papers: 1, ledger_rows: 4, ledger_head: null, problems: [] };
    return { path: from === "" ? "" : to, cases: 2, drafts: 1, signed: 1, addenda: 0, papers: 1, people: 2, newest_saved_at: NOW, verify };
  },
  lockAfter: async () => cabinet.lockAfter,
  lockAfterSave: async (minutes) => (cabinet.lockAfter = minutes),
  people: async () => structuredClone(cabinet.people),
  personAdd: async (name, role, keeper, passphrase) => cabinet.add(name, role, keeper, passphrase),
  personChange: async (mark, role, keeper) => void Object.assign(cabinet.person(mark), { role, keeper }),
  personRemove: async (mark) => {
    if (cabinet.person(mark).you) throw failed("A notebook keeps its last keeper.");
    Object.assign(cabinet.person(mark), { removed_at: NOW, can_open: false });
  },
  passphraseChange: async (old) => {
    if (old !== "the right passphrase") throw { code: "wrong_passphrase", message: "The old passphrase is not yours, so nothing was changed. Type it again.", places: [] };
  },
  passphraseSet: async (mark, fresh) => void cabinet.passphrases.set(mark, fresh),
  recoverySheet: async (to) => to,
  caseHistory: async (id) => structuredClone(cabinet.steps.get(id) ?? []),
  exchangeWrite: async (to, _passphrase, ids) => ({ path: to, cases: ids?.length ?? kept.size }),
  exchangeRead: async () => {
    const [first] = kept.values();
    const written = { written_by: "Dr. M. Demo", written_at: NOW };
    if (!first) return { ...written, new: 0, same: 0, newer: 0, older: 0, conflicts: [] };
    const theirs = { ...first.case, patient: { ...first.case.patient, family_name: "Odegard" } };
    const line = { sequence: 1, id: first.case.id, name: "Ødegård, Sunniva", by: "Dr. M. Demo", at: NOW };
    const changes = [{ path: "patient.family_name", labels: ["Patient", "Family name"], before: "Ødegård", now: "Odegard", unit: null, kind: { is: "text" as const } }];
    const side = { by: "Dr. M. Demo", at: NOW, state: first.state };
    cabinet.conflicts = [{ line, ours: { ...side, case: first.case }, theirs: { ...side, case: theirs }, changes, choices: first.state === "signed" ? ["ours"] : ["ours", "theirs"] }];
    return { ...written, new: 0, same: 1, newer: 0, older: 0, conflicts: [{ id: line.id, name: line.name, what: "conflict" }] };
  },
  conflicts: async () => cabinet.conflicts.map(({ line: each }) => each),
  conflictShow: async (sequence) => {
    const conflict = cabinet.conflicts.find(({ line: each }) => each.sequence === sequence);
    if (!conflict) throw failed("It is settled.");
    return structuredClone(conflict);
  },
  conflictSettle: async (sequence, which) => {
    const conflict = cabinet.conflicts.find(({ line: each }) => each.sequence === sequence);
    if (conflict && which === "theirs") saveElsewhere(conflict.theirs.case);
    cabinet.conflicts = cabinet.conflicts.filter(({ line: each }) => each.sequence !== sequence);
  },
  notebookSuggestPath: async () => "~/Documents/knees.evengap",
  casesFind: async (text) => {
    if (open === null) throw notOpen;
    return [...kept.values()].filter((entry) => JSON.stringify(entry).toLowerCase().includes(text.toLowerCase())).map(line);
  },
  casesFindNewest: async (text, most) => {
    const lines = await desk.casesFind(text);
    return { lines: lines.slice(0, most), more: lines.length > most };
  },
  caseNew: async () => keep({}),
  caseShow: async (id) => structuredClone(found(id)),
  caseSave: async (entry, basedOn) => {
    if (open === null) throw notOpen;
    const before = found(entry.id);
    if (before.version !== (basedOn ?? "")) throw { code: "changed_meanwhile", message: "Somebody saved this entry meanwhile.", places: [] };
    if (before.state === "signed") throw failed("This entry is signed.");
    const version = cabinet.step(before.case, entry, open.person.name, "draft");
    kept.set(entry.id, { case: structuredClone(entry), state: "draft", number: 1, saved_at: NOW, signed: null, version });
    return { saved_at: NOW, version };
  },
  caseSign: async ({ id }, overrides) => {
    const { case: held } = found(id);
    const blocks = findings(held as unknown as Answers).filter((each) => each.blocks && !overrides.some(({ rule }) => rule === each.rule));
    const places = blocks.map(({ paths, message }) => ({ path: paths[0] ?? "", message }));
    if (places.length > 0) throw { code: "refused", message: "The entry is not complete.", places };
    const version = cabinet.step(held, held, open?.person.name ?? "", "signed");
    kept.set(id, { case: held, state: "signed", number: 1, saved_at: NOW, signed: { by: open?.person.name ?? "", at: NOW }, version });
    return structuredClone(found(id));
  },
  caseAddendum: async (entry, text, basedOn) => {
    const before = found(entry.id);
    if (before.number !== basedOn) throw failed("This entry was changed meanwhile.");
    if (before.state !== "signed") throw failed("Only a signed entry has addenda.");
    const there = addenda.get(entry.id) ?? [];
    addenda.set(entry.id, [...there, { number: there.length + 1, by: open?.writer ?? "", at: NOW, text }]);
    kept.set(entry.id, { ...before, number: before.number + 1, case: structuredClone(entry), version: cabinet.step(before.case, entry, open?.person.name ?? "", "addendum", text) });
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
  paperPreviewOf: async (id, choice) => desk.paperPreview(found(id).case, choice),
  paperSuggestPathOf: async (id, choice, format) => desk.paperSuggestPath(found(id).case, choice, format),
  paperExportOf: async (id, choice, format, to, replace) => desk.paperExport({ ...choice, case: found(id).case, format, to, replace }),
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
