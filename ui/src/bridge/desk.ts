// What the window asks of the program: one function per act of the desk, nothing else.
import type { Beside } from "../types/Beside";
import type { Case } from "../types/Case";
import type { CaseLine } from "../types/CaseLine";
import type { Drawn } from "../types/Drawn";
import type { Entry } from "../types/Entry";
import type { Field } from "../types/Field";
import type { Finding } from "../types/Finding";
import type { LimitRow } from "../types/LimitRow";
import type { Limits } from "../types/Limits";
import type { NotebookState } from "../types/NotebookState";
import type { PageSize } from "../types/PageSize";
import type { PaperFormat } from "../types/PaperFormat";
import type { PaperKind } from "../types/PaperKind";
import type { PaperSettings } from "../types/PaperSettings";
import type { Preview } from "../types/Preview";
import type { Scanned } from "../types/Scanned";

export type { PageSize, PaperFormat, PaperKind };

export type Export = {
  case: Case;
  kind: PaperKind;
  format: PaperFormat;
  page: PageSize;
  to: string;
  replace: boolean;
};

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
  caseReview(entry: Case): Promise<Finding[]>;
  caseReckonings(entry: Case): Promise<Beside[]>;
  caseDrawings(entry: Case): Promise<Drawn[]>;
  scanRead(entry: Case, scan: string): Promise<Scanned>;
  pictureRead(entry: Case, picture: Uint8Array): Promise<Scanned[]>;
  paperPreview(entry: Case, kind: PaperKind, page: PageSize): Promise<Preview>;
  paperSuggestPath(entry: Case, kind: PaperKind, format: PaperFormat): Promise<string>;
  paperExport(asked: Export): Promise<{ path: string }>;
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
