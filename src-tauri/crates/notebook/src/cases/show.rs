//! Reading one entry back: its newest version, or one by its number.

use evengap_case::{Case, CaseId};
use rusqlite::{Connection, OptionalExtension, Row};
use serde::Serialize;
use ts_rs::TS;

use super::lines::{State, key};
use crate::history::Node;
use crate::{Notebook, NotebookError};

/// Who signed, and when.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct Signature {
    /// The person.
    pub by: String,
    /// `YYYY-MM-DDTHH:MM`.
    pub at: String,
}

/// A version of an entry as it stands in the notebook.
#[derive(Debug, Clone, PartialEq)]
pub struct Stored {
    /// The entry.
    pub case: Case,
    /// Whether it may still change.
    pub state: State,
    /// The name of this state.
    pub node: Node,
    /// 1 for the draft and for the signed entry that it becomes; 2 for the first addendum.
    pub number: u32,
    /// Who wrote this version.
    pub by: String,
    /// When this version was written, `YYYY-MM-DDTHH:MM`.
    pub saved_at: String,
    /// What the addendum says, where this version is one.
    pub addendum_text: Option<String>,
    /// Who signed the entry; the addenda have authors of their own.
    pub signed: Option<Signature>,
}

impl Notebook {
    /// Shows the newest version of an entry.
    ///
    /// # Errors
    /// When there is no such entry, or it cannot be read.
    pub fn show(&self, id: CaseId) -> Result<Stored, NotebookError> {
        self.read(|connection| version(connection, id, None)?.ok_or(NotebookError::UnknownCase(id)))
    }

    /// Shows one version of an entry.
    ///
    /// # Errors
    /// When there is no such entry or version, or it cannot be read.
    pub fn entry_at(&self, id: CaseId, number: u32) -> Result<Stored, NotebookError> {
        self.read(|connection| {
            version(connection, id, Some(number))?.ok_or(NotebookError::UnknownVersion { id, number })
        })
    }
}

/// Reads a version, the newest where no number is given.
pub(super) fn version(
    connection: &Connection,
    id: CaseId,
    number: Option<u32>,
) -> Result<Option<Stored>, NotebookError> {
    let mut statement = connection.prepare_cached(include_str!("version.sql"))?;
    let found = statement.query_row((key(id), number), row).optional()?;
    let read = |(body, stored): (String, Stored)| {
        let case =
            serde_json::from_str(&body).map_err(|source| NotebookError::Unreadable { id: id.to_string(), source })?;
        Ok(Stored { case, ..stored })
    };
    found.map(read).transpose()
}

fn row(row: &Row<'_>) -> rusqlite::Result<(String, Stored)> {
    let signature: (Option<String>, Option<String>) = (row.get("signed_by")?, row.get("signed_at")?);
    let stored = Stored {
        case: Case::default(),
        state: row.get("state")?,
        node: row.get("own_hash")?,
        number: row.get("number")?,
        by: row.get("author")?,
        saved_at: row.get("written_at")?,
        addendum_text: row.get("addendum_text")?,
        signed: signature.0.zip(signature.1).map(|(by, at)| Signature { by, at }),
    };
    Ok((row.get("body")?, stored))
}
