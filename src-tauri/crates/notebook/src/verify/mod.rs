//! The proof that a notebook is what was written: pages, ledger, entries, every saved state, papers and lists.
//!
//! Everything is computed anew; the first broken link of each chain is named, since what comes after it follows from it.
//! No sentence holds anything of an entry but its identifier and who wrote it, so that whoever keeps the notebook may read them all.
//!
//! What cannot be noticed: see the ledger; a change of a draft's newest state that was made together with its node,
//! because of drafts only the beginning stands in the ledger; another spelling of the same answers (the order of keys, `5`
//! for `5.0`); changes of own templates and settings, which are not chained; and the
//! loss of a paper that lies aside, since the ledger has what is kept here.

mod cases;
mod ledger;
mod papers;
mod projections;

use std::path::Path;

use rusqlite::{Connection, ErrorCode};
use serde::Serialize;
use ts_rs::TS;

use crate::file::check_pages;
use crate::{Notebook, NotebookError};

/// What was looked at, and everything that is not as it was written.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, TS)]
pub struct VerifyReport {
    /// Pages of the file, each with a seal of its own.
    pub pages: u32,
    /// Entries, drafts and signed ones.
    pub entries: u32,
    /// Signed versions.
    pub signed: u32,
    /// Addenda.
    pub addenda: u32,
    /// Saved states, of every branch.
    pub steps: u32,
    /// Kept papers.
    pub papers: u32,
    /// Rows of the ledger.
    pub ledger_rows: u32,
    /// The hash of the ledger's newest row in hexadecimal digits; none for a notebook in which nothing was written.
    /// Whoever notes it can tell later that nothing was cut off or written anew.
    pub ledger_head: Option<String>,
    /// One sentence each, the first broken link first; none where all is as it was written.
    pub problems: Vec<String>,
}

impl Notebook {
    /// Looks at everything in the notebook. It reads the whole file, so it takes a while for a large one.
    ///
    /// # Errors
    /// When the file can no longer be reached; what is damaged in it is told in the report.
    pub fn verify(&self) -> Result<VerifyReport, NotebookError> {
        self.read(verify)
    }
}

/// Looks at everything behind a connection.
pub(crate) fn verify(connection: &Connection) -> Result<VerifyReport, NotebookError> {
    let mut report = VerifyReport::default();
    match look(connection, &mut report) {
        Err(NotebookError::Database(error)) if is_damage(&error) => {
            report.problems.push(format!("Some of the file cannot be read: {error}."));
        }
        looked => looked?,
    }
    Ok(report)
}

fn look(connection: &Connection, report: &mut VerifyReport) -> Result<(), NotebookError> {
    // One moment is looked at: whoever wants to write meanwhile waits.
    let moment = connection.unchecked_transaction()?;
    moment.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get::<_, i64>(0))?;
    pages(&moment, report)?;
    integrity(&moment, report)?;
    let ledger = ledger::look(&moment, report)?;
    cases::look(&moment, &ledger, report)?;
    papers::look(&moment, &ledger, report)?;
    projections::look(&moment, report)?;
    references(&moment, report)
}

fn pages(connection: &Connection, report: &mut VerifyReport) -> Result<(), NotebookError> {
    report.pages = connection.pragma_query_value(None, "page_count", |row| row.get(0))?;
    match check_pages(connection, Path::new("")) {
        // A torn page in which nothing stands is no loss.
        Ok(_) => {}
        Err(NotebookError::Damaged { what, .. }) => report.problems.push(format!("The file is damaged: {what}.")),
        Err(error) => return Err(error),
    }
    Ok(())
}

fn integrity(connection: &Connection, report: &mut VerifyReport) -> Result<(), NotebookError> {
    let integrity = said(connection, "integrity_check")?;
    if integrity != ["ok"] {
        let first = integrity.first().map(String::as_str).unwrap_or_default();
        report.problems.push(format!("The tables of the file do not fit together: {first}."));
    }
    Ok(())
}

/// Asked last, because what was said before says it in plainer words.
fn references(connection: &Connection, report: &mut VerifyReport) -> Result<(), NotebookError> {
    let mut statement = connection.prepare("PRAGMA foreign_key_check")?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        let (table, to): (String, String) = (row.get(0)?, row.get(2)?);
        report.problems.push(format!("A row of the table {table} refers to a row of {to} that is missing."));
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

/// Errors that come from what is in the file, and not from the way to it.
fn is_damage(error: &rusqlite::Error) -> bool {
    match error {
        rusqlite::Error::SqliteFailure(failure, _) => {
            matches!(failure.code, ErrorCode::DatabaseCorrupt | ErrorCode::NotADatabase)
        }
        rusqlite::Error::FromSqlConversionFailure(..)
        | rusqlite::Error::IntegralValueOutOfRange(..)
        | rusqlite::Error::InvalidColumnType(..) => true,
        _ => false,
    }
}
