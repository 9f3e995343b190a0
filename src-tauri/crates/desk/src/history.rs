//! The history of a case: who changed what and when, value by value.

use evengap_case::dictionary::Kind;
use evengap_notebook::{Branch, StepKind};
use serde::Serialize;
use serde_json::Value;
use ts_rs::TS;

use crate::signing::identifier;
use crate::{Desk, DeskError, Right};

/// One answer that differs between two states of an entry.
#[derive(Debug, Clone, PartialEq, Serialize, TS)]
pub struct Change {
    /// Where, such as `components[2].lot`.
    pub path: String,
    /// The place in words, from the section inwards.
    pub labels: Vec<String>,
    /// The answer before; `null` where nothing was recorded.
    #[ts(type = "unknown")]
    pub before: Option<Value>,
    /// The answer now; `null` where nothing is recorded.
    #[ts(type = "unknown")]
    pub now: Option<Value>,
    /// Unit of the number, as printed.
    pub unit: Option<&'static str>,
    /// What sort of answer it is; `null` for a key that the dictionary does not know.
    pub kind: Option<&'static Kind>,
}

impl From<evengap_case::Change> for Change {
    fn from(change: evengap_case::Change) -> Self {
        let evengap_case::Change { path, labels, before, now, unit, kind } = change;
        Self { path, labels, before, now, unit, kind }
    }
}

/// One saved state of an entry.
#[derive(Debug, Clone, PartialEq, Serialize, TS)]
pub struct HistoryStep {
    /// Its fingerprint, 64 hexadecimal digits.
    pub node: String,
    /// When it was saved, `YYYY-MM-DDTHH:MM`.
    pub at: String,
    /// Who saved it.
    pub by: String,
    /// What it is.
    pub kind: StepKind,
    /// Number of the version: 1 for drafts and the signed entry, 2 for the first addendum.
    pub number: u32,
    /// What an addendum says.
    pub text: Option<String>,
    /// What it changed, answer by answer.
    pub changes: Vec<Change>,
    /// Whose it is.
    pub branch: Branch,
}

impl Desk {
    /// Gives every saved state of an entry, the newest first, with what each of them changed.
    ///
    /// # Errors
    /// When no notebook is open, it holds no such entry, or its history is not what was written.
    pub fn case_history(&self, id: &str) -> Result<Vec<HistoryStep>, DeskError> {
        let steps = self.open_as(Right::History)?.history(identifier(id)?)?;
        let shown = steps.into_iter().map(|step| HistoryStep {
            node: step.node.to_string(),
            at: step.at,
            by: step.by,
            kind: step.kind,
            number: step.number,
            text: step.text,
            changes: step.changes.into_iter().map(Change::from).collect(),
            branch: step.branch,
        });
        Ok(shown.collect())
    }
}
