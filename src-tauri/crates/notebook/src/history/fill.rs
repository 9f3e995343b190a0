//! The part of migration 4 that SQL alone cannot do: marks for the people, states for the entries that are there.
//!
//! Of an older notebook's entry only the last draft, the signed version and the addenda are known; each of them
//! becomes one state. The ledger begins with them in the order in which they were written.

use rusqlite::{OptionalExtension, Transaction, params};
use serde_json::Value;
use uuid::Uuid;

use super::node::{Node, StepKind};
use super::step::NewStep;
use crate::ledger::{self, What};
use crate::{NotebookError, Person, Role};

/// Fills what the migration added.
pub(crate) fn fill(transaction: &Transaction<'_>) -> Result<(), NotebookError> {
    let people = mark_people(transaction)?;
    // The sums of signed entries are filled in once, before anybody could rely on them.
    transaction.execute_batch("DROP TRIGGER entry_signed_stays;")?;
    fill_entries(transaction, &people)?;
    transaction.execute_batch(include_str!("entry_signed_stays.sql"))?;
    let papers: Vec<i64> = transaction
        .prepare("SELECT sequence FROM kept_paper ORDER BY sequence")?
        .query_map([], |row| row.get(0))?
        .collect::<Result<_, _>>()?;
    for sequence in papers {
        ledger::append_paper(transaction, sequence)?;
    }
    Ok(())
}

fn mark_people(transaction: &Transaction<'_>) -> Result<Vec<Person>, NotebookError> {
    let rows: Vec<(i64, String)> = transaction
        .prepare("SELECT id, name FROM person ORDER BY id")?
        .query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?
        .collect::<Result<_, _>>()?;
    let mut people = Vec::with_capacity(rows.len());
    for (id, name) in rows {
        let mark = Uuid::new_v4();
        transaction.execute("UPDATE person SET mark = ?2 WHERE id = ?1", params![id, mark.to_string()])?;
        people.push(Person { id, mark, name, role: Role::Surgeon, keeper: id == 1 });
    }
    Ok(people)
}

/// A version as an older program wrote it.
struct Old {
    case_id: String,
    number: u32,
    kind: StepKind,
    author: i64,
    written_at: String,
    body: String,
    addendum_text: Option<String>,
}

fn fill_entries(transaction: &Transaction<'_>, people: &[Person]) -> Result<(), NotebookError> {
    let sequences: Vec<i64> = transaction
        .prepare("SELECT sequence FROM entry ORDER BY sequence")?
        .query_map([], |row| row.get(0))?
        .collect::<Result<_, _>>()?;
    for sequence in sequences {
        fill_entry(transaction, people, sequence)?;
    }
    Ok(())
}

fn fill_entry(transaction: &Transaction<'_>, people: &[Person], sequence: i64) -> Result<(), NotebookError> {
    let old = transaction.prepare_cached(include_str!("old.sql"))?.query_row([sequence], |row| {
        Ok(Old {
            case_id: row.get("case_id")?,
            number: row.get("number")?,
            kind: row.get("kind")?,
            author: row.get("author")?,
            written_at: row.get("written_at")?,
            body: row.get("body")?,
            addendum_text: row.get("addendum_text")?,
        })
    })?;
    let read = |body: &str| {
        serde_json::from_str::<Value>(body)
            .map_err(|source| NotebookError::Unreadable { id: old.case_id.clone(), source })
    };
    let before: Option<(Node, String)> = transaction
        .prepare_cached(include_str!("old_before.sql"))?
        .query_row(params![old.case_id, old.number], |row| Ok((row.get("own_hash")?, row.get("body")?)))
        .optional()?;
    let before = before.map(|(node, body)| Ok::<_, NotebookError>((node, read(&body)?))).transpose()?;
    let parent = before.as_ref().map(|(node, _)| *node);
    let by = people.iter().find(|person| person.id == old.author).ok_or(rusqlite::Error::QueryReturnedNoRows)?;
    let step = NewStep {
        case_id: &old.case_id,
        kind: old.kind,
        number: old.number,
        by,
        written_at: &old.written_at,
        body: &read(&old.body)?,
        addendum_text: old.addendum_text.as_deref(),
        before: before.as_ref().map(|(node, body)| (*node, body)),
        other_parent: None,
    };
    let node = step.write(transaction)?;
    transaction.prepare_cached(include_str!("old_sums.sql"))?.execute(params![sequence, node, parent])?;
    if parent.is_none() {
        ledger::append(transaction, What::Begun, &old.case_id, old.number, &node.0)?;
    }
    match What::of(old.kind) {
        Some(what) => ledger::append(transaction, what, &old.case_id, old.number, &node.0),
        None => Ok(()),
    }
}
