//! Numbered migrations. A new notebook walks all of them, an older one those that are missing.

use rusqlite::{Connection, Transaction};

use crate::{NotebookError, history};

const MIGRATIONS: &[&str] = &[
    include_str!("../../migrations/0001_entries.sql"),
    include_str!("../../migrations/0002_projections.sql"),
    include_str!("../../migrations/0003_signed_papers.sql"),
    include_str!("../../migrations/0004_people_and_history.sql"),
];

/// The migration since which every saved state is kept, counted from 0; SQL alone does not fill what it adds.
const HISTORY: usize = 3;

/// The notebook version that this program writes.
pub(super) const NEWEST: i64 = MIGRATIONS.len() as i64;

/// Reads the version of an open notebook.
pub(super) fn version(connection: &Connection) -> rusqlite::Result<i64> {
    connection.pragma_query_value(None, "user_version", |row| row.get(0))
}

/// Runs every pending migration inside the given transaction; tells whether there were any.
pub(crate) fn run(transaction: &Transaction<'_>) -> Result<bool, NotebookError> {
    let version = version(transaction)?;
    let done = usize::try_from(version).unwrap_or(0);
    for (at, migration) in MIGRATIONS.iter().enumerate().skip(done) {
        transaction.execute_batch(migration)?;
        if at == HISTORY {
            history::fill(transaction)?;
        }
    }
    if version < NEWEST {
        transaction.pragma_update(None, "user_version", NEWEST)?;
    }
    Ok(version < NEWEST)
}
