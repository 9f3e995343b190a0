//! The ledger: what this notebook took in for good, in order, each row chained to the one before.
//!
//! It shows a missing row, because the rows are counted, and a changed one, because each sums up the one before. What it
//! cannot show alone: that its newest end was cut off together with what it stood for, or that everything from some row
//! on was written anew by somebody who has a key. For that its head has to be held against one that was noted elsewhere:
//! in a report of a backup, in a copy, or as the fingerprint on a signed note.
//!
//! `own_hash` is the SHA-256 of these parts (each after its length, as for a node): `evengap ledger 1` · position in
//! decimal digits · what · case identifier · number in decimal digits · hash · the `own_hash` before. The hash of a paper
//! is that of `evengap paper 1` · case identifier · number · paper · language · sheet · template's name · its version ·
//! unfinished and warnings as stored · the author's mark · the author's name · time · SHA-256 of the file.

use rusqlite::{Connection, OptionalExtension, Row, Transaction, params};

use crate::NotebookError;
use crate::history::{StepKind, Sum};

/// What a row of the ledger stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum What {
    Begun,
    Signed,
    Addendum,
    Paper,
}

impl What {
    /// What saving a state of this kind has to be entered as; drafts are not entered.
    pub const fn of(kind: StepKind) -> Option<Self> {
        match kind {
            StepKind::Draft => None,
            StepKind::Signed => Some(Self::Signed),
            StepKind::Addendum => Some(Self::Addendum),
        }
    }

    /// The stored word.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Begun => "begun",
            Self::Signed => "signed",
            Self::Addendum => "addendum",
            Self::Paper => "paper",
        }
    }
}

/// Enters something.
pub(crate) fn append(
    transaction: &Transaction<'_>,
    what: What,
    case_id: &str,
    number: u32,
    hash: &[u8; 32],
) -> Result<(), NotebookError> {
    let before = head(transaction)?;
    let position = before.map_or(1, |(position, _)| position + 1);
    let previous = before.map(|(_, own)| own);
    let own = own_hash(position, what.code(), case_id, number, hash, previous.as_ref());
    transaction.prepare_cached(include_str!("append.sql"))?.execute(params![
        position,
        what.code(),
        case_id,
        number,
        hash,
        previous,
        own
    ])?;
    Ok(())
}

/// Enters a paper that was kept; `sequence` is that of its row.
pub(crate) fn append_paper(transaction: &Transaction<'_>, sequence: i64) -> Result<(), NotebookError> {
    let paper = transaction.prepare_cached(include_str!("paper.sql"))?.query_row([sequence], PaperRow::read)?;
    append(transaction, What::Paper, &paper.case_id, paper.number, &paper.hash)
}

/// Gives the position and the hash of the newest row.
pub(crate) fn head(connection: &Connection) -> Result<Option<(i64, [u8; 32])>, NotebookError> {
    let mut statement = connection.prepare_cached(include_str!("head.sql"))?;
    Ok(statement.query_row([], |row| Ok((row.get(0)?, row.get(1)?))).optional()?)
}

/// Computes the hash of a row.
pub(crate) fn own_hash(
    position: i64,
    what: &str,
    case_id: &str,
    number: u32,
    hash: &[u8; 32],
    previous: Option<&[u8; 32]>,
) -> [u8; 32] {
    Sum::new("evengap ledger 1")
        .part(position.to_string())
        .part(what)
        .part(case_id)
        .part(number.to_string())
        .part(hash)
        .part(previous.map_or(&[][..], |previous| previous))
        .finish()
}

/// A kept paper, as the ledger knows it.
pub(crate) struct PaperRow {
    pub case_id: String,
    pub number: u32,
    pub kind: String,
    /// What the ledger has to say of it.
    pub hash: [u8; 32],
}

impl PaperRow {
    pub fn read(row: &Row<'_>) -> rusqlite::Result<Self> {
        let text = |name: &str| row.get::<_, String>(name);
        let (case_id, number, kind): (String, u32, String) =
            (row.get("case_id")?, row.get("entry_number")?, row.get("kind")?);
        let sum = Sum::new("evengap paper 1")
            .part(&case_id)
            .part(number.to_string())
            .part(&kind)
            .part(text("language")?)
            .part(text("page")?)
            .part(text("template_name")?)
            .part(row.get::<_, i64>("template_version")?.to_string())
            .part(text("unfinished")?)
            .part(text("warnings")?)
            .part(text("mark")?)
            .part(text("name")?)
            .part(text("made_at")?)
            .part(row.get::<_, [u8; 32]>("sha256")?);
        Ok(Self { case_id, number, kind, hash: sum.finish() })
    }
}
