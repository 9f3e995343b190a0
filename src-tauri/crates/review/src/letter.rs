//! What keeps a discharge letter from being handed to the patient.

use evengap_case::Case;

use crate::death;
use crate::facts;
use crate::finding::{Finding, Found};
use crate::medicines::{self, blood_thinner_until, blood_thinners, unexplained_blood_thinners};
use crate::printed::{self, with_findings};

/// Numbers that call an ambulance in many countries. Common practice, no source.
const AMBULANCE: [&str; 3] = ["112", "999", "911"];

/// The reason's own name, by which word lists say it.
const TWO_LAST_DAYS: &str = "two_last_days";

/// Gives the reasons why the letter cannot be finished.
///
/// `ambulance` is the number that the letter prints for an ambulance, where it is at hand.
pub fn unfinished_letter(case: &Case, ambulance: Option<&str>) -> Vec<Finding> {
    with_findings(letter_lacks(case, ambulance), case, printed::LETTER)
}

/// Gives what the letter itself lacks. The rules of the review say it too, so it must not ask them.
pub(crate) fn letter_lacks(case: &Case, ambulance: Option<&str>) -> Vec<Finding> {
    let patient = &case.patient;
    let discharge = &case.discharge;
    let mut found = Found::of("unfinished_letter");
    if let Some(death) = death::before_discharge(case) {
        let on = death.on.map(|on| format!(" on {on}")).unwrap_or_default();
        let message =
            format!("The entry records that the patient died{on}; this letter is written to a living patient.");
        found.conflict(&[&death.path, "discharge.on"], message).rule = "letter_to_the_dead".to_owned();
    }
    if patient.given_name.is_none() && patient.family_name.is_none() {
        found.missing(&["patient.family_name"], "The patient's name is not recorded.").blocking();
    }
    if case.knee.side.is_none() {
        found.missing(&["knee.side"], "The side of the operated knee is not recorded.").blocking();
    }
    if discharge.contact_phone.is_none() && discharge.emergency_phone.is_none() {
        found
            .missing(
                &["discharge.contact_phone", "discharge.emergency_phone"],
                "No telephone number is recorded that the patient can call.",
            )
            .blocking();
    }
    let mut reasons = found.into_findings();
    reasons.extend(lacks_of_both_letters(case, ambulance));
    reasons
}

/// Gives what keeps back the letter to the patient and the one to the doctor alike.
pub(crate) fn lacks_of_both_letters(case: &Case, ambulance: Option<&str>) -> Vec<Finding> {
    let mut found = Found::of("unfinished_letter");
    telephones(case, ambulance, &mut found);
    blood_thinner(case, &mut found);
    for (i, allergy) in case.patient.allergies.iter().enumerate() {
        if let (None, Some(reaction)) = (&allergy.substance, &allergy.reaction) {
            found
                .missing(
                    &[&format!("patient.allergies[{i}].substance")],
                    format!("An allergy is recorded by its reaction ({reaction}), but not to what."),
                )
                .blocking();
        }
    }
    let unsigned = (facts::SIGNATURE.gaps)(case);
    if !unsigned.is_empty() {
        found.missing(&["team"], facts::SIGNATURE.sentence).blocking();
    }
    found.into_findings()
}

/// Each number that a letter prints can be called, and none of them calls an ambulance.
fn telephones(case: &Case, ambulance: Option<&str>, found: &mut Found) {
    for (path, phone) in [
        ("discharge.contact_phone", &case.discharge.contact_phone),
        ("discharge.emergency_phone", &case.discharge.emergency_phone),
    ] {
        let Some(phone) = phone else { continue };
        if !is_number(phone) {
            let message = format!("“{phone}” is recorded as a telephone number, but nobody can call it.");
            found.missing(&[path], message).blocking();
        } else if calls_ambulance(phone, ambulance) {
            let message =
                format!("The telephone number {phone} calls an ambulance; record one of the patient's own team.");
            found.conflict(&[path], message).rule = "ambulance_as_telephone".to_owned();
        }
    }
}

/// Tells whether a text can be called: it holds at least three digits in a row, however they are grouped.
fn is_number(phone: &str) -> bool {
    let groups = phone.split(|c: char| !(c.is_ascii_digit() || " -–/.()+".contains(c)));
    groups.into_iter().any(|group| group.chars().filter(char::is_ascii_digit).count() >= 3)
}

fn calls_ambulance(phone: &str, ambulance: Option<&str>) -> bool {
    let digits = |phone: &str| phone.chars().filter(char::is_ascii_digit).collect::<String>();
    let called = digits(phone);
    ambulance.into_iter().chain(AMBULANCE).any(|number| digits(number) == called)
}

/// The blood thinner has one last day, and one from before the operation has a line that says what becomes of it.
fn blood_thinner(case: &Case, found: &mut Found) {
    let Some(drug) = medicines::blood_thinner(case) else { return };
    if blood_thinner_until(case).is_none() {
        found
            .missing(&["discharge.medicines"], "The last day of the blood thinner is not among the medicines.")
            .blocking();
    }
    let lines = blood_thinners(case);
    let mut days: Vec<_> = lines.iter().filter_map(|(_, medicine)| medicine.until).collect();
    days.sort_unstable();
    days.dedup();
    let paths: Vec<_> = lines.iter().map(|(i, _)| format!("discharge.medicines[{i}].until")).collect();
    let paths: Vec<_> = paths.iter().map(String::as_str).collect();
    if let [first, .., last] = days.as_slice() {
        let message =
            format!("The medicines give {drug} two last days, {first} and {last}; only one of them can stand.");
        found.conflict(&paths, message).rule = TWO_LAST_DAYS.to_owned();
    } else if !days.is_empty() && lines.iter().any(|(_, medicine)| medicine.until.is_none()) {
        let message = format!("The medicines name {drug} with a last day and again without one.");
        found.conflict(&paths, message).rule = TWO_LAST_DAYS.to_owned();
    }
    for before in unexplained_blood_thinners(case) {
        found
            .missing(
                &["patient.anticoagulant", "discharge.medicines", "aftercare.vte.drug"],
                format!(
                    "Two blood thinners are recorded, {before} from before the operation and {drug} after it. Give \
                     {before} its own line among the medicines: its dose, “stopped”, or the day it starts again."
                ),
            )
            .blocking();
    }
}
