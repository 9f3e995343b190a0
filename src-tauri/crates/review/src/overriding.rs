//! Which blocking findings a surgeon may sign in spite of, and why; and which of them were.
//!
//! One test parts them: can what is recorded be true all the same? A component can have expired, clocks can differ,
//! a count can have been wrong, and a record that cannot say so would be falsified. What is missing, what denies
//! itself, and what could make the record that of another knee or patient is corrected and never overridden.

use evengap_case::sections::Override;
use evengap_case::{Case, LocalTime};

use crate::Finding;

/// What becomes of the blocking findings of one rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Ruling {
    /// Name of the rule.
    pub rule: &'static str,
    /// The first answer of the finding, without places in lists; empty for all others of the rule.
    pub about: &'static str,
    /// Whether an entry may be signed in spite of it, with a reason.
    pub overridable: bool,
    /// Why, or why not.
    pub because: &'static str,
}

const fn may(rule: &'static str, about: &'static str, because: &'static str) -> Ruling {
    Ruling { rule, about, overridable: true, because }
}

const fn never(rule: &'static str, because: &'static str) -> Ruling {
    Ruling { rule, about: "", overridable: false, because }
}

/// Every rule that blocks, in the order of the rules. The first row that fits holds; a finding without a row, such as
/// a fact that a published list asks for, is never overridden.
pub const RULINGS: &[Ruling] = &[
    never("unconfirmed_answers", "nobody has looked at the answers; one key confirms them"),
    never("side_of_component", "the side must never pass by habit"),
    never("side_of_companion", "the side and the patient must never pass by habit"),
    never("side_in_words", "the side must never pass by habit; words that name both knees do not raise it"),
    may("part_missing", "", "an operation can end before a part is in, or go without it"),
    may("part_not_in_procedure", "", "a part can be put in that the name of the procedure does not foresee"),
    never("patella", "resurfaced and not resurfaced cannot both be true"),
    may("button_thickness", "", "a thickness measured at the cut and one printed on a label can differ"),
    may("constraint_and_insert", "", "a maker's name can use a word of constraint in another sense"),
    may("insert_thickness", "", "the insert left in can be another than the last one tried"),
    never("revision_without_reason", "a missing fact is recorded, not overridden"),
    may("label_and_entry", "", "what is printed on a label in letters can be right where its code is wrong"),
    may("tourniquet_record", "", "a cuff can be set low, or put up and not used for the operation"),
    may(
        "component_expired",
        "",
        "an expired component can be noticed only after it was put in; a label can bear a wrong date",
    ),
    may("serial_twice", "", "a maker can have printed one number twice"),
    never("fixation_and_cement", "cemented without cement cannot be true"),
    may("cement_without_part", "", "cement can fill a defect and hold no part"),
    never("mix_without_cement", "a mix that points at nothing says nothing"),
    may("times_order", "", "clocks in one theatre can differ"),
    may("times_of_drugs", "", "clocks in one theatre can differ, and a cuff can come down outside of it"),
    never("day_of_operation", "one of two dates is a slip, and the day of the operation must be certain"),
    may("dates_order", "choice.consent.on", "consent can be put on paper after an operation that could not wait"),
    may("dates_order", "setting.admitted_on", "an admission can be registered after an operation that could not wait"),
    never("dates_order", "a birth, a visit or a death on the wrong side of the operation cannot be true"),
    may("allergy_and_drug", "", "a drug can be given knowingly in spite of a recorded allergy"),
    may("counts", "", "a count can have been incorrect"),
    never("none_beside_list", "none and some cannot both be true"),
    never("event_component", "an event that points at nothing says nothing"),
    never("scales", "a scale has no such total, and nobody reaches such an age"),
    may("range_before", "", "a fused knee does not move"),
    may("deformity_and_alignment", "", "a knee can look otherwise than a film of it measures"),
    never("discharge_without_phone", "the patient must be able to call somebody"),
    never("blood_thinner_without_end", "the patient must know the last day"),
    never("blood_thinner_dates", "the patient must not read two last days"),
    never("blood_thinner_dose", "the patient must not read two doses"),
    never("two_blood_thinners", "the patient must know which of two to take"),
    never("allergy_without_substance", "a missing fact is recorded, not overridden"),
    never("after_death", "nobody is discharged or seen after death"),
];

/// Gives the ruling on a finding; nothing for one that is not in the table.
pub fn ruling(finding: &Finding) -> Option<&'static Ruling> {
    let first = finding.paths.first().map(|path| without_places(path)).unwrap_or_default();
    let mut of_rule = RULINGS.iter().filter(|ruling| ruling.rule == finding.rule);
    of_rule.find(|ruling| ruling.about.is_empty() || ruling.about == first)
}

/// Says of each finding whether it may be overridden, and lets those no longer block that the entry was signed in
/// spite of.
pub(crate) fn settle(findings: &mut [Finding], case: &Case) {
    for finding in findings.iter_mut().filter(|finding| finding.blocks) {
        finding.overridable = ruling(finding).is_some_and(|ruling| ruling.overridable);
        if !finding.overridable {
            continue;
        }
        if let Some(one) = case.overrides.iter().find(|one| is_whole(one) && is_of(one, finding)) {
            finding.overridden = one.reason.clone();
            finding.blocks = false;
        }
    }
}

/// An override counts only with its reason, its author and its time.
fn is_whole(one: &Override) -> bool {
    let said = |text: &Option<String>| text.as_deref().is_some_and(|text| !text.trim().is_empty());
    said(&one.reason) && said(&one.by) && one.at.is_some()
}

fn is_of(one: &Override, finding: &Finding) -> bool {
    one.rule.as_deref() == Some(finding.rule.as_str()) && one.paths == finding.paths
}

/// Leaves out the places in lists: `components[2].lot` becomes `components.lot`.
fn without_places(path: &str) -> String {
    let steps: Vec<_> = path.split('.').map(|step| step.split('[').next().unwrap_or(step)).collect();
    steps.join(".")
}

impl Finding {
    /// Makes what the entry records when somebody signs in spite of this finding.
    pub fn override_for(&self, reason: impl Into<String>, by: impl Into<String>, at: LocalTime) -> Override {
        Override {
            rule: Some(self.rule.clone()),
            finding: Some(self.message.clone()),
            paths: self.paths.clone(),
            reason: Some(reason.into()),
            by: Some(by.into()),
            at: Some(at),
            ..Override::default()
        }
    }
}
