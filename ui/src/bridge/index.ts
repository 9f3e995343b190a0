// The only folder that speaks to Rust. Screens import `#bridge`, tests swap it for a stand-in.
import { Channel, invoke } from "@tauri-apps/api/core";
import type { Desk } from "./desk";
import { framed } from "./framing";

export type * from "./desk";
export { troubleOf, type Place, type Trouble } from "./trouble";

/** Name of the event that the shell raises in the page when somebody asks to close the window. */
export const CLOSING = "evengap-closing";

function counting(onprogress: (done: number, total: number) => void): Channel<{ done: number; total: number }> {
  return new Channel(({ done, total }) => onprogress(done, total));
}

export const desk: Desk = {
  dictionary: () => invoke("dictionary"),
  notebookCurrent: () => invoke("notebook_current"),
  notebookOpenDemonstration: () => invoke("notebook_open_demonstration"),
  notebookCreate: (path, passphrase, writer) => invoke("notebook_create", { path, passphrase, writer }),
  notebookOpen: (path, passphrase) => invoke("notebook_open", { path, passphrase }),
  notebookClose: () => invoke("notebook_close"),
  notebookSuggestPath: () => invoke("notebook_suggest_path"),
  notebookLock: () => invoke("notebook_lock"),
  notebookVerify: () => invoke("notebook_verify"),
  notebookBackUp: (to, replace, onprogress) => invoke("notebook_back_up", { to, replace, progress: counting(onprogress) }),
  backupSettings: () => invoke("backup_settings"),
  backupSettingsSave: (settings) => invoke("backup_settings_save", { settings }),
  notebookRestore: (from, passphrase, to) => invoke("notebook_restore", { from, passphrase, to }),
  lockAfter: () => invoke("lock_after"),
  lockAfterSave: (minutes) => invoke("lock_after_save", { minutes }),
  people: () => invoke("people"),
  personAdd: (name, role, keeper, passphrase) => invoke("person_add", { name, role, keeper, passphrase }),
  personChange: (mark, role, keeper) => invoke("person_change", { mark, role, keeper }),
  personRemove: (mark) => invoke("person_remove", { mark }),
  passphraseChange: (old, fresh) => invoke("passphrase_change", { old, fresh }),
  passphraseSet: (mark, fresh) => invoke("passphrase_set", { mark, fresh }),
  recoverySheet: (to, replace) => invoke("recovery_sheet", { to, replace }),
  caseHistory: (id) => invoke("case_history", { id }),
  exchangeWrite: (to, passphrase, ids, replace) => invoke("exchange_write", { to, passphrase, ids, replace }),
  exchangeRead: (from, passphrase) => invoke("exchange_read", { from, passphrase }),
  conflicts: () => invoke("conflicts"),
  conflictShow: (sequence) => invoke("conflict_show", { sequence }),
  conflictSettle: (sequence, keep) => invoke("conflict_settle", { sequence, keep }),
  casesFind: (text) => invoke("cases_find", { text }),
  casesFindNewest: (text, most) => invoke("cases_find_newest", { text, most }),
  caseNew: () => invoke("case_new"),
  caseShow: (id) => invoke("case_show", { id }),
  caseSave: (entry, basedOn) => invoke("case_save", { case: entry, basedOn }),
  caseSign: (entry, overrides) => invoke("case_sign", { case: entry, overrides }),
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
  paperPreviewOf: (id, choice) => invoke("paper_preview_of", { id, choice }),
  paperSuggestPathOf: (id, choice, format) => invoke("paper_suggest_path_of", { id, choice, format }),
  paperExportOf: (id, choice, format, to, replace) => invoke("paper_export_of", { id, choice, format, to, replace }),
  papersBatch: (asked, onprogress) => invoke("papers_batch", { asked, progress: counting(onprogress) }),
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
