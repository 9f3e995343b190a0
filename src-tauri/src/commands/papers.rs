//! Papers: one beside the entry, one into a file.

use evengap_desk::{DeskError, Exported, PageSize, PaperAsked, PaperFormat, PaperKind, PaperSettings, Preview};
use serde_json::Value;
use tauri::State;

use crate::desktop::{Desktop, now};

type Answer<T> = Result<T, DeskError>;

/// What is asked for by somebody at the window: the open notebook says who writes and whether it is a demonstration.
fn asked(case: Value, kind: PaperKind, page: PageSize) -> PaperAsked {
    PaperAsked { case, kind, page, author: None, demonstration: false }
}

/// Sets a paper for the screen.
#[tauri::command(async)]
pub fn paper_preview(desktop: State<'_, Desktop>, case: Value, kind: PaperKind, page: PageSize) -> Answer<Preview> {
    desktop.desk().paper_preview(asked(case, kind, page), now())
}

/// Suggests a file for a paper.
#[tauri::command(async)]
pub fn paper_suggest_path(
    desktop: State<'_, Desktop>,
    case: Value,
    kind: PaperKind,
    format: PaperFormat,
) -> Answer<String> {
    let path = desktop.desk().paper_suggest_path(&desktop.folders.documents, case, kind, format)?;
    Ok(path.to_string_lossy().into_owned())
}

/// Puts a paper into a file.
#[tauri::command(async)]
pub fn paper_export(
    desktop: State<'_, Desktop>,
    case: Value,
    kind: PaperKind,
    page: PageSize,
    format: PaperFormat,
    to: &str,
    replace: bool,
) -> Answer<Exported> {
    let to = desktop.folders.typed(to);
    desktop.desk().paper_export(asked(case, kind, page), format, &to, replace, now())
}

/// Gives the settings of the open notebook's papers.
#[tauri::command(async)]
pub fn paper_settings(desktop: State<'_, Desktop>) -> Answer<PaperSettings> {
    desktop.desk().paper_settings()
}

/// Keeps the settings of the open notebook's papers.
#[tauri::command(async)]
pub fn paper_settings_save(desktop: State<'_, Desktop>, settings: PaperSettings) -> Answer<PaperSettings> {
    desktop.desk().paper_settings_save(settings)
}
