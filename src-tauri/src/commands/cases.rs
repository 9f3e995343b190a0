//! Cases: finding, beginning, showing, saving, signing, reviewing, and what stands beside the answers.

use evengap_desk::{
    AddendumLine, Beside, CaseLine, CasesFound, DeskError, Drawn, Entry, Finding, HistoryStep, OverrideAsked, Saved,
};
use serde_json::Value;
use tauri::State;

use crate::desktop::{Desktop, new_id, now};

type Answer<T> = Result<T, DeskError>;

/// Finds cases by name, number, date, component or any text.
#[tauri::command(async)]
pub fn cases_find(desktop: State<'_, Desktop>, text: &str) -> Answer<Vec<CaseLine>> {
    desktop.desk().cases_find(text)
}

/// The same, but only so many, the newest first, and whether there are more.
#[tauri::command(async)]
pub fn cases_find_newest(desktop: State<'_, Desktop>, text: &str, most: u32) -> Answer<CasesFound> {
    desktop.desk().cases_find_newest(text, most)
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
pub fn case_save(desktop: State<'_, Desktop>, case: Value, based_on: Option<&str>) -> Answer<Saved> {
    desktop.desk().case_save(case, based_on, now())
}

/// Signs an entry as it stands on the screen.
#[tauri::command(async)]
pub fn case_sign(desktop: State<'_, Desktop>, case: Value, overrides: Vec<OverrideAsked>) -> Answer<Entry> {
    desktop.desk().case_sign(case, &overrides, now())
}

/// Adds to a signed entry.
#[tauri::command(async)]
pub fn case_addendum(desktop: State<'_, Desktop>, case: Value, text: &str, based_on: u32) -> Answer<Entry> {
    desktop.desk().case_addendum(case, text, based_on, now())
}

/// Lists what was added to a signed entry.
#[tauri::command(async)]
pub fn case_addenda(desktop: State<'_, Desktop>, id: &str) -> Answer<Vec<AddendumLine>> {
    desktop.desk().case_addenda(id)
}

/// Tells who changed what in a case, and when.
#[tauri::command(async)]
pub fn case_history(desktop: State<'_, Desktop>, id: &str) -> Answer<Vec<HistoryStep>> {
    desktop.desk().case_history(id)
}

/// Reviews an entry as it stands on the screen.
#[tauri::command(async)]
pub fn case_review(desktop: State<'_, Desktop>, case: Value) -> Answer<Vec<Finding>> {
    desktop.desk().case_review(case)
}

/// Gives the reckonings that follow from an entry as it stands on the screen.
#[tauri::command(async)]
pub fn case_reckonings(desktop: State<'_, Desktop>, case: Value) -> Answer<Vec<Beside>> {
    desktop.desk().case_reckonings(case)
}

/// Gives the drawings of an entry as it stands on the screen.
#[tauri::command(async)]
pub fn case_drawings(desktop: State<'_, Desktop>, case: Value) -> Answer<Vec<Drawn>> {
    desktop.desk().case_drawings(case)
}
