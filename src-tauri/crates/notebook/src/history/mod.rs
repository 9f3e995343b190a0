//! The history of an entry: every state in which it was ever saved, and what led from one to the next.
//!
//! **Node.** A state is named by a SHA-256. It is taken over these parts, each as its length in bytes (eight bytes, the
//! highest first) and then the bytes, in UTF-8 where it is text; what is absent is an empty part:
//! `evengap step 1` · the parent's node (32 bytes) · the other parent's node (32 bytes; where a conflict was settled) ·
//! the case identifier (UUID, lower case, with hyphens) · `draft`, `signed` or `addendum` · the version's number in
//! decimal digits · the author's mark (UUID) · the author's name · the time (`YYYY-MM-DDTHH:MM`) · the entry in its
//! canonical text · the addendum's text. The canonical text is RFC 8785, but that integers beyond ±2^53 keep their digits.
//!
//! **Way back.** The newest state of a branch is stored whole. Every other one is rebuilt from the one after it by a
//! JSON Patch (RFC 6902), so that a save writes little however long the history is.

mod canonical;
mod depth;
mod fill;
mod node;
mod step;
mod walk;

use evengap_case::{Case, CaseId, Change, changes_of_values};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use ts_rs::TS;

use crate::cases::lines::key;
use crate::{Notebook, NotebookError};

pub(crate) use depth::{DEEPEST, check_depth, depth};
pub(crate) use fill::fill;
pub(crate) use node::Sum;
pub use node::{NoNode, Node, StepKind};
pub(crate) use step::{Head, NewStep, head, same};
pub(crate) use walk::{Broken, StepRow, Walker, asides, rows};

/// On which branch a state lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, TS)]
#[serde(rename_all = "snake_case")]
pub enum Branch {
    /// The entry as it stands here follows from it.
    Ours,
    /// It came from another notebook and was not taken over.
    Theirs,
}

/// A saved state, and what it changed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HistoryStep {
    /// The state's name.
    pub node: Node,
    /// The state that it follows; none for the first one.
    pub parent: Option<Node>,
    /// The other state that it follows, where it settled a conflict.
    pub other_parent: Option<Node>,
    /// When it was saved, `YYYY-MM-DDTHH:MM`.
    pub at: String,
    /// Who saved it.
    pub by: String,
    /// How it was saved.
    pub kind: StepKind,
    /// Number of the version: 1 for a draft and for the signed entry that it becomes, 2 for the first addendum.
    pub number: u32,
    /// What the addendum says.
    pub text: Option<String>,
    /// What differs from the state that it follows, answer by answer; for the first one, from an empty entry.
    pub changes: Vec<Change>,
    /// On which branch it lies.
    pub branch: Branch,
}

impl Notebook {
    /// Gives every saved state of an entry, the newest first.
    ///
    /// # Errors
    /// When there is no such entry, or its history is not what was written (then nothing of it is shown).
    pub fn history(&self, id: CaseId) -> Result<Vec<HistoryStep>, NotebookError> {
        self.read(|connection| {
            let case_id = key(id);
            let newest = head(connection, &case_id)?.ok_or(NotebookError::UnknownCase(id))?;
            let rows = rows(connection, &case_id)?;
            let mut branches = vec![(newest.node, newest.body, Branch::Ours)];
            for (node, body) in asides(connection, &case_id)? {
                branches.push((node, read(id, &body)?, Branch::Theirs));
            }
            let mut walker = Walker::new(&case_id, &rows);
            let mut steps = Vec::with_capacity(rows.len());
            for (node, body, branch) in branches {
                // What a state follows is the state that is seen next.
                let mut next: Option<Value> = None;
                let mut see = |row: &StepRow, body: &Value, before: Option<&Value>| {
                    let now = next.take().map_or_else(|| answers(id, body), Ok);
                    let empty = || Ok(Case { id, ..Case::default() }.to_value());
                    let before = before.map_or_else(empty, |before| answers(id, before));
                    let told = now.and_then(|now| {
                        let before = before?;
                        let changes = changes_of_values(&before, &now);
                        next = Some(before);
                        Ok(told(row, changes, branch))
                    });
                    steps.push((row.sequence, told));
                };
                walker.back_from(node, body, &mut see).map_err(|_| NotebookError::HistoryBroken(id))?;
            }
            steps.sort_by_key(|(sequence, _)| std::cmp::Reverse(*sequence));
            steps.into_iter().map(|(_, step)| step).collect()
        })
    }

    /// Gives an entry as it was in one of its saved states.
    ///
    /// # Errors
    /// When there is no such entry or state, or its history is not what was written.
    pub fn state(&self, id: CaseId, node: Node) -> Result<Case, NotebookError> {
        self.read(|connection| {
            let case_id = key(id);
            let newest = head(connection, &case_id)?.ok_or(NotebookError::UnknownCase(id))?;
            let rows = rows(connection, &case_id)?;
            let mut heads = vec![(newest.node, newest.body)];
            for (node, body) in asides(connection, &case_id)? {
                heads.push((node, read(id, &body)?));
            }
            let mut walker = Walker::new(&case_id, &rows);
            let mut found = None;
            for (head, body) in heads {
                let see = |row: &StepRow, body: &Value, _: Option<&Value>| {
                    if row.node == node {
                        found = Some(case(id, body));
                    }
                };
                walker.back_from(head, body, see).map_err(|_| NotebookError::HistoryBroken(id))?;
            }
            found.ok_or(NotebookError::UnknownState { id, node })?
        })
    }

    /// Gives the name of an entry's newest state, if the entry was ever saved.
    ///
    /// # Errors
    /// When the file cannot be read.
    pub fn head(&self, id: CaseId) -> Result<Option<Node>, NotebookError> {
        self.read(|connection| Ok(head(connection, &key(id))?.map(|head| head.node)))
    }
}

fn read(id: CaseId, body: &str) -> Result<Value, NotebookError> {
    serde_json::from_str(body).map_err(|source| NotebookError::Unreadable { id: id.to_string(), source })
}

fn case(id: CaseId, body: &Value) -> Result<Case, NotebookError> {
    Case::deserialize(body).map_err(|source| NotebookError::Unreadable { id: id.to_string(), source })
}

/// A state as it is written today, whichever program wrote it.
fn answers(id: CaseId, body: &Value) -> Result<Value, NotebookError> {
    Ok(case(id, body)?.to_value())
}

fn told(row: &StepRow, changes: Vec<Change>, branch: Branch) -> HistoryStep {
    HistoryStep {
        node: row.node,
        parent: row.parent,
        other_parent: row.other_parent,
        at: row.written_at.clone(),
        by: row.name.clone(),
        kind: row.kind,
        number: row.number,
        text: row.addendum_text.clone(),
        changes,
        branch,
    }
}
