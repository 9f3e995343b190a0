//! The open conflicts: a list, and one of them with both versions.

use evengap_case::{Case, CaseId, changes};
use rusqlite::{Connection, OptionalExtension, Row};

use super::error::ExchangeError;
use super::types::{Conflict, ConflictLine, Keep, Side};
use crate::history::Node;
use crate::{Notebook, NotebookError};

impl Notebook {
    /// Lists the open conflicts, the oldest first.
    ///
    /// # Errors
    /// When the file cannot be read.
    pub fn conflicts(&self) -> Result<Vec<ConflictLine>, NotebookError> {
        self.read(|connection| {
            let mut statement = connection.prepare_cached(include_str!("conflicts.sql"))?;
            let lines = statement.query_map([], |row| {
                Ok(ConflictLine {
                    sequence: row.get("sequence")?,
                    id: row.get::<_, String>("case_id")?.parse().unwrap_or_default(),
                    name: row.get("name")?,
                    by: row.get("by")?,
                    at: row.get("written_at")?,
                    received_at: row.get("received_at")?,
                })
            })?;
            Ok(lines.collect::<Result<_, _>>()?)
        })
    }

    /// Counts the open conflicts.
    ///
    /// # Errors
    /// When the file cannot be read.
    pub fn open_conflicts(&self) -> Result<u32, NotebookError> {
        let sql = "SELECT count(*) FROM aside WHERE settled_at IS NULL";
        self.read(|connection| Ok(connection.query_row(sql, [], |row| row.get(0))?))
    }

    /// Gives an open conflict with both versions and what differs.
    ///
    /// # Errors
    /// When there is no such conflict, it is settled, or the file cannot be read.
    pub fn conflict(&self, sequence: i64) -> Result<Conflict, NotebookError> {
        self.read(|connection| conflict(connection, sequence))
    }
}

/// Reads an open conflict.
pub(super) fn conflict(connection: &Connection, sequence: i64) -> Result<Conflict, NotebookError> {
    let sql = "SELECT case_id, node, body FROM aside WHERE sequence = ?1 AND settled_at IS NULL";
    let found: Option<(String, Node, String)> = connection
        .query_row(sql, [sequence], |row| Ok((row.get("case_id")?, row.get("node")?, row.get("body")?)))
        .optional()?;
    let (case_id, node, their_body) = found.ok_or(ExchangeError::NoConflict(sequence))?;
    let (our_node, our_body): (Node, String) = connection
        .prepare_cached(include_str!("../history/head.sql"))?
        .query_row([&case_id], |row| Ok((row.get("own_hash")?, row.get("body")?)))?;
    let side = |node: Node, body: &str| side(connection, &case_id, node, body);
    let (ours, theirs) = (side(our_node, &our_body)?, side(node, &their_body)?);
    let changes = changes(&ours.case, &theirs.case);
    let choices = Keep::choices(ours.kind, theirs.kind);
    Ok(Conflict { sequence, ours, theirs, changes, choices })
}

fn side(connection: &Connection, case_id: &str, node: Node, body: &str) -> Result<Side, NotebookError> {
    let case: Case =
        serde_json::from_str(body).map_err(|source| NotebookError::Unreadable { id: case_id.to_owned(), source })?;
    let read = |row: &Row<'_>| {
        Ok(Side {
            node,
            kind: row.get("kind")?,
            number: row.get("number")?,
            by: row.get("name")?,
            at: row.get("written_at")?,
            text: row.get("addendum_text")?,
            case: Case::default(),
        })
    };
    let found = connection.prepare_cached(include_str!("side.sql"))?.query_row([node], read).optional()?;
    let missing = || NotebookError::HistoryBroken(case_id.parse::<CaseId>().unwrap_or_default());
    Ok(Side { case, ..found.ok_or_else(missing)? })
}
