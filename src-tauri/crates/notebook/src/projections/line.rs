//! The line of a case in the list.

use evengap_case::Case;
use rusqlite::{Transaction, params};

use crate::NotebookError;

/// Writes the line and gives its row number, which never changes while the case exists.
pub(super) fn write(
    transaction: &Transaction<'_>,
    case_id: &str,
    case: &Case,
    state: &str,
    saved_at: &str,
) -> Result<i64, NotebookError> {
    let patient = &case.patient;
    let date = |date: Option<evengap_case::Date>| date.map(|date| date.to_string()).unwrap_or_default();
    let row = transaction.prepare_cached(include_str!("line.sql"))?.query_row(
        params![
            case_id,
            name(patient.family_name.as_deref(), patient.given_name.as_deref()),
            patient.hospital_number.as_deref().unwrap_or_default().trim(),
            date(patient.birth_date),
            date(case.setting.operation_date),
            case.knee.side.map_or("", |side| side.words()),
            case.choice.procedure.map_or("", |procedure| procedure.words()),
            state,
            saved_at,
        ],
        |row| row.get(0),
    )?;
    Ok(row)
}

/// Family name, given name; whichever there is.
fn name(family: Option<&str>, given: Option<&str>) -> String {
    let known: Vec<_> = [family, given].into_iter().flatten().map(str::trim).filter(|part| !part.is_empty()).collect();
    known.join(", ")
}
