//! Notebooks: which is open, opening, creating, closing.

use evengap_desk::{DeskError, NotebookState};
use tauri::State;

use crate::desktop::{Desktop, now};

type Answer<T> = Result<T, DeskError>;

/// Tells which notebook is open.
#[tauri::command(async)]
pub fn notebook_current(desktop: State<'_, Desktop>) -> Answer<Option<NotebookState>> {
    desktop.desk().notebook_current(now())
}

/// Opens the demonstration, making it first where needed.
#[tauri::command(async)]
pub fn notebook_open_demonstration(desktop: State<'_, Desktop>) -> Answer<NotebookState> {
    desktop.desk().notebook_open_demonstration(&desktop.folders.data, now())
}

/// Makes a new notebook and opens it.
#[tauri::command(async)]
pub fn notebook_create(
    desktop: State<'_, Desktop>,
    path: &str,
    passphrase: &str,
    writer: &str,
) -> Answer<NotebookState> {
    desktop.desk().notebook_create(&desktop.folders.typed(path), passphrase, writer, now())
}

/// Opens a notebook.
#[tauri::command(async)]
pub fn notebook_open(desktop: State<'_, Desktop>, path: &str, passphrase: &str) -> Answer<NotebookState> {
    desktop.desk().notebook_open(&desktop.folders.typed(path), passphrase, now())
}

/// Closes the open notebook.
#[tauri::command(async)]
pub fn notebook_close(desktop: State<'_, Desktop>) -> Answer<Option<NotebookState>> {
    desktop.desk().notebook_close()
}

/// Closes the open notebook until its passphrase is given again, and gives its path.
#[tauri::command(async)]
pub fn notebook_lock(desktop: State<'_, Desktop>) -> Answer<String> {
    desktop.desk().notebook_lock()
}

/// Suggests a file for a new notebook.
#[tauri::command(async)]
pub fn notebook_suggest_path(desktop: State<'_, Desktop>) -> Answer<String> {
    let path = desktop.desk().notebook_suggest_path(&desktop.folders.documents);
    Ok(path.to_string_lossy().into_owned())
}
