// What the window asks of the program: one function per act of the desk, nothing else.
import type { AddendumLine } from "../types/AddendumLine";
import type { BackupReport } from "../types/BackupReport";
import type { BackupSettings } from "../types/BackupSettings";
import type { BatchAsked } from "../types/BatchAsked";
import type { BatchReport } from "../types/BatchReport";
import type { Beside } from "../types/Beside";
import type { Case } from "../types/Case";
import type { CaseLine } from "../types/CaseLine";
import type { Change } from "../types/Change";
import type { Conflict } from "../types/Conflict";
import type { ConflictLine } from "../types/ConflictLine";
import type { Drawn } from "../types/Drawn";
import type { Entry } from "../types/Entry";
import type { ExchangeReport } from "../types/ExchangeReport";
import type { ExchangeWritten } from "../types/ExchangeWritten";
import type { Exported } from "../types/Exported";
import type { Field } from "../types/Field";
import type { Finding } from "../types/Finding";
import type { HistoryStep } from "../types/HistoryStep";
import type { Keep } from "../types/Keep";
import type { LimitRow } from "../types/LimitRow";
import type { Limits } from "../types/Limits";
import type { NotebookState } from "../types/NotebookState";
import type { OverrideAsked } from "../types/OverrideAsked";
import type { PageSize } from "../types/PageSize";
import type { PaperFormat } from "../types/PaperFormat";
import type { PaperKind } from "../types/PaperKind";
import type { PaperLanguage } from "../types/PaperLanguage";
import type { PaperSettings } from "../types/PaperSettings";
import type { Person } from "../types/Person";
import type { PersonLine } from "../types/PersonLine";
import type { Preview } from "../types/Preview";
import type { RestoreReport } from "../types/RestoreReport";
import type { Right } from "../types/Right";
import type { Role } from "../types/Role";
import type { Saved } from "../types/Saved";
import type { Scanned } from "../types/Scanned";
import type { TemplateLine } from "../types/TemplateLine";
import type { TemplateText } from "../types/TemplateText";
import type { TemplateVersion } from "../types/TemplateVersion";
import type { Tried } from "../types/Tried";
import type { VerifyReport } from "../types/VerifyReport";
import type { ViewName } from "../types/ViewName";

export type { PageSize, PaperFormat, PaperKind, PaperLanguage };
export type {
  BackupReport,
  BackupSettings,
  Change,
  Conflict,
  ConflictLine,
  Entry,
  ExchangeReport,
  ExchangeWritten,
  Finding,
  HistoryStep,
  Keep,
  NotebookState,
  OverrideAsked,
  Person,
  PersonLine,
  RestoreReport,
  Right,
  Role,
  Saved,
  VerifyReport,
};

/** Which paper of an entry; `addendum` is the number of the addendum whose page is asked for. */
export type PaperChoice = { kind: PaperKind; language: PaperLanguage; page: PageSize; addendum: number | null };

export type Export = PaperChoice & { case: Case; format: PaperFormat; to: string; replace: boolean };

/** The limits of the open notebook, those that are shipped, and what each of the plain ones limits. */
export type LimitsShown = { limits: Limits; shipped: Limits; rows: LimitRow[] };

