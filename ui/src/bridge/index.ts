// The only folder that speaks to Rust. Screens import `#bridge`, tests swap it for a stand-in.
import { Channel, invoke } from "@tauri-apps/api/core";
import type { Desk } from "./desk";
import { framed } from "./framing";

export type * from "./desk";
export { troubleOf, type Place, type Trouble } from "./trouble";

/** Name of the event that the shell raises in the page when somebody asks to close the window. */
export const CLOSING = "evengap-closing";

export const desk: Desk = {
  dictionary: () => invoke("dictionary"),
  notebookCurrent: () => invoke("notebook_current"),
  notebookOpenDemonstration: () => invoke("notebook_open_demonstration"),
  notebookCreate: (path, passphrase, writer) => invoke("notebook_create", { path, passphrase, writer }),
  notebookOpen: (path, passphrase) => invoke("notebook_open", { path, passphrase }),
  notebookClose: () => invoke("notebook_close"),
  notebookSuggestPath: () => invoke("notebook_suggest_path"),
  casesFind: (text) => invoke("cases_find", { text }),
  caseNew: () => invoke("case_new"),
  caseShow: (id) => invoke("case_show", { id }),
  caseSave: (entry) => invoke("case_save", { case: entry }),
  caseSign: (entry) => invoke("case_sign", { case: entry }),
  caseAddendum: (entry, text, basedOn) => invoke("case_addendum", { case: entry, text, basedOn }),
  caseAddenda: (id) => invoke("case_addenda", { id }),
  caseReview: (entry) => invoke("case_review", { case: entry }),
  caseReckonings: (entry) => invoke("case_reckonings", { case: entry }),
  caseDrawings: (entry) => invoke("case_drawings", { case: entry }),
  scanRead: (entry, scan) => invoke("scan_read", { case: entry, scan }),
  pictureRead: (entry, picture) => invoke("picture_read", framed(entry, picture)),
  paperPreview: (entry, choice) => invoke("paper_preview", { case: entry, ...choice }),
  paperSuggestPath: (entry, choice, format) => invoke("paper_suggest_path", { case: entry, ...choice, format }),
  paperExport: (asked) => invoke("paper_export", asked),
  papersBatch: (asked, onprogress) => {
    const progress = new Channel<{ done: number; total: number }>(({ done, total }) => onprogress(done, total));
    return invoke("papers_batch", { asked, progress });
  },
  papersBatchCancel: () => invoke("papers_batch_cancel"),
  templates: () => invoke("templates"),
  templateShow: (kind, language) => invoke("template_show", { kind, language }),
  templateTry: (entry, kind, language, source, page) => invoke("template_try", { case: entry, kind, language, source, page }),
  templateSave: (kind, language, name, source) => invoke("template_save", { kind, language, name, source }),
  templateHistory: (kind, language) => invoke("template_history", { kind, language }),
  templateRestore: (kind, language, version) => invoke("template_restore", { kind, language, version }),
  templateNames: (entry, kind) => invoke("template_names", { case: entry, kind }),
  paperSettings: () => invoke("paper_settings"),
  paperSettingsSave: (settings) => invoke("paper_settings_save", { settings }),
  limits: () => invoke("limits"),
  limitsSave: (limits) => invoke("limits_save", { limits }),
  scannerSeparators: () => invoke("scanner_separators"),
  scannerSeparatorsSave: (separators) => invoke("scanner_separators_save", { separators }),
  windowClose: () => invoke("window_close"),
};
