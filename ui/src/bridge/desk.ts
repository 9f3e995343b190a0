// What the window asks of the program: one function per act of the desk, nothing else.
import type { Case } from "../types/Case";
import type { CaseLine } from "../types/CaseLine";
import type { Entry } from "../types/Entry";
import type { Field } from "../types/Field";
import type { Finding } from "../types/Finding";
import type { NotebookState } from "../types/NotebookState";
import type { PageSize } from "../types/PageSize";
import type { PaperFormat } from "../types/PaperFormat";
import type { PaperKind } from "../types/PaperKind";
import type { PaperSettings } from "../types/PaperSettings";
import type { Preview } from "../types/Preview";

export type { PageSize, PaperFormat, PaperKind };

export type Export = {
  case: Case;
  kind: PaperKind;
  format: PaperFormat;
  page: PageSize;
  to: string;
  replace: boolean;
};

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
  paperPreview(entry: Case, kind: PaperKind, page: PageSize): Promise<Preview>;
  paperSuggestPath(entry: Case, kind: PaperKind, format: PaperFormat): Promise<string>;
  paperExport(asked: Export): Promise<{ path: string }>;
  paperSettings(): Promise<PaperSettings>;
  paperSettingsSave(settings: PaperSettings): Promise<PaperSettings>;
  /** Answers the window's request to close, after everything typed has been saved. */
  windowClose(): Promise<void>;
}