export interface Desk {
  dictionary(): Promise<Field[]>;
  notebookCurrent(): Promise<NotebookState | null>;
  notebookOpenDemonstration(): Promise<NotebookState>;
  notebookCreate(path: string, passphrase: string, writer: string): Promise<NotebookState>;
  notebookOpen(path: string, passphrase: string): Promise<NotebookState>;
  notebookClose(): Promise<NotebookState | null>;
  notebookSuggestPath(): Promise<string>;
  /** Closes the notebook and gives its path, so that it can be unlocked again. */
  notebookLock(): Promise<string>;
  notebookVerify(): Promise<VerifyReport>;
  /** Writes a backup; `to` null means the folder of the schedule. */
  notebookBackUp(to: string | null, replace: boolean, onprogress: (done: number, total: number) => void): Promise<BackupReport>;
  backupSettings(): Promise<BackupSettings>;
  backupSettingsSave(settings: BackupSettings): Promise<BackupSettings>;
  /** Restores a backup into a new file; refused where there is one already. */
  notebookRestore(from: string, passphrase: string, to: string): Promise<RestoreReport>;
  /** Minutes without a key or a movement before the notebook locks by itself. */
  lockAfter(): Promise<number>;
  lockAfterSave(minutes: number): Promise<number>;
  people(): Promise<PersonLine[]>;
  personAdd(name: string, role: Role, keeper: boolean, passphrase: string): Promise<void>;
  personChange(mark: string, role: Role, keeper: boolean): Promise<void>;
  personRemove(mark: string): Promise<void>;
  passphraseChange(old: string, fresh: string): Promise<void>;
  /** Sets a passphrase for somebody who forgot it. */
  passphraseSet(mark: string, fresh: string): Promise<void>;
  /** Writes a new recovery sheet as PDF; the one before stops working. */
  recoverySheet(to: string, replace: boolean): Promise<string>;
  caseHistory(id: string): Promise<HistoryStep[]>;
  /** Writes cases for another notebook; `ids` null means all. */
  exchangeWrite(to: string, passphrase: string, ids: string[] | null, replace: boolean): Promise<ExchangeWritten>;
  exchangeRead(from: string, passphrase: string): Promise<ExchangeReport>;
  conflicts(): Promise<ConflictLine[]>;
  conflictShow(sequence: number): Promise<Conflict>;
  conflictSettle(sequence: number, keep: Keep): Promise<void>;
  casesFind(text: string): Promise<CaseLine[]>;
  /** The same, but only so many, and whether there are more. */
  casesFindNewest(text: string, most: number): Promise<{ lines: CaseLine[]; more: boolean }>;
  caseNew(): Promise<Entry>;
  caseShow(id: string): Promise<Entry>;
  /** Saves a draft over the version that it was based on; refused where another one is stored meanwhile. */
  caseSave(entry: Case, basedOn: string | null): Promise<Saved>;
  /** Signs an entry as it is given; refused where something else is stored. */
  caseSign(entry: Case, overrides: OverrideAsked[]): Promise<Entry>;
  /** Adds a text and a new version of its answers to a signed case; `basedOn` is the number of the version that was looked at. */
  caseAddendum(entry: Case, text: string, basedOn: number): Promise<Entry>;
  caseAddenda(id: string): Promise<AddendumLine[]>;
  caseReview(entry: Case): Promise<Finding[]>;
  caseReckonings(entry: Case): Promise<Beside[]>;
  caseDrawings(entry: Case): Promise<Drawn[]>;
  scanRead(entry: Case, scan: string): Promise<Scanned>;
  pictureRead(entry: Case, picture: Uint8Array): Promise<Scanned[]>;
  paperPreview(entry: Case, choice: PaperChoice): Promise<Preview>;
  paperSuggestPath(entry: Case, choice: PaperChoice, format: PaperFormat): Promise<string>;
  paperExport(asked: Export): Promise<Exported>;
  /** The same for those who may print a paper without reading the entry. */
  paperPreviewOf(id: string, choice: PaperChoice): Promise<Preview>;
  paperSuggestPathOf(id: string, choice: PaperChoice, format: PaperFormat): Promise<string>;
  paperExportOf(id: string, choice: PaperChoice, format: PaperFormat, to: string, replace: boolean): Promise<Exported>;
  /** Writes papers of several cases; `onprogress` is told after each case. */
  papersBatch(asked: BatchAsked, onprogress: (done: number, total: number) => void): Promise<BatchReport>;
  papersBatchCancel(): Promise<void>;
  templates(): Promise<TemplateLine[]>;
  templateShow(kind: PaperKind, language: PaperLanguage): Promise<TemplateText>;
  templateTry(entry: Case, kind: PaperKind, language: PaperLanguage, source: string, page: PageSize): Promise<Tried>;
  templateSave(kind: PaperKind, language: PaperLanguage, name: string, source: string): Promise<TemplateText>;
  templateHistory(kind: PaperKind, language: PaperLanguage): Promise<TemplateVersion[]>;
  /** Puts an earlier version in force again, or the built-in one where `version` is null. */
  templateRestore(kind: PaperKind, language: PaperLanguage, version: number | null): Promise<TemplateText>;
  /** What a template may name, each with an example from a case. */
  templateNames(entry: Case, kind: PaperKind): Promise<ViewName[]>;
  paperSettings(): Promise<PaperSettings>;
  paperSettingsSave(settings: PaperSettings): Promise<PaperSettings>;
  limits(): Promise<LimitsShown>;
  limitsSave(limits: Limits): Promise<LimitsShown>;
  /** What this place's scanners send between two parts of a label, besides the group separator. */
  scannerSeparators(): Promise<string[]>;
  scannerSeparatorsSave(separators: string[]): Promise<string[]>;
  /** Answers the window's request to close, after everything typed has been saved. */
  windowClose(): Promise<void>;
}
