//! Left and right: the one mistake that must never pass.

use evengap_case::sections::{ComponentSide, Side};

use super::Look;
use crate::finding::Found;

/// A component that is made for the other knee.
pub fn component(look: Look<'_>, found: &mut Found) {
    let Some(side) = look.case.knee.side else { return };
    for (i, part) in look.case.components.iter().enumerate() {
        let wrong = matches!(
            (side, part.side),
            (Side::Left, Some(ComponentSide::Right)) | (Side::Right, Some(ComponentSide::Left))
        );
        if wrong && super::components::is_implanted(part) {
            let name = super::components::called(part, i);
            found.conflict(
                &[&format!("components[{i}].side"), "knee.side"],
                format!("The {name} is made for the other side; the knee is the {}.", side.words()),
            );
        }
    }
}

/// Both entries of one sitting name the same knee, or different days or people.
pub fn companion(look: Look<'_>, found: &mut Found) {
    let case = look.case;
    if case.companion == Some(case.id) {
        found.conflict(&["companion"], "The entry names itself as the other knee of the sitting.");
    }
    let Some(other) = look.companion else { return };
    if let (Some(side), Some(theirs)) = (case.knee.side, other.knee.side)
        && side == theirs
    {
        found.conflict(
            &["knee.side", "companion"],
            format!("The entry of the other knee also says {}; one of the two must be wrong.", side.words()),
        );
    }
    let number = |case: &evengap_case::Case| case.patient.hospital_number.clone();
    if number(case).is_some() && number(other).is_some() && number(case) != number(other) {
        found.conflict(
            &["patient.hospital_number", "companion"],
            "The entry of the other knee has another hospital number.",
        );
    }
    let date = |case: &evengap_case::Case| case.setting.operation_date;
    if let (Some(day), Some(theirs)) = (date(case), date(other))
        && (day.0 - theirs.0).num_days().abs() > 1
    {
        found.conflict(
            &["setting.operation_date", "companion"],
            format!("The other knee of the same sitting is dated {theirs}, this one {day}."),
        );
    }
}

/// Words that a side is said of.
const PLACES: &[&str] = &[
    "knee", "knees", "leg", "thigh", "femur", "femoral", "tibia", "tibial", "patella", "patellar", "adductor", "lower",
    "total", "medial", "lateral", "side", "hip", "ankle",
];

/// A text of the plan, the consent, the approach or an extra procedure that names only the other knee.
///
/// A side counts only beside a place ("left knee", "rt. adductor"): "the vein was left" names no side. In the
/// texts that tell a history the other knee may well be named, so there it is only something to look at.
pub fn words(look: Look<'_>, found: &mut Found) {
    let Some(side) = look.case.knee.side else { return };
    let case = look.case;
    let mut look_at = |path: &str, what: &str, text: Option<&String>, history: bool| {
        let Some(text) = text else { return };
        let named = sides_named(text);
        let other = if side == Side::Left { Side::Right } else { Side::Left };
        if !named.contains(&other) || named.contains(&side) {
            return;
        }
        let message =
            format!("{what} names the {} side; the operated knee is recorded as the {}.", other.words(), side.words());
        if history {
            found.caution(&[path, "knee.side"], message);
        } else {
            found.conflict(&[path, "knee.side"], message);
        }
    };
    look_at("approach.incision", "The incision", case.approach.incision.as_ref(), false);
    look_at("anaesthesia.block", "The block", case.anaesthesia.block.as_ref(), false);
    for (i, extra) in case.approach.extra_procedures.iter().enumerate() {
        look_at(&format!("approach.extra_procedures[{i}].what"), "The extra procedure", extra.what.as_ref(), false);
    }
    for (i, risk) in case.choice.consent.risks.iter().enumerate() {
        look_at(&format!("choice.consent.risks[{i}]"), "The consent", Some(risk), false);
    }
    look_at("knee.diagnosis.detail", "The detail of the diagnosis", case.knee.diagnosis.detail.as_ref(), true);
    look_at("choice.reason", "The reason", case.choice.reason.as_ref(), true);
    look_at(
        "choice.alternatives_discussed",
        "The text on alternatives",
        case.choice.alternatives_discussed.as_ref(),
        true,
    );
    look_at("approach.findings", "The text of the findings", case.approach.findings.as_ref(), true);
    look_at(
        "approach.postoperative_diagnosis",
        "The diagnosis at operation",
        case.approach.postoperative_diagnosis.as_ref(),
        true,
    );
}

/// The sides that a text says of a place.
fn sides_named(text: &str) -> Vec<Side> {
    let lower = text.to_lowercase();
    let words: Vec<&str> = lower.split(|c: char| !c.is_alphabetic()).filter(|word| !word.is_empty()).collect();
    let sided = words.windows(2).filter(|pair| PLACES.contains(&pair[1]));
    sided
        .filter_map(|pair| match pair[0] {
            "left" | "lt" => Some(Side::Left),
            "right" | "rt" => Some(Side::Right),
            _ => None,
        })
        .collect()
}
