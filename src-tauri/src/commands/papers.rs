//! Papers: one beside the entry, one into a file, many at once.

use evengap_desk::{
    AddendumAsked, Batch, BatchAsked, BatchProgress, BatchReport, BatchTo, Desk, DeskError, Exported, PageSize,
    PaperAsked, PaperChoice, PaperFormat, PaperKind, PaperLanguage, PaperSettings, Preview,
};
use serde_json::Value;
use tauri::ipc::Channel;
use tauri::{AppHandle, Manager, State};

use crate::desktop::{Desktop, now};

type Answer<T> = Result<T, DeskError>;

/// What is asked for by somebody at the window: the open notebook says who writes and whether it is a demonstration.
fn asked(
    case: Value,
    kind: PaperKind,
    language: Option<PaperLanguage>,
    page: PageSize,
    addendum: Option<u32>,
) -> PaperAsked {
    let (language, addendum) = (language.unwrap_or_default(), addendum.map(AddendumAsked::Stored));
    PaperAsked { language, page, addendum, ..PaperAsked::new(case, kind) }
}

/// Sets a paper for the screen.
#[tauri::command(async)]
pub fn paper_preview(
    desktop: State<'_, Desktop>,
    case: Value,
    kind: PaperKind,
    language: Option<PaperLanguage>,
    page: PageSize,
    addendum: Option<u32>,
) -> Answer<Preview> {
    desktop.desk().paper_preview(asked(case, kind, language, page, addendum), now())
}

/// Suggests a file for a paper.
#[tauri::command(async)]
pub fn paper_suggest_path(
    desktop: State<'_, Desktop>,
    case: Value,
    kind: PaperKind,
    language: Option<PaperLanguage>,
    page: PageSize,
    addendum: Option<u32>,
    format: PaperFormat,
) -> Answer<String> {
    let asked = asked(case, kind, language, page, addendum);
    let path = desktop.desk().paper_suggest_path(&desktop.folders.documents, &asked, format)?;
    Ok(path.to_string_lossy().into_owned())
}

/// Puts a paper into a file.
#[tauri::command(async)]
#[expect(clippy::too_many_arguments, reason = "the page names each of them")]
pub fn paper_export(
    desktop: State<'_, Desktop>,
    case: Value,
    kind: PaperKind,
    language: Option<PaperLanguage>,
    page: PageSize,
    addendum: Option<u32>,
    format: PaperFormat,
    to: &str,
    replace: bool,
) -> Answer<Exported> {
    let to = desktop.folders.typed(to);
    desktop.desk().paper_export(asked(case, kind, language, page, addendum), format, &to, replace, now())
}

/// Sets a paper of a stored entry, for somebody who does not read entries.
#[tauri::command(async)]
pub fn paper_preview_of(desktop: State<'_, Desktop>, id: &str, choice: PaperChoice) -> Answer<Preview> {
    desktop.desk().paper_preview_of(id, choice, now())
}

/// Suggests a file for a paper of a stored entry.
#[tauri::command(async)]
pub fn paper_suggest_path_of(
    desktop: State<'_, Desktop>,
    id: &str,
    choice: PaperChoice,
    format: PaperFormat,
) -> Answer<String> {
    let path = desktop.desk().paper_suggest_path_of(&desktop.folders.documents, id, choice, format)?;
    Ok(path.to_string_lossy().into_owned())
}

/// Puts a paper of a stored entry into a file.
#[tauri::command(async)]
pub fn paper_export_of(
    desktop: State<'_, Desktop>,
    id: &str,
    choice: PaperChoice,
    format: PaperFormat,
    to: &str,
    replace: bool,
) -> Answer<Exported> {
    let to = desktop.folders.typed(to);
    desktop.desk().paper_export_of(id, choice, format, (&to, replace), now())
}

/// Writes papers of many cases. The desk is free between two of them, so that saving never waits for the whole.
#[tauri::command]
pub async fn papers_batch(app: AppHandle, asked: BatchAsked, progress: Channel<BatchProgress>) -> Answer<BatchReport> {
    let run = move || {
        let desktop = app.state::<Desktop>();
        let to = typed(&desktop, asked.to);
        let mut batch = Batch::begin(&desktop.desk(), BatchAsked { to, ..asked }, now())?;
        let stop = desktop.batches.begin();
        // A page that has gone away hears nothing and cancels nothing.
        let tell = |progress_made| progress.send(progress_made).is_ok();
        tell(batch.progress());
        while !stop.is_asked() && batch.step(&mut desktop.desk()) {
            tell(batch.progress());
        }
        // At a desk of its own: one PDF of a thousand letters takes seconds, and saving must not wait for it.
        batch.finish(&Desk::new())
    };
    let done = tauri::async_runtime::spawn_blocking(run).await;
    // The error would repeat what a panic says, and that may hold an answer.
    done.unwrap_or_else(|_| {
        Err(DeskError::failed("Evengap made a mistake of its own and did not write all the papers."))
    })
}

/// Stops every batch that is under way after the case that it is at.
#[tauri::command]
pub fn papers_batch_cancel(desktop: State<'_, Desktop>) -> Answer<()> {
    desktop.batches.stop();
    Ok(())
}

/// Reads the folder or file of a batch as a person types it.
fn typed(desktop: &Desktop, to: BatchTo) -> BatchTo {
    let typed = |path: String| desktop.folders.typed(&path).to_string_lossy().into_owned();
    match to {
        BatchTo::Folder(folder) => BatchTo::Folder(typed(folder)),
        BatchTo::File(file) => BatchTo::File(typed(file)),
    }
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
