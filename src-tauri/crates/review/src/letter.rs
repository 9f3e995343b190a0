//! What keeps a discharge letter from being handed to the patient.

use evengap_case::{Case, Date};

use crate::finding::{Finding, Found};

/// Gives the reasons why the letter cannot be finished.
pub fn unfinished_letter(case: &Case) -> Vec<Finding> {
    let patient = &case.patient;
    let discharge = &case.discharge;
    let mut found = Found::of("unfinished_letter");
    if patient.given_name.is_none() && patient.family_name.is_none() {
        found.missing(&["patient.family_name"], "The patient's name is not recorded.").blocking();
    }
    if case.knee.side.is_none() {
        found.missing(&["knee.side"], "The side of the operated knee is not recorded.").blocking();
    }
    if !is_number(discharge.contact_phone.as_deref()) && !is_number(discharge.emergency_phone.as_deref()) {
        found
            .missing(
                &["discharge.contact_phone", "discharge.emergency_phone"],
                "No telephone number is recorded that the patient can call.",
            )
            .blocking();
    }
    if case.aftercare.vte.drug.is_some() && blood_thinner_until(case).is_none() {
        found
            .missing(&["discharge.medicines"], "The last day of the blood thinner is not among the medicines.")
            .blocking();
    }
    found.into_findings()
}

/// Tells whether a text can be called: it holds at least three digits.
fn is_number(phone: Option<&str>) -> bool {
    phone.is_some_and(|phone| phone.chars().filter(char::is_ascii_digit).count() >= 3)
}

/// Gives the last day of the blood thinner: that of the medicine that bears the drug's name.
pub fn blood_thinner_until(case: &Case) -> Option<Date> {
    let drug = case.aftercare.vte.drug.as_deref()?.to_lowercase();
    let same = |name: &str| {
        let name = name.to_lowercase();
        name.contains(&drug) || drug.contains(&name)
    };
    case.discharge.medicines.iter().filter(|m| m.name.as_deref().is_some_and(same)).find_map(|m| m.until)
}
