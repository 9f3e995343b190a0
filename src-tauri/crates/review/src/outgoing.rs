//! What keeps the clinician letter and the component record from being handed out.
//!
//! The letter is held against the published list of what a discharge summary states; the record needs
//! to know whose knee it is and what is in it. What else is not recorded, the papers say in their place.

use evengap_case::Case;
use evengap_case::sections::Fate;

use crate::facts::{self, Fact};
use crate::letter::unfinished_letter;
use crate::note_lists::{List, item, missing};
use crate::{Finding, FindingKind};

/// The components of a discharge summary.
pub const DISCHARGE_LIST: List = List {
    source: "Joint Commission, RC.02.04.01 EP 3 (discharge summary, required components)",
    items: &[
        item("reason for hospitalization", facts::DIAGNOSIS_BEFORE),
        item("significant findings", facts::FINDINGS),
        item("procedures and treatment provided", facts::PROCEDURE),
        item("discharge condition", CONDITION_AT_DISCHARGE),
        item("patient and family instructions", facts::INSTRUCTIONS),
        item("attending's signature", facts::SIGNATURE),
    ],
};

const CONDITION_AT_DISCHARGE: Fact = Fact {
    name: "condition_at_discharge",
    sentence: "The condition at discharge is not recorded.",
    gaps: |c| facts::need(&[("discharge.condition", c.discharge.condition.is_some())]),
};
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
pub fn unfinished_clinician_letter(case: &Case) -> Vec<Finding> {
    let mut found = blocking(case, &[facts::PATIENT]);
    found.extend(missing(&[DISCHARGE_LIST], case));
    // The blood thinner's last day: the doctor who goes on with the medicines needs it as much as the patient.
    found.extend(unfinished_letter(case).into_iter().filter(|reason| reason.paths[0] == "discharge.medicines"));
    found
}

/// Gives the reasons why the component record cannot be handed out.
pub fn unfinished_component_record(case: &Case) -> Vec<Finding> {
    blocking(case, &[facts::PATIENT, SIDE, DAY_AND_PLACE, IMPLANTED, FATE])
}

fn blocking(case: &Case, needed: &[Fact]) -> Vec<Finding> {
    let gaps = needed.iter().map(|fact| (fact, (fact.gaps)(case))).filter(|(_, paths)| !paths.is_empty());
    gaps.map(|(fact, paths)| Finding {
        rule: fact.name.to_owned(),
        kind: FindingKind::Missing,
        paths,
        message: fact.sentence.to_owned(),
        source: None,
        blocks: true,
    })
    .collect()
}
