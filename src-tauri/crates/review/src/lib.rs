//! Looks at an entry and says what it finds: what is missing, and later what conflicts.
//!
//! A finding names the answers it is about and its source. It never changes an entry and never says
//! what to do in theatre; whether a finding stops a signature is a flag on it.

mod facts;
mod letter;
mod note_lists;

use evengap_case::Case;
use serde::Serialize;
use ts_rs::TS;

pub use letter::{blood_thinner_until, unfinished_letter};
pub use note_lists::{LISTS, List, ListItem, missing_from_note};

/// One thing that a person should look at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct Finding {
    /// What sort of finding it is.
    pub kind: FindingKind,
    /// The answers it is about, such as `components[2].lot`.
    pub paths: Vec<String>,
    /// One sentence.
    pub message: String,
    /// Who asks for it, where somebody does.
    pub source: Option<String>,
    /// Whether a paper cannot be signed or handed out while it stands.
    pub blocks: bool,
}

/// The sort of a finding.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, TS)]
#[serde(rename_all = "snake_case")]
pub enum FindingKind {
    /// Something that a published list or a paper asks for is not recorded.
    Missing,
    /// Two answers cannot both be true.
    Conflict,
    /// A value lies outside its ordinary range.
    OutOfRange,
    /// Something to bear in mind.
    Caution,
}

/// Gives everything that there is to say about an entry, in the order of the operation.
pub fn findings(case: &Case) -> Vec<Finding> {
    let mut all = missing_from_note(case);
    // The letter is written at discharge; before that its gaps are no finding.
    if case.discharge.on.is_some() {
        all.extend(
            unfinished_letter(case)
                .into_iter()
                .filter(|f| !all.iter().any(|known| known.paths == f.paths))
                .collect::<Vec<_>>(),
        );
    }
    all
}
