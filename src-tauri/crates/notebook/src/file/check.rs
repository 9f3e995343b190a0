//! Whether a file is as it was written: the seals of its pages, and how they fit together.

use std::collections::HashSet;
use std::path::Path;

use rusqlite::Connection;

use crate::NotebookError;

/// Checks the seal of every page, so that damage is noticed now and not in the middle of a list. Tells whether pages are
/// torn in which nothing stands: SQLite keeps no copy of a free page that it fills, so a power cut may leave half of one.
pub(crate) fn check_pages(connection: &Connection, path: &Path) -> Result<bool, NotebookError> {
    let broken = said(connection, "cipher_integrity_check")?;
    if broken.is_empty() {
        return Ok(false);
    }
    let in_use = pages_in_use(connection).unwrap_or_default();
    let number = |words: &String| words.rsplit(' ').next().and_then(|number| number.parse::<i64>().ok());
    let is_free = |words: &String| number(words).is_some_and(|page| !in_use.is_empty() && !in_use.contains(&page));
    match broken.iter().filter(|words| !is_free(words)).count() {
        0 => Ok(true),
        1 => Err(NotebookError::Damaged { path: path.to_owned(), what: "one page is not as it was written".into() }),
        pages => Err(NotebookError::Damaged {
            path: path.to_owned(),
            what: format!("{pages} pages are not as they were written"),
        }),
    }
}

/// Writes every free page anew, so that a copy of the whole file can be made again.
pub(crate) fn mend_free_pages(connection: &Connection) -> rusqlite::Result<()> {
    let transaction = connection.unchecked_transaction()?;
    transaction.execute_batch(include_str!("mend_free_pages.sql"))?;
    transaction.commit()?;
    connection.execute_batch("DROP TABLE filling_of_free_pages")
}

/// Walks through every table and index; fails where a page in use cannot be read.
fn pages_in_use(connection: &Connection) -> rusqlite::Result<HashSet<i64>> {
    connection.prepare("SELECT pageno FROM dbstat")?.query_map([], |row| row.get(0))?.collect()
}

/// Checks a file that was just made: its seals, its tables and what they refer to.
pub(crate) fn check_whole(connection: &Connection, path: &Path) -> Result<(), NotebookError> {
    check_pages(connection, path)?;
    let damaged = |what: &str| NotebookError::Damaged { path: path.to_owned(), what: what.into() };
    if said(connection, "integrity_check")? != ["ok"] {
        return Err(damaged("its tables do not fit together"));
    }
    let mut statement = connection.prepare("PRAGMA foreign_key_check")?;
    if statement.exists([])? {
        return Err(damaged("a row in it belongs to nothing"));
    }
    Ok(())
}

fn said(connection: &Connection, pragma: &str) -> rusqlite::Result<Vec<String>> {
    let mut said = Vec::new();
    connection.pragma_query(None, pragma, |row| {
        said.push(row.get(0)?);
        Ok(())
    })?;
    Ok(said)
}
