//! Which blocking findings of the rules are about something that a paper prints.
//!
//! A paper that shows one of two answers that cannot both be true is not finished, unless the entry was signed in
//! spite of that. Papers know the
//! entry alone: the shipped limits are in force, and the other knee's entry is not at hand.

use std::sync::LazyLock;

use evengap_case::Case;
use evengap_reckon::Limits;

use crate::beside::reckonings;
use crate::overriding;
use crate::rules::{Look, RULES};
use crate::{Finding, FindingKind};

/// What the letter to the patient prints.
pub const LETTER: &[&str] = &[
    "aftercare",
    "choice.procedure",
    "companion",
    "discharge",
    "end.died_on",
    "knee.side",
    "patient.birth_date",
    "patient.none_recorded",
    "setting.operation_date",
];

/// What the letter to the doctor prints.
pub const CLINICIAN_LETTER: &[&str] = &[
    "aftercare",
    "approach.extra_procedures",
    "choice.procedure",
    "choice.reason_for_revision",
    "closing.transfused_units",
    "companion",
    "components",
    "discharge",
    "end.died_on",
    "events",
    "knee.bloods_before",
    "knee.side",
    "none_recorded",
    "patient.birth_date",
    "patient.none_recorded",
    "setting.admitted_on",
    "setting.operation_date",
];

/// What the component record prints.
pub const COMPONENT_RECORD: &[&str] =
    &["choice.procedure", "components", "knee.side", "patient.birth_date", "setting.operation_date"];

static LIMITS: LazyLock<Limits> = LazyLock::new(Limits::default);

/// What scanners send between two elements besides ASCII 29. A place's own are not at hand here, so these are
/// the common ones that no element of a GS1 label can hold (they are outside of its character set 82).
static SEPARATORS: LazyLock<[String; 5]> = LazyLock::new(|| ["|", "^", "~", "{GS}", "<GS>"].map(str::to_owned));

/// Adds the blocking findings about what a paper prints to its own reasons; each sentence stands once.
pub(crate) fn with_findings(mut reasons: Vec<Finding>, case: &Case, printed: &[&str]) -> Vec<Finding> {
    let beside = reckonings(case, &LIMITS);
    let look = Look { case, companion: None, separators: &*SEPARATORS, beside: &beside };
    let mut findings: Vec<_> = RULES.iter().flat_map(|rule| rule.findings(look)).collect();
    overriding::settle(&mut findings, case);
    for finding in findings {
        if finding.blocks && is_about(&finding, printed) && reasons.iter().all(|r| r.message != finding.message) {
            reasons.push(finding);
        }
    }
    reasons
}

/// A conflict is about all of its answers; what is missing, about the first alone. A finding about a whole section is
/// about every answer of it that a paper prints.
fn is_about(finding: &Finding, printed: &[&str]) -> bool {
    let answers = if finding.kind == FindingKind::Conflict { finding.paths.len() } else { 1 };
    finding
        .paths
        .iter()
        .take(answers)
        .any(|path| printed.iter().any(|group| is_within(path, group) || is_within(group, path)))
}

fn is_within(path: &str, group: &str) -> bool {
    path.strip_prefix(group).is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
}
