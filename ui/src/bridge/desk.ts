// What the window asks of the program: one function per act of the desk, nothing else.
import type { AddendumLine } from "../types/AddendumLine";
import type { BatchAsked } from "../types/BatchAsked";
import type { BatchReport } from "../types/BatchReport";
import type { Beside } from "../types/Beside";
import type { Case } from "../types/Case";
import type { CaseLine } from "../types/CaseLine";
import type { Drawn } from "../types/Drawn";
import type { Entry } from "../types/Entry";
import type { Exported } from "../types/Exported";
import type { Field } from "../types/Field";
import type { Finding } from "../types/Finding";
import type { LimitRow } from "../types/LimitRow";
import type { Limits } from "../types/Limits";
import type { NotebookState } from "../types/NotebookState";
import type { PageSize } from "../types/PageSize";
import type { PaperFormat } from "../types/PaperFormat";
import type { PaperKind } from "../types/PaperKind";
import type { PaperLanguage } from "../types/PaperLanguage";
import type { PaperSettings } from "../types/PaperSettings";
import type { Preview } from "../types/Preview";
import type { Scanned } from "../types/Scanned";
import type { TemplateLine } from "../types/TemplateLine";
import type { TemplateText } from "../types/TemplateText";
import type { TemplateVersion } from "../types/TemplateVersion";
import type { Tried } from "../types/Tried";
import type { ViewName } from "../types/ViewName";

export type { PageSize, PaperFormat, PaperKind, PaperLanguage };

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
  casesFind(text: string): Promise<CaseLine[]>;
  caseNew(): Promise<Entry>;
  caseShow(id: string): Promise<Entry>;
  caseSave(entry: Case): Promise<{ saved_at: string }>;
  /** Signs an entry as it is given; refused where something else is stored. */
  caseSign(entry: Case): Promise<Entry>;
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
