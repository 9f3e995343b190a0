//! Papers of signed entries, kept as they were first made. What is in the bytes is not asked here.

use evengap_case::{CaseId, LocalTime};
use rusqlite::types::{FromSql, FromSqlError, FromSqlResult, ValueRef};
use rusqlite::{Connection, OptionalExtension, Transaction, params};
use sha2::{Digest, Sha256};

use crate::cases::lines::key;
use crate::gate::Changed;
use crate::{Notebook, NotebookError, Person, State, ledger};

/// Which kept paper: one version of one entry, on one sheet, in one language.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PaperKey<'a> {
    /// The entry.
    pub id: CaseId,
    /// The version of the entry.
    pub number: u32,
    /// The paper.
    pub kind: &'a str,
    /// Its language.
    pub language: &'a str,
    /// Its sheet.
    pub page: &'a str,
}

/// A paper that is to be kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewPaper {
    /// The paper.
    pub kind: String,
    /// Its language.
    pub language: String,
    /// Its sheet.
    pub page: String,
    /// The template that it was made with.
    pub template_name: String,
    /// The version of that template.
    pub template_version: u32,
    /// Why it could not be finished; empty where it could.
    pub unfinished: Vec<String>,
    /// What it does not show as it was typed.
    pub warnings: Vec<String>,
    /// The file.
    pub bytes: Vec<u8>,
}

/// A paper that was kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KeptPaper {
    /// The template that it was made with.
    pub template_name: String,
    /// The version of that template.
    pub template_version: u32,
    /// Why it could not be finished; empty where it could.
    pub unfinished: Vec<String>,
    /// What it does not show as it was typed.
    pub warnings: Vec<String>,
    /// Who made it.
    pub by: String,
    /// When it was made, `YYYY-MM-DDTHH:MM`.
    pub made_at: String,
    /// SHA-256 of the file.
    pub sha256: [u8; 32],
    /// The file, byte for byte as it was made.
    pub bytes: Vec<u8>,
}

impl Notebook {
    /// Gives a kept paper, if it was ever made.
    ///
    /// # Errors
    /// When the file cannot be read, or the paper is not as it was made.
    pub fn kept_paper(&self, paper: PaperKey<'_>) -> Result<Option<KeptPaper>, NotebookError> {
        self.read(|connection| kept(connection, paper))
    }

    /// Keeps a paper of a version of an entry and gives what is kept: the first one that was ever made.
    ///
    /// # Errors
    /// When there is no such version, it is a draft, or the file cannot be written.
    pub fn keep_paper(
        &mut self,
        id: CaseId,
        number: u32,
        paper: &NewPaper,
        now: LocalTime,
    ) -> Result<KeptPaper, NotebookError> {
        if self.entry_at(id, number)?.state == State::Draft {
            return Err(NotebookError::DraftPaper(id));
        }
        let by = self.person.clone();
        self.write(|transaction| {
            keep(transaction, id, number, paper, &by, now)?;
            let of = PaperKey { id, number, kind: &paper.kind, language: &paper.language, page: &paper.page };
            let kept = kept(transaction, of)?.ok_or(NotebookError::UnknownVersion { id, number })?;
            Ok(Changed { result: kept, cases: Vec::new() })
        })
    }
}

/// Keeps a paper and enters it in the ledger, unless one is kept already.
pub(crate) fn keep(
    transaction: &Transaction<'_>,
    id: CaseId,
    number: u32,
    paper: &NewPaper,
    by: &Person,
    now: LocalTime,
) -> Result<(), NotebookError> {
    let kept = transaction.prepare_cached(include_str!("keep.sql"))?.execute(params![
        key(id),
        number,
        paper.kind,
        paper.language,
        paper.page,
        paper.template_name,
        paper.template_version,
        serde_json::json!(paper.unfinished).to_string(),
        serde_json::json!(paper.warnings).to_string(),
        now.to_string(),
        sum(&paper.bytes),
        paper.bytes,
        by.id,
    ])?;
    if kept > 0 {
        ledger::append_paper(transaction, transaction.last_insert_rowid())?;
    }
    Ok(())
}

fn kept(connection: &Connection, of: PaperKey<'_>) -> Result<Option<KeptPaper>, NotebookError> {
    let mut statement = connection.prepare_cached(include_str!("kept.sql"))?;
    let found = statement
        .query_row(params![key(of.id), of.number, of.kind, of.language, of.page], |row| {
            let (Sentences(unfinished), Sentences(warnings)) = (row.get("unfinished")?, row.get("warnings")?);
            Ok(KeptPaper {
                template_name: row.get("template_name")?,
                template_version: row.get("template_version")?,
                unfinished,
                warnings,
                by: row.get("author")?,
                made_at: row.get("made_at")?,
                sha256: row.get("sha256")?,
                bytes: row.get("bytes")?,
            })
        })
        .optional()?;
    match found {
        Some(paper) if paper.sha256 != sum(&paper.bytes) => {
            Err(NotebookError::PaperChanged { id: of.id, kind: of.kind.to_owned() })
        }
        found => Ok(found),
    }
}

fn sum(bytes: &[u8]) -> [u8; 32] {
    Sha256::digest(bytes).into()
}

/// A list of sentences, stored as JSON.
struct Sentences(Vec<String>);

impl FromSql for Sentences {
    fn column_result(value: ValueRef<'_>) -> FromSqlResult<Self> {
        serde_json::from_str(value.as_str()?).map(Self).map_err(|error| FromSqlError::Other(Box::new(error)))
    }
}
