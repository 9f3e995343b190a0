// The only folder that speaks to Rust. Screens import `#bridge`, tests swap it for a stand-in.
import { invoke } from "@tauri-apps/api/core";
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
  caseReview: (entry) => invoke("case_review", { case: entry }),
  caseReckonings: (entry) => invoke("case_reckonings", { case: entry }),
  caseDrawings: (entry) => invoke("case_drawings", { case: entry }),
  scanRead: (entry, scan) => invoke("scan_read", { case: entry, scan }),
  pictureRead: (entry, picture) => invoke("picture_read", framed(entry, picture)),
  paperPreview: (entry, kind, page) => invoke("paper_preview", { case: entry, kind, page }),
  paperSuggestPath: (entry, kind, format) => invoke("paper_suggest_path", { case: entry, kind, format }),
  paperExport: (asked) => invoke("paper_export", asked),
  paperSettings: () => invoke("paper_settings"),
  paperSettingsSave: (settings) => invoke("paper_settings_save", { settings }),
  limits: () => invoke("limits"),
  limitsSave: (limits) => invoke("limits_save", { limits }),
  scannerSeparators: () => invoke("scanner_separators"),
  scannerSeparatorsSave: (separators) => invoke("scanner_separators_save", { separators }),
  windowClose: () => invoke("window_close"),
};
