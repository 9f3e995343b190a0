//! Autosave: the draft of a case is replaced in one committed transaction, and the state before it stays in the history.

use evengap_case::{Case, LocalTime};
use rusqlite::{Transaction, params};
use serde_json::Value;

use super::lines::key;
use crate::gate::Changed;
use crate::history::{Head, NewStep, Node, StepKind, check_depth, head, same};
use crate::ledger::{self, What};
use crate::{Notebook, NotebookError, Person};

/// The number of the interchange format in which bodies are written (`evengap-case/1`).
pub(crate) const SCHEMA: i64 = 1;

impl Notebook {
    /// Saves a draft, new or known. `based_on` is the state that the writer began from; none for a new entry. Gives
    /// the state that is stored now: where nothing differs from what is stored, that is the one there already.
    ///
    /// # Errors
    /// When somebody saved another state meanwhile, the case is signed, has no identifier or is nested too deep, or the
    /// file cannot be written.
    pub fn save(&mut self, case: &Case, based_on: Option<Node>, now: LocalTime) -> Result<Node, NotebookError> {
        if case.id.0.is_nil() {
            return Err(NotebookError::NoIdentifier);
        }
        let by = self.person.clone();
        self.write(|transaction| {
            let (id, body) = (key(case.id), case.to_value());
            check_depth(case.id, &body)?;
            let node = match head(transaction, &id)? {
                None if based_on.is_some() => return Err(NotebookError::UnknownCase(case.id)),
                None => begin(transaction, &id, &body, &by, now)?,
                Some(head) if head.kind != StepKind::Draft => return Err(NotebookError::Signed(case.id)),
                Some(head) if same(&head.body, &body) => {
                    return Ok(Changed { result: head.node, cases: Vec::new() });
                }
                Some(head) if Some(head.node) != based_on => return Err(NotebookError::ChangedMeanwhile(case.id)),
                Some(head) => {
                    replace(transaction, &id, &head, Replacement { kind: StepKind::Draft, body: &body }, &by, now)?
                }
            };
            Ok(Changed { result: node, cases: vec![id] })
        })
    }
}

/// Writes the first draft of an entry; the caller has made sure that there is none.
pub(super) fn begin(
    transaction: &Transaction<'_>,
    id: &str,
    body: &Value,
    by: &Person,
    now: LocalTime,
) -> Result<Node, NotebookError> {
    let at = now.to_string();
    let step = NewStep {
        case_id: id,
        kind: StepKind::Draft,
        number: 1,
        by,
        written_at: &at,
        body,
        addendum_text: None,
        before: None,
        other_parent: None,
    };
    let node = step.write(transaction)?;
    transaction.prepare_cached(include_str!("begin.sql"))?.execute(params![
        id,
        by.id,
        at,
        SCHEMA,
        body.to_string(),
        node
    ])?;
    ledger::append(transaction, What::Begun, id, 1, &node.0)?;
    Ok(node)
}

/// What a draft becomes.
pub(super) struct Replacement<'a> {
    pub kind: StepKind,
    pub body: &'a Value,
}

/// Replaces the draft, which is `head`.
pub(super) fn replace(
    transaction: &Transaction<'_>,
    id: &str,
    head: &Head,
    new: Replacement<'_>,
    by: &Person,
    now: LocalTime,
) -> Result<Node, NotebookError> {
    let at = now.to_string();
    let node = successor(id, head, new.kind, new.body, by, &at).write(transaction)?;
    transaction.prepare_cached(include_str!("replace.sql"))?.execute(params![
        id,
        new.kind,
        by.id,
        at,
        SCHEMA,
        new.body.to_string(),
        node,
        head.node
    ])?;
    Ok(node)
}

/// The state that follows a draft.
pub(super) fn successor<'a>(
    id: &'a str,
    head: &'a Head,
    kind: StepKind,
    body: &'a Value,
    by: &'a Person,
    written_at: &'a str,
) -> NewStep<'a> {
    let before = Some((head.node, &head.body));
    NewStep {
        case_id: id,
        kind,
        number: head.number,
        by,
        written_at,
        body,
        addendum_text: None,
        before,
        other_parent: None,
    }
}
