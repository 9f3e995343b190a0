//! Numbered migrations. A new notebook walks all of them, an older one those that are missing.

use rusqlite::{Connection, Transaction};

use crate::NotebookError;

const MIGRATIONS: &[&str] = &[
    include_str!("../../migrations/0001_entries.sql"),
    include_str!("../../migrations/0002_projections.sql"),
    include_str!("../../migrations/0003_signed_papers.sql"),
];

/// The notebook version that this program writes.
pub(super) const NEWEST: i64 = MIGRATIONS.len() as i64;

/// Reads the version of an open notebook.
pub(super) fn version(connection: &Connection) -> rusqlite::Result<i64> {
    connection.pragma_query_value(None, "user_version", |row| row.get(0))
}

/// Runs every pending migration inside the given transaction; tells whether there were any.
pub(super) fn run(transaction: &Transaction<'_>) -> Result<bool, NotebookError> {
    let version = version(transaction)?;
    let done = usize::try_from(version).unwrap_or(0);
    for migration in MIGRATIONS.iter().skip(done) {
        transaction.execute_batch(migration)?;
    }
    if version < NEWEST {
        transaction.pragma_update(None, "user_version", NEWEST)?;
    }
    Ok(version < NEWEST)
}
