//! What keeps a discharge letter from being handed to the patient.

use evengap_case::{Case, Date};

use crate::{Finding, FindingKind};

/// Gives the reasons why the letter cannot be finished.
pub fn unfinished_letter(case: &Case) -> Vec<Finding> {
    let patient = &case.patient;
    let discharge = &case.discharge;
    let mut found = Vec::new();
    let mut lacks = |lacking: bool, paths: &[&str], message: &str| {
        if lacking {
            found.push(Finding {
                kind: FindingKind::Missing,
                paths: paths.iter().map(|path| (*path).to_owned()).collect(),
                message: message.to_owned(),
                source: None,
                blocks: true,
            });
        }
    };
    lacks(
        patient.given_name.is_none() && patient.family_name.is_none(),
        &["patient.family_name"],
        "The patient's name is not recorded.",
    );
    lacks(case.knee.side.is_none(), &["knee.side"], "The side of the operated knee is not recorded.");
    lacks(
        discharge.contact_phone.is_none() && discharge.emergency_phone.is_none(),
        &["discharge.contact_phone", "discharge.emergency_phone"],
        "No telephone number is recorded that the patient can call.",
    );
    lacks(
        case.aftercare.vte.drug.is_some() && blood_thinner_until(case).is_none(),
        &["discharge.medicines"],
        "The last day of the blood thinner is not among the medicines.",
    );
    found
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
