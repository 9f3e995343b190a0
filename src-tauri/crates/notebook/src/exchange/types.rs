//! What an exchange has to say to people.

use std::path::PathBuf;

use evengap_case::{Case, CaseId, Change};
use serde::{Deserialize, Serialize};
use ts_rs::TS;

use crate::{Node, StepKind};

/// An exchange file that was written.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct ExchangeWritten {
    /// The file.
    #[ts(type = "string")]
    pub path: PathBuf,
    /// Entries in it.
    pub cases: u32,
    /// Saved states of them.
    pub steps: u32,
    /// Kept papers of them.
    pub papers: u32,
}

/// How a case of an exchange file stands to the same case in the notebook.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize, TS)]
#[serde(rename_all = "snake_case")]
pub enum Outcome {
    /// Both hold the same answers.
    Same,
    /// The notebook knew all of it, and more.
    Older,
    /// The notebook did not have the case.
    New,
    /// The file's version follows from the notebook's, and was taken over.
    Newer,
    /// Neither follows from the other. The notebook's own version stays; the other one is kept aside.
    Conflict,
}

/// What became of one case of an exchange file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct CaseOutcome {
    /// The case.
    pub id: CaseId,
    /// Family name, given name, as it stands in the notebook now; blank where neither is recorded.
    pub name: String,
    /// How it stands.
    pub what: Outcome,
}

/// What was taken from an exchange file.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, TS)]
pub struct ExchangeReport {
    /// Who wrote the file.
    pub written_by: String,
    /// When it was written, `YYYY-MM-DDTHH:MM`.
    pub written_at: String,
    /// Cases that were not here.
    pub new: u32,
    /// Cases that are the same.
    pub same: u32,
    /// Cases of which the newer version was taken.
    pub newer: u32,
    /// Cases of which the notebook has the newer version.
    pub older: u32,
    /// Cases in conflict.
    pub conflicts: u32,
    /// Kept papers that were not here.
    pub papers: u32,
    /// Every case of the file.
    pub cases: Vec<CaseOutcome>,
}

/// An open conflict in a list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct ConflictLine {
    /// The number of the conflict.
    #[ts(type = "number")]
    pub sequence: i64,
    /// The case.
    pub id: CaseId,
    /// Family name, given name, as it stands in the notebook.
    pub name: String,
    /// Who wrote the other version.
    pub by: String,
    /// When it was written, `YYYY-MM-DDTHH:MM`.
    pub at: String,
    /// When it came here, `YYYY-MM-DDTHH:MM`.
    pub received_at: String,
}

/// One of the two versions in a conflict.
#[derive(Debug, Clone, PartialEq, Serialize, TS)]
pub struct Side {
    /// The version.
    pub node: Node,
    /// How it was saved.
    pub kind: StepKind,
    /// Number of the version in its own notebook.
    pub number: u32,
    /// Who wrote it.
    pub by: String,
    /// When, `YYYY-MM-DDTHH:MM`.
    pub at: String,
    /// What the addendum says, where it is one.
    pub text: Option<String>,
    /// The entry.
    pub case: Case,
}

/// An open conflict with both versions.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Conflict {
    /// The number of the conflict.
    pub sequence: i64,
    /// The version of this notebook.
    pub ours: Side,
    /// The other one.
    pub theirs: Side,
    /// What differs, answer by answer: `before` is ours, `now` is theirs.
    pub changes: Vec<Change>,
    /// What can be chosen: where one of the two is signed, that one stays.
    pub choices: Vec<Keep>,
}

/// Which version of a conflict goes on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, TS)]
#[serde(rename_all = "snake_case")]
pub enum Keep {
    /// The version of this notebook.
    Ours,
    /// The version that came from another one.
    Theirs,
}

impl Keep {
    /// Every choice.
    pub const ALL: [Self; 2] = [Self::Ours, Self::Theirs];

    /// Gives the stored word.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Ours => "ours",
            Self::Theirs => "theirs",
        }
    }

    /// Reads a word back.
    pub fn of(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|keep| keep.code() == code)
    }

    /// What can be chosen between two versions.
    pub(super) fn choices(ours: StepKind, theirs: StepKind) -> Vec<Self> {
        match (ours, theirs) {
            (StepKind::Draft, StepKind::Draft) => Self::ALL.to_vec(),
            (StepKind::Draft, _) => vec![Self::Theirs],
            _ => vec![Self::Ours],
        }
    }
}
