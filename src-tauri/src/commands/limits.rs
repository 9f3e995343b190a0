//! The limits that reckonings are held against.

use evengap_desk::{DeskError, Limits};
use serde_json::{Value, json};
use tauri::State;

use crate::desktop::Desktop;

type Answer<T> = Result<T, DeskError>;

/// Gives the limits of the open notebook beside the shipped ones, with what each of them limits.
#[tauri::command(async)]
pub fn limits(desktop: State<'_, Desktop>) -> Answer<Value> {
    Ok(shown(&desktop.desk().limits()?))
}

/// Keeps the limits of the open notebook.
#[tauri::command(async)]
pub fn limits_save(desktop: State<'_, Desktop>, limits: Value) -> Answer<Value> {
    Ok(shown(&desktop.desk().limits_save(&limits)?))
}

/// The shape is also in `ui/src/bridge/desk.ts`.
fn shown(limits: &Limits) -> Value {
    json!({ "limits": limits, "shipped": Limits::default(), "rows": limits.table() })
}
