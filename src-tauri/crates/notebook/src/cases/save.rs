//! Autosave: the draft of a case is replaced in one committed transaction.

use evengap_case::{Case, LocalTime};
use rusqlite::{Transaction, params};

use super::lines::key;
use crate::gate::Changed;
use crate::{Notebook, NotebookError};

/// The number of the interchange format in which bodies are written (`evengap-case/1`).
pub(super) const SCHEMA: i64 = 1;

impl Notebook {
    /// Saves a draft, new or known.
    ///
    /// # Errors
    /// When the case is signed or has no identifier, or the file cannot be written.
    pub fn save(&mut self, case: &Case, now: LocalTime) -> Result<(), NotebookError> {
        if case.id.0.is_nil() {
            return Err(NotebookError::NoIdentifier);
        }
        self.write(|transaction| {
            let signed = transaction.query_row(include_str!("is_signed.sql"), [key(case.id)], |row| row.get(0))?;
            if signed {
                return Err(NotebookError::Signed(case.id));
            }
            upsert(transaction, case, now)?;
            Ok(Changed { result: (), cases: vec![key(case.id)] })
        })
    }
}

/// Writes the draft row; the caller has made sure that the case is not signed.
pub(super) fn upsert(transaction: &Transaction<'_>, case: &Case, now: LocalTime) -> Result<(), NotebookError> {
    let body = case.to_value().to_string();
    transaction.prepare_cached(include_str!("save.sql"))?.execute(params![
        key(case.id),
        now.to_string(),
        SCHEMA,
        body
    ])?;
    Ok(())
}
