//! Cases between two notebooks: writing a file for the other one, reading its file, and settling conflicts.

use evengap_desk::{Conflict, ConflictLine, DeskError, ExchangeReport, ExchangeWritten, Keep};
use tauri::State;

use crate::desktop::{Desktop, now};

type Answer<T> = Result<T, DeskError>;

/// Writes cases for another notebook; without identifiers, all of them.
#[tauri::command(async)]
pub fn exchange_write(
    desktop: State<'_, Desktop>,
    to: &str,
    passphrase: &str,
    ids: Option<Vec<String>>,
    replace: bool,
) -> Answer<ExchangeWritten> {
    let to = desktop.folders.typed(to);
    desktop.desk().exchange_write((&to, replace), passphrase, ids.as_deref(), now())
}

/// Reads the cases that another notebook wrote.
#[tauri::command(async)]
pub fn exchange_read(desktop: State<'_, Desktop>, from: &str, passphrase: &str) -> Answer<ExchangeReport> {
    let from = desktop.folders.typed(from);
    desktop.desk().exchange_read(&from, passphrase, now())
}

/// Lists the conflicts that nobody has settled.
#[tauri::command(async)]
pub fn conflicts(desktop: State<'_, Desktop>) -> Answer<Vec<ConflictLine>> {
    desktop.desk().conflicts()
}

/// Shows both versions of a conflict.
#[tauri::command(async)]
pub fn conflict_show(desktop: State<'_, Desktop>, sequence: i64) -> Answer<Conflict> {
    desktop.desk().conflict_show(sequence)
}

/// Settles a conflict.
#[tauri::command(async)]
pub fn conflict_settle(desktop: State<'_, Desktop>, sequence: i64, keep: Keep) -> Answer<()> {
    desktop.desk().conflict_settle(sequence, keep, now())
}
