//! Cases: finding, beginning, showing, saving, reviewing.

use evengap_desk::{CaseLine, DeskError, Entry, Finding, Saved};
use serde_json::Value;
use tauri::State;

use crate::desktop::{Desktop, new_id, now};

type Answer<T> = Result<T, DeskError>;

/// Finds cases by name, number, date, component or any text.
#[tauri::command(async)]
pub fn cases_find(desktop: State<'_, Desktop>, text: &str) -> Answer<Vec<CaseLine>> {
    desktop.desk().cases_find(text)
}

/// Begins an entry.
#[tauri::command(async)]
pub fn case_new(desktop: State<'_, Desktop>) -> Answer<Entry> {
    desktop.desk().case_new(new_id(), now())
}

/// Shows an entry.
#[tauri::command(async)]
pub fn case_show(desktop: State<'_, Desktop>, id: &str) -> Answer<Entry> {
    desktop.desk().case_show(id)
}

/// Saves a draft.
#[tauri::command(async)]
pub fn case_save(desktop: State<'_, Desktop>, case: Value) -> Answer<Saved> {
    desktop.desk().case_save(case, now())
}

/// Reviews an entry as it stands on the screen.
#[tauri::command(async)]
pub fn case_review(desktop: State<'_, Desktop>, case: Value) -> Answer<Vec<Finding>> {
    desktop.desk().case_review(case)
}
