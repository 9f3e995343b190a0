//! The one gate for writes: a transaction that says which cases it changed.
//!
//! Invariant: no other place begins a transaction, and projections of a changed case are made anew
//! in the same transaction, so lists and search never disagree with the entries.

use rusqlite::{Connection, Transaction, TransactionBehavior};

use crate::{NotebookError, projections};

/// What a write hands back through the gate.
pub(crate) struct Changed<T> {
    /// The result for the caller.
    pub result: T,
    /// `entry.case_id` of every case whose entries changed.
    pub cases: Vec<String>,
}

/// Runs one write: everything in it is committed, or nothing is.
pub(crate) fn write<T>(
    connection: &mut Connection,
    act: impl FnOnce(&Transaction<'_>) -> Result<Changed<T>, NotebookError>,
) -> Result<T, NotebookError> {
    // Immediate: a second program waits at the door instead of failing half-way.
    let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
    let changed = act(&transaction)?;
    projections::project_all(&transaction, &changed.cases)?;
    transaction.commit()?;
    Ok(changed.result)
}
