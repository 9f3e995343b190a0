//! Kept papers of an exchange file: kept here as well, or aside, where their version is not in force or another paper is
//! in their place.

use evengap_case::LocalTime;
use rusqlite::{Transaction, params};
use sha2::{Digest, Sha256};

use super::error::refused;
use super::file::ExchangeFile;
use super::incoming::Incoming;
use super::people::People;
use crate::history::{Node, StepKind};
use crate::{NotebookError, ledger};

struct PaperRow {
    sequence: i64,
    node: Node,
    words: [String; 4],
    template_version: u32,
    unfinished: String,
    warnings: String,
    mark: String,
    made_at: String,
    sha256: [u8; 32],
}

/// Takes the papers of a case and counts those that were not here.
pub(super) fn take(
    transaction: &Transaction<'_>,
    file: &ExchangeFile<'_>,
    people: &mut People,
    incoming: &Incoming,
) -> Result<u32, NotebookError> {
    let id = &incoming.case_id;
    let wrong = |what: &str| refused(file.path, format!("the case {id} {what}"));
    let rows = file.rows(include_str!("read_papers.sql"), [id], |row| {
        Ok(PaperRow {
            sequence: row.get("sequence")?,
            node: row.get("node")?,
            words: [row.get("kind")?, row.get("language")?, row.get("page")?, row.get("template_name")?],
            template_version: row.get("template_version")?,
            unfinished: row.get("unfinished")?,
            warnings: row.get("warnings")?,
            mark: row.get("mark")?,
            made_at: row.get("made_at")?,
            sha256: row.get("sha256")?,
        })
    })?;
    let mut taken = 0;
    for paper in rows {
        let of = incoming.steps.iter().find(|step| step.node == paper.node);
        if of.is_none_or(|step| step.kind == StepKind::Draft) {
            return Err(wrong("has a paper of a version that is not signed"));
        }
        let sentences = |text: &str| serde_json::from_str::<Vec<String>>(text).is_ok();
        if paper.made_at.parse::<LocalTime>().is_err() || !sentences(&paper.unfinished) || !sentences(&paper.warnings) {
            return Err(wrong("has a paper that does not say when and how it was made"));
        }
        let bytes = file.rows("SELECT bytes FROM paper WHERE sequence = ?1", [paper.sequence], |row| {
            row.get::<_, Vec<u8>>("bytes")
        })?;
        let bytes = bytes.into_iter().next().unwrap_or_default();
        if <[u8; 32]>::from(Sha256::digest(&bytes)) != paper.sha256 {
            return Err(wrong("has a paper that is not as it was made"));
        }
        let author = people.person(transaction, file, &paper.mark)?.id;
        let [kind, language, page, template] = &paper.words;
        taken += transaction.prepare_cached(include_str!("put_paper.sql"))?.execute(params![
            id,
            paper.node,
            kind,
            language,
            page,
            template,
            paper.template_version,
            paper.unfinished,
            paper.warnings,
            author,
            paper.made_at,
            paper.sha256,
            bytes,
        ])?;
    }
    Ok(u32::try_from(taken).unwrap_or(u32::MAX))
}

/// Keeps the papers whose version is in force now and in whose place no other one is.
pub(super) fn keep(transaction: &Transaction<'_>, case_id: &str) -> Result<(), NotebookError> {
    let sql = "SELECT sequence FROM aside_paper WHERE case_id = ?1 ORDER BY made_at, sha256";
    let mut statement = transaction.prepare_cached(sql)?;
    let waiting: Vec<i64> = statement.query_map([case_id], |row| row.get(0))?.collect::<Result<_, _>>()?;
    for sequence in waiting {
        if transaction.prepare_cached(include_str!("keep_paper.sql"))?.execute([sequence])? > 0 {
            ledger::append_paper(transaction, transaction.last_insert_rowid())?;
            transaction.execute("DELETE FROM aside_paper WHERE sequence = ?1", [sequence])?;
        }
    }
    Ok(())
}
