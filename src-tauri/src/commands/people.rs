//! People: who can open the notebook, as what, and with which passphrase.

use evengap_desk::{DeskError, PageSize, PersonLine, Role};
use tauri::State;

use crate::desktop::{Desktop, now};

type Answer<T> = Result<T, DeskError>;

/// Lists the people of the open notebook.
#[tauri::command(async)]
pub fn people(desktop: State<'_, Desktop>) -> Answer<Vec<PersonLine>> {
    desktop.desk().people()
}

/// Adds somebody.
#[tauri::command(async)]
pub fn person_add(desktop: State<'_, Desktop>, name: &str, role: Role, keeper: bool, passphrase: &str) -> Answer<()> {
    desktop.desk().person_add(name, role, keeper, passphrase, now()).map(drop)
}

/// Changes what somebody may do.
#[tauri::command(async)]
pub fn person_change(desktop: State<'_, Desktop>, mark: &str, role: Role, keeper: bool) -> Answer<()> {
    desktop.desk().person_change(mark, role, keeper)
}

/// Removes somebody, who can no longer open the notebook.
#[tauri::command(async)]
pub fn person_remove(desktop: State<'_, Desktop>, mark: &str) -> Answer<()> {
    desktop.desk().person_remove(mark, now())
}

/// Changes the own passphrase.
#[tauri::command(async)]
pub fn passphrase_change(desktop: State<'_, Desktop>, old: &str, fresh: &str) -> Answer<()> {
    desktop.desk().passphrase_change(old, fresh, now())
}

/// Sets a passphrase for somebody who forgot it.
#[tauri::command(async)]
pub fn passphrase_set(desktop: State<'_, Desktop>, mark: &str, fresh: &str) -> Answer<()> {
    desktop.desk().passphrase_set(mark, fresh)
}

/// Writes a new recovery sheet; the one before stops working.
#[tauri::command(async)]
pub fn recovery_sheet(desktop: State<'_, Desktop>, to: &str, replace: bool) -> Answer<String> {
    let to = desktop.folders.typed(to);
    desktop.desk().recovery_sheet(&to, replace, PageSize::default(), now())
}
