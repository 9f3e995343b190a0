//! Reading one entry back.

use evengap_case::{Case, CaseId};
use rusqlite::OptionalExtension;

use super::lines::{State, key};
use crate::{Notebook, NotebookError};

/// An entry as it stands in the notebook.
#[derive(Debug, Clone, PartialEq)]
pub struct Stored {
    /// The entry.
    pub case: Case,
    /// Whether it may still change.
    pub state: State,
    /// When this version was written, `YYYY-MM-DDTHH:MM`.
    pub saved_at: String,
}

impl Notebook {
    /// Shows the newest version of an entry.
    ///
    /// # Errors
    /// When there is no such entry, or it cannot be read.
    pub fn show(&self, id: CaseId) -> Result<Stored, NotebookError> {
        self.read(|connection| {
            let row = connection
                .query_row(include_str!("newest.sql"), [key(id)], |row| {
                    Ok((row.get::<_, String>("body")?, row.get("state")?, row.get("written_at")?))
                })
                .optional()?;
            let (body, state, saved_at) = row.ok_or(NotebookError::UnknownCase(id))?;
            let case = serde_json::from_str(&body)
                .map_err(|source| NotebookError::Unreadable { id: id.to_string(), source })?;
            Ok(Stored { case, state, saved_at })
        })
    }
}
