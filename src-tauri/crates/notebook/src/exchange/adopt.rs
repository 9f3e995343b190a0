//! Making a version that came the one that stands here: the draft is replaced, signed versions and addenda are added.

use rusqlite::{Transaction, params};
use serde_json::Value;

use super::ancestry::Ancestry;
use crate::history::{Head, Node, StepKind, StepRow, Walker, head, rows};
use crate::ledger::{self, What};
use crate::{Keep, NotebookError};

/// The number of the interchange format in which bodies are written (`evengap-case/1`).
const SCHEMA: i64 = 1;

/// Somebody who settles, and when.
#[derive(Debug, Clone, Copy)]
pub(super) struct By<'a> {
    pub person: i64,
    pub at: &'a str,
}

/// Makes the family of a case's stored states.
pub(super) fn family(transaction: &Transaction<'_>, case_id: &str) -> Result<Ancestry<Node>, NotebookError> {
    let rows = rows(transaction, case_id)?;
    Ok(Ancestry::of(rows.iter().map(|row| (row.node, [row.parent, row.other_parent]))))
}

/// Makes a stored state the one that stands. The caller has made sure that it may: it follows from what stands, or
/// what stands is a draft that somebody gave up for it.
pub(super) fn adopt(
    transaction: &Transaction<'_>,
    case_id: &str,
    node: Node,
    body: &str,
    by: By<'_>,
) -> Result<(), NotebookError> {
    let stood = head(transaction, case_id)?;
    let rows = rows(transaction, case_id)?;
    let versions = versions(case_id, &rows, node, body)?;
    if stood.is_none() {
        let (row, body) = versions.first().ok_or_else(|| broken(case_id))?;
        let author = author(transaction, row)?;
        let given = params![case_id, author, row.written_at, SCHEMA, body, row.node];
        transaction.prepare_cached(include_str!("../cases/begin.sql"))?.execute(given)?;
        ledger::append(transaction, What::Begun, case_id, 1, &first(&rows, node).0)?;
    }
    let signed_here = stood.as_ref().filter(|stood| stood.kind != StepKind::Draft).map_or(0, |stood| stood.number);
    for (row, body) in versions.iter().filter(|(row, _)| row.number > signed_here) {
        let author = author(transaction, row)?;
        if row.kind == StepKind::Addendum {
            let text = &row.addendum_text;
            let given = params![case_id, row.number, author, row.written_at, SCHEMA, body, text, row.node, row.parent];
            transaction.prepare_cached(include_str!("../cases/add_addendum.sql"))?.execute(given)?;
        } else {
            let given = params![case_id, row.kind, author, row.written_at, SCHEMA, body, row.node, row.parent];
            transaction.prepare_cached(include_str!("../cases/replace.sql"))?.execute(given)?;
        }
        if let Some(what) = What::of(row.kind) {
            ledger::append(transaction, what, case_id, row.number, &row.node.0)?;
        }
    }
    let family = family(transaction, case_id)?;
    if let Some(Head { node: before, body, .. }) = stood
        && family.is_end(before)
    {
        put_aside(transaction, case_id, before, &body.to_string(), by.at, Some((by, Keep::Ours.code())))?;
    }
    settle_covered(transaction, case_id, &family, node, by)
}

/// The versions that a state brings: itself where it is a draft; else what was signed and every addendum up to it.
fn versions<'a>(
    case_id: &str,
    rows: &'a [StepRow],
    node: Node,
    body: &str,
) -> Result<Vec<(&'a StepRow, String)>, NotebookError> {
    let body: Value = serde_json::from_str(body).map_err(|_| broken(case_id))?;
    let mut found = Vec::new();
    let mut see = |row: &StepRow, body: &Value, _: Option<&Value>| {
        if row.kind != StepKind::Draft || row.node == node {
            found.push((row.node, body.to_string()));
        }
    };
    Walker::new(case_id, rows).back_from(node, body, &mut see).map_err(|_| broken(case_id))?;
    let row = |node: Node| rows.iter().find(|row| row.node == node);
    let found = found.into_iter().rev().filter_map(|(node, body)| row(node).map(|row| (row, body)));
    Ok(found.collect())
}

/// The first state from which patches lead to this one.
fn first(rows: &[StepRow], node: Node) -> Node {
    let parent = |node: Node| rows.iter().find(|row| row.node == node).and_then(|row| row.parent);
    std::iter::successors(Some(node), |node| parent(*node)).last().unwrap_or(node)
}

fn author(transaction: &Transaction<'_>, row: &StepRow) -> Result<i64, NotebookError> {
    let sql = "SELECT author FROM step WHERE node = ?1";
    Ok(transaction.prepare_cached(sql)?.query_row([row.node], |row| row.get(0))?)
}

/// Stores a state whole, unless it is: as an open conflict, or settled.
pub(super) fn put_aside(
    transaction: &Transaction<'_>,
    case_id: &str,
    node: Node,
    body: &str,
    received_at: &str,
    settled: Option<(By<'_>, &str)>,
) -> Result<(), NotebookError> {
    let (at, by, kept) =
        (settled.map(|(by, _)| by.at), settled.map(|(by, _)| by.person), settled.map(|(_, kept)| kept));
    transaction.prepare_cached(include_str!("put_aside.sql"))?.execute(params![
        case_id,
        node,
        body,
        received_at,
        at,
        by,
        kept
    ])?;
    Ok(())
}

/// Settles the open conflicts whose other version now lies behind the one that stands.
fn settle_covered(
    transaction: &Transaction<'_>,
    case_id: &str,
    family: &Ancestry<Node>,
    node: Node,
    by: By<'_>,
) -> Result<(), NotebookError> {
    let behind = family.behind(node);
    let newest = head(transaction, case_id)?.ok_or_else(|| broken(case_id))?;
    for aside in asides(transaction, case_id)?.iter().filter(|aside| aside.open && behind.contains(&aside.node)) {
        let body: Value = serde_json::from_str(&aside.body).map_err(|_| broken(case_id))?;
        let kept = if crate::history::same(&body, &newest.body) { Keep::Theirs } else { Keep::Ours };
        settle(transaction, aside.sequence, kept, by)?;
    }
    Ok(())
}

/// Marks a conflict as settled.
pub(super) fn settle(
    transaction: &Transaction<'_>,
    sequence: i64,
    kept: Keep,
    by: By<'_>,
) -> Result<(), NotebookError> {
    let given = params![sequence, by.at, by.person, kept.code()];
    transaction.prepare_cached(include_str!("settle.sql"))?.execute(given)?;
    Ok(())
}

/// A version that lies aside.
pub(super) struct Aside {
    pub sequence: i64,
    pub node: Node,
    pub body: String,
    pub open: bool,
}

/// Reads every version of a case that lies aside.
pub(super) fn asides(transaction: &Transaction<'_>, case_id: &str) -> Result<Vec<Aside>, NotebookError> {
    let sql = "SELECT sequence, node, body, settled_at IS NULL AS open FROM aside WHERE case_id = ?1 ORDER BY sequence";
    let mut statement = transaction.prepare_cached(sql)?;
    let rows = statement.query_map([case_id], |row| {
        Ok(Aside {
            sequence: row.get("sequence")?,
            node: row.get("node")?,
            body: row.get("body")?,
            open: row.get("open")?,
        })
    })?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// Says that what is stored here does not fit together.
pub(super) fn broken(case_id: &str) -> NotebookError {
    NotebookError::HistoryBroken(case_id.parse().unwrap_or_default())
}
