//! Declares the commands that the page may call, and sees to it that there is a page.

use std::fs;
use std::io;
use std::path::Path;

/// Every command; `capabilities/window.json` allows them one by one.
const COMMANDS: &[&str] = &[
    "dictionary",
    "notebook_current",
    "notebook_open_demonstration",
    "notebook_create",
    "notebook_open",
    "notebook_close",
    "notebook_suggest_path",
    "notebook_lock",
    "notebook_verify",
    "notebook_back_up",
    "backup_settings",
    "backup_settings_save",
    "notebook_restore",
    "lock_after",
    "lock_after_save",
    "people",
    "person_add",
    "person_change",
    "person_remove",
    "passphrase_change",
    "passphrase_set",
    "recovery_sheet",
    "exchange_write",
    "exchange_read",
    "conflicts",
    "conflict_show",
    "conflict_settle",
    "cases_find",
    "cases_find_newest",
    "case_new",
    "case_show",
    "case_save",
    "case_sign",
    "case_addendum",
    "case_addenda",
    "case_history",
    "case_review",
    "case_reckonings",
    "case_drawings",
    "scan_read",
    "picture_read",
    "paper_preview",
    "paper_suggest_path",
    "paper_export",
    "paper_preview_of",
    "paper_suggest_path_of",
    "paper_export_of",
    "papers_batch",
    "papers_batch_cancel",
    "templates",
    "template_show",
    "template_try",
    "template_save",
    "template_history",
    "template_restore",
    "template_names",
    "paper_settings",
    "paper_settings_save",
    "limits",
    "limits_save",
    "scanner_separators",
    "scanner_separators_save",
    "window_close",
];

/// Stands in on a fresh clone, where the page has not been built but the program must compile.
const NO_PAGE: &str = "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Evengap</title>\
<p>The page of this window has not been built. Run <code>npm ci &amp;&amp; npm run build</code> in <code>ui</code>, \
then build the window again.</p></html>\n";

fn main() -> Result<(), Box<dyn std::error::Error>> {
    provide_page(Path::new("../ui/dist"))?;
    println!("cargo:rerun-if-changed=../ui/dist");
    let manifest = tauri_build::AppManifest::new().commands(COMMANDS);
    tauri_build::try_build(tauri_build::Attributes::new().app_manifest(manifest))?;
    Ok(())
}

fn provide_page(dist: &Path) -> io::Result<()> {
    let page = dist.join("index.html");
    if page.exists() {
        return Ok(());
    }
    fs::create_dir_all(dist)?;
    fs::write(page, NO_PAGE)
}
