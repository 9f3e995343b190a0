//! The line of a case in the list.

use chrono::Datelike;
use evengap_case::{Case, Date};
use rusqlite::{Transaction, params};

use crate::NotebookError;

/// Bits of a place that are for the row: sixteen million cases.
const ROW_BITS: u32 = 24;

/// A line as it is kept.
pub(super) struct Kept {
    /// Its row number, which never changes while the case exists.
    pub row: i64,
    /// Where it stood until now, if it was there.
    pub place: Option<i64>,
    /// The sum of what search knows of it, if it was there.
    pub text_sum: Option<Vec<u8>>,
}

/// Writes the line.
pub(super) fn write(
    transaction: &Transaction<'_>,
    case_id: &str,
    case: &Case,
    state: &str,
    saved_at: &str,
) -> Result<Kept, NotebookError> {
    let patient = &case.patient;
    let date = |date: Option<Date>| date.map(|date| date.to_string()).unwrap_or_default();
    let kept = transaction.prepare_cached(include_str!("line.sql"))?.query_row(
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
        |row| Ok(Kept { row: row.get(0)?, place: row.get(1)?, text_sum: row.get(2)? }),
    )?;
    Ok(kept)
}

/// Where a case stands in the list, newest last: by the day of its operation, or of its last save, then by its row.
pub(super) fn place(row: i64, case: &Case, saved_at: &str) -> i64 {
    let saved = || saved_at.get(..10).and_then(|day| day.parse().ok());
    let day = case.setting.operation_date.or_else(saved).map_or(0, |Date(day)| day.num_days_from_ce());
    (i64::from(day) << ROW_BITS) + row
}

/// Family name, given name; whichever there is.
fn name(family: Option<&str>, given: Option<&str>) -> String {
    let known: Vec<_> = [family, given].into_iter().flatten().map(str::trim).filter(|part| !part.is_empty()).collect();
    known.join(", ")
}
