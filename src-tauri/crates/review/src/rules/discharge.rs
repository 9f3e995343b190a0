//! Going home: somebody to call, and an end to the blood thinner.

use super::Look;
use crate::finding::Found;
use crate::letter::{blood_thinner_until, unfinished_letter};

/// No telephone number on the letter of a patient who goes home.
pub fn phone(look: Look<'_>, found: &mut Found) {
    copy(look, found, "discharge.contact_phone");
}

/// A blood thinner without a last day.
pub fn blood_thinner(look: Look<'_>, found: &mut Found) {
    copy(look, found, "discharge.medicines");
}

/// The letter's own reasons, as findings, once the day of discharge is recorded; before it they are no news.
fn copy(look: Look<'_>, found: &mut Found, path: &str) {
    if look.case.discharge.on.is_none() {
        return;
    }
    for reason in unfinished_letter(look.case).into_iter().filter(|reason| reason.paths[0] == path) {
        let paths: Vec<_> = reason.paths.iter().map(String::as_str).collect();
        found.missing(&paths, reason.message).blocking();
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
