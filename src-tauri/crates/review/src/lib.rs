//! Looks at an entry and says what it finds: what is missing, what conflicts, what lies outside of its
//! range, what to bear in mind.
//!
//! A finding names the answers it is about and its source. It never changes an entry and never says
//! what to do in theatre; whether a finding stops a signature is a flag on it.

mod beside;
mod death;
mod facts;
mod finding;
mod letter;
mod medicines;
mod note_lists;
mod outgoing;
mod overriding;
mod printed;
mod rules;

use evengap_case::Case;
use evengap_reckon::Limits;

pub use beside::{Beside, reckonings};
pub use finding::{Finding, FindingKind, Found};
pub use letter::unfinished_letter;
pub use medicines::{blood_thinner_until, says_none};
pub use note_lists::{LISTS, List, ListItem, missing_from_note};
pub use outgoing::{DISCHARGE_LIST, is_to_come, unfinished_clinician_letter, unfinished_component_record};
pub use overriding::{RULINGS, Ruling, ruling};
pub use rules::{Look, RULES, Rule};

/// What a review knows besides the entry.
#[derive(Debug, Clone, Copy)]
pub struct Circumstances<'a> {
    /// The entry of the other knee of the same sitting, where it is at hand.
    pub companion: Option<&'a Case>,
    /// The limits in force.
    pub limits: &'a Limits,
    /// What this place's scanners send between two elements of a label, besides ASCII 29.
    pub separators: &'a [String],
}

/// What a review gives.
#[derive(Debug, Clone, PartialEq)]
pub struct Review {
    /// What the published lists miss, then what the rules find.
    pub findings: Vec<Finding>,
    /// The reckonings that follow from the entry.
    pub reckonings: Vec<Beside>,
}

/// Reviews an entry: everything that there is to say about it.
pub fn review(case: &Case, circumstances: Circumstances<'_>) -> Review {
    let reckonings = reckonings(case, circumstances.limits);
    let look =
        Look { case, companion: circumstances.companion, separators: circumstances.separators, beside: &reckonings };
    let mut findings = missing_from_note(case);
    findings.extend(RULES.iter().flat_map(|rule| rule.findings(look)));
    overriding::settle(&mut findings, case);
    Review { findings, reckonings }
}
