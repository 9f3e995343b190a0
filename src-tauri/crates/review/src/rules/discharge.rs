//! Going home: somebody to call, a clear course of the blood thinner, and a patient who lives.

use evengap_case::Date;

use super::Look;
use crate::death;
use crate::finding::Found;
use crate::letter::letter_lacks;
use crate::medicines::{blood_thinner_until, blood_thinners, doses_differ};

/// No telephone number on the letter of a patient who goes home, or one that is none.
pub fn phone(look: Look<'_>, found: &mut Found) {
    copy(look, found, &["discharge.contact_phone", "discharge.emergency_phone"]);
}

/// A blood thinner without a last day, or with several.
pub fn blood_thinner(look: Look<'_>, found: &mut Found) {
    copy(look, found, &["discharge.medicines"]);
}

/// A blood thinner from before the operation and another after it, and no word of what becomes of the first.
pub fn two_blood_thinners(look: Look<'_>, found: &mut Found) {
    copy(look, found, &["patient.anticoagulant"]);
}

/// The letter's own reasons, as findings, once the day of discharge is recorded; before it they are no news.
fn copy(look: Look<'_>, found: &mut Found, paths: &[&str]) {
    if look.case.discharge.on.is_some() {
        again(look, found, paths);
    }
}

/// An allergy of which only the reaction is recorded, before as after the discharge.
pub fn allergy(look: Look<'_>, found: &mut Found) {
    again(look, found, &["patient.allergies"]);
}

fn again(look: Look<'_>, found: &mut Found, paths: &[&str]) {
    let about = |first: &String| paths.iter().any(|path| first.starts_with(path));
    for reason in letter_lacks(look.case, None).into_iter().filter(|reason| reason.paths.first().is_some_and(about)) {
        found.again(reason);
    }
}

/// A discharge or a visit after the death.
pub fn after_death(look: Look<'_>, found: &mut Found) {
    let Some((path, died)) = death::dated(look.case) else { return };
    let mut lived = |at: &str, what: &str, date: Option<Date>| {
        if let Some(date) = date.filter(|date| *date > died) {
            found.conflict(&[at, &path], format!("{what} on {date} lies after the death on {died}."));
        }
    };
    lived("discharge.on", "The discharge", look.case.discharge.on);
    for (i, visit) in look.case.visits.iter().enumerate() {
        lived(&format!("visits[{i}].on"), "The visit", visit.on);
    }
}

/// The blood thinner has one dose in its course and another among the medicines.
pub fn blood_thinner_dose(look: Look<'_>, found: &mut Found) {
    let Some(course) = look.case.aftercare.vte.dose.as_deref() else { return };
    let doses: Vec<_> = blood_thinners(look.case)
        .into_iter()
        .filter_map(|(i, medicine)| Some((i, medicine.dose.as_deref()?)))
        .collect();
    // Several lines of one drug are a course in steps; one of them is to agree.
    if doses.iter().all(|(_, dose)| doses_differ(course, dose))
        && let Some((i, dose)) = doses.first()
    {
        found.conflict(
            &[&format!("discharge.medicines[{i}].dose"), "aftercare.vte.dose"],
            format!("The dose of the blood thinner is {dose} among the medicines, but {course} in its course."),
        );
    }
}

/// The blood thinner ends before the patient goes home, or on another day than its course.
pub fn blood_thinner_dates(look: Look<'_>, found: &mut Found) {
    let Some(until) = blood_thinner_until(look.case) else { return };
    if let Some(home) = look.case.discharge.on.filter(|home| until < *home) {
        found.conflict(
            &["discharge.medicines", "discharge.on"],
            format!("The blood thinner ends on {until}, before the discharge on {home}."),
        );
        return;
    }
    for (_, course) in look.reckoned("vte_dates") {
        let Some(last) = course.value("last_dose_on").and_then(|value| value.as_str()) else { continue };
        if last != until.to_string() {
            found.conflict(
                &["discharge.medicines", "aftercare.vte.days"],
                format!(
                    "The blood thinner ends on {until} among the medicines, but its course of days ends on {last}."
                ),
            );
        }
    }
}
