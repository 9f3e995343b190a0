//! What keeps the clinician letter and the component record from being handed out.
//!
//! The letter is held against the published list of what a discharge summary states; the record needs
//! to know whose knee it is and what is in it. What else is not recorded, the papers say in their place.

use evengap_case::sections::Fate;
use evengap_case::{Case, Date};

use crate::Finding;
use crate::death;
use crate::facts::{self, Fact};
use crate::finding::Found;
use crate::letter::lacks_of_both_letters;
use crate::note_lists::{List, item, missing};
use crate::printed::{self, with_findings};
use crate::rules::is_implanted;

/// The components of a discharge summary. The wording is from memory and agrees with what others print of the
/// standard; the manual itself was not at hand. One component may ask for several answers.
pub const DISCHARGE_LIST: List = List {
    source: "Joint Commission, RC.02.04.01 EP 3 (discharge summary; wording from memory)",
    items: &[
        item("reason for hospitalization", facts::DIAGNOSIS_BEFORE),
        item("procedures performed", facts::PROCEDURE),
        item("care, treatment and services provided", facts::FINDINGS),
        item("care, treatment and services provided", facts::COMPLICATIONS),
        item("condition and disposition at discharge", DAY_OF_DISCHARGE),
        item("condition and disposition at discharge", CONDITION_AT_DISCHARGE),
        item("condition and disposition at discharge", DESTINATION),
        item("information provided to patient and family", INFORMATION),
        item("provisions for follow-up care", FOLLOW_UP),
    ],
};

const DAY_OF_DISCHARGE: Fact = Fact {
    name: "day_of_discharge",
    sentence: "The day of discharge is not recorded.",
    gaps: |c| facts::need(&[("discharge.on", c.discharge.on.is_some())]),
};
const CONDITION_AT_DISCHARGE: Fact = Fact {
    name: "condition_at_discharge",
    sentence: "The condition at discharge is not recorded.",
    gaps: |c| facts::need(&[("discharge.condition", c.discharge.condition.is_some())]),
};
const DESTINATION: Fact = Fact {
    name: "destination",
    sentence: "Where the patient went at discharge is not recorded.",
    gaps: |c| facts::need(&[("discharge.destination", c.discharge.destination.is_some())]),
};
/// Nobody instructs the dead; the letter about one who died in hospital still says why and how.
const INFORMATION: Fact = Fact {
    name: facts::INSTRUCTIONS.name,
    sentence: facts::INSTRUCTIONS.sentence,
    gaps: |c| if died(c) { Vec::new() } else { (facts::INSTRUCTIONS.gaps)(c) },
};
/// What is dated before the discharge was done on the ward and is no follow-up.
const FOLLOW_UP: Fact = Fact {
    name: "follow_up",
    sentence: "No follow-up is recorded: no review, wound check or other appointment after the discharge.",
    gaps: |c| {
        let after = &c.aftercare;
        let to_come = |on: Date| is_to_come(c, on);
        let dates = [after.wound_check_on, after.closure_removal_on, after.bloods_on, after.film_on];
        let any = dates.into_iter().flatten().any(to_come)
            || after.reviews.iter().any(|review| review.on.is_none_or(to_come));
        facts::need(&[("aftercare.reviews", any || died(c))])
    },
};

/// Tells whether a day lies after going home; before the day of discharge is recorded every day does.
pub fn is_to_come(case: &Case, on: Date) -> bool {
    case.discharge.on.is_none_or(|home| on > home)
}

fn died(case: &Case) -> bool {
    death::before_discharge(case).is_some()
}

const SIDE: Fact = Fact {
    name: "side",
    sentence: "The side of the operated knee is not recorded.",
    gaps: |c| facts::need(&[("knee.side", c.knee.side.is_some())]),
};
const DAY_AND_PLACE: Fact = Fact {
    name: "day_and_place",
    sentence: "The day of the operation and the hospital are not both recorded.",
    gaps: |c| {
        facts::need(&[
            ("setting.operation_date", c.setting.operation_date.is_some()),
            ("setting.hospital", c.setting.hospital.is_some()),
        ])
    },
};
const IMPLANTED: Fact = Fact {
    name: "implanted",
    sentence: "No implanted component is recorded.",
    gaps: |c| facts::need(&[("components", c.components.iter().any(|part| part.fate == Some(Fate::Implanted)))]),
};

const FATE: Fact = Fact {
    name: "fate",
    sentence: "It is not recorded of every component whether it was implanted.",
    gaps: |c| {
        let open = c.components.iter().enumerate().filter(|(_, part)| part.fate.is_none());
        open.map(|(i, _)| format!("components[{i}].fate")).collect()
    },
};

/// Gives the reasons why the letter to the family doctor or referrer cannot be finished.
///
/// `ambulance` is the number that calls an ambulance, where it is at hand.
pub fn unfinished_clinician_letter(case: &Case, ambulance: Option<&str>) -> Vec<Finding> {
    let mut reasons = blocking(case, &[facts::PATIENT]);
    reasons.extend(missing(&[DISCHARGE_LIST], case));
    // The doctor who goes on with the medicines needs them as clear as the patient does.
    reasons.extend(lacks_of_both_letters(case, ambulance));
    with_findings(reasons, case, printed::CLINICIAN_LETTER)
}

/// Gives the reasons why the component record cannot be handed out.
pub fn unfinished_component_record(case: &Case) -> Vec<Finding> {
    let mut reasons = blocking(case, &[facts::PATIENT, SIDE, DAY_AND_PLACE, IMPLANTED, FATE]);
    reasons.extend(untraceable(case));
    with_findings(reasons, case, printed::COMPONENT_RECORD)
}

/// The components in the knee that the record could not tell from others.
fn untraceable(case: &Case) -> Vec<Finding> {
    let mut found = Found::of("untraceable_component");
    for (i, part) in case.components.iter().enumerate().filter(|(_, part)| is_implanted(part)) {
        let lacks: Vec<_> = [
            ("name", "its name", part.name.is_some()),
            ("reference", "its reference", part.reference.is_some()),
            ("lot", "its lot or serial number", part.lot.is_some() || part.serial.is_some()),
        ]
        .into_iter()
        .filter(|(_, _, recorded)| !recorded)
        .collect();
        let paths: Vec<_> = lacks.iter().map(|(field, ..)| format!("components[{i}].{field}")).collect();
        let paths: Vec<_> = paths.iter().map(String::as_str).collect();
        let words: Vec<_> = lacks.iter().map(|(_, words, _)| *words).collect();
        if let Some((last, before)) = words.split_last() {
            let role = part.role.map_or("role not recorded", |role| role.words());
            let and = if before.is_empty() { "" } else { " and " };
            let words = format!("{}{and}{last}", before.join(", "));
            found.missing(&paths, format!("Component {} ({role}) lacks {words}.", i + 1)).blocking();
        }
    }
    found.into_findings()
}

fn blocking(case: &Case, needed: &[Fact]) -> Vec<Finding> {
    needed.iter().filter_map(|fact| fact.missing(case)).collect()
}
