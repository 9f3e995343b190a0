//! The fields of an entry.

use evengap_desk::{DeskError, Field};
use tauri::State;

use crate::desktop::Desktop;

/// Gives every field that an entry can hold.
#[tauri::command]
pub fn dictionary(desktop: State<'_, Desktop>) -> Result<&'static [Field], DeskError> {
    Ok(desktop.desk().dictionary())
}
