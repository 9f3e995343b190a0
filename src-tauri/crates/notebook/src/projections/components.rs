//! The components of a case, one row each.

use evengap_case::Case;
use rusqlite::{Transaction, params};

use crate::NotebookError;

/// Replaces the component rows of a case.
pub(super) fn write(transaction: &Transaction<'_>, case_row: i64, case: &Case) -> Result<(), NotebookError> {
    transaction.prepare_cached(include_str!("components_clear.sql"))?.execute([case_row])?;
    let mut insert = transaction.prepare_cached(include_str!("components.sql"))?;
    for (position, component) in case.components.iter().enumerate() {
        let text = |text: &Option<String>| text.as_deref().unwrap_or_default().trim().to_owned();
        insert.execute(params![
            case_row,
            i64::try_from(position).unwrap_or(i64::MAX),
            component.role.map_or("", |role| role.code()),
            text(&component.maker),
            text(&component.name),
            text(&component.reference),
            text(&component.lot),
            text(&component.serial),
            text(&component.scan.device_identifier),
            component.fate.map_or("", |fate| fate.code()),
        ])?;
    }
    Ok(())
}
