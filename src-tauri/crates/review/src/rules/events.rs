//! Counts, and “none” beside a list that is not empty.

use evengap_case::sections::{Check, CountResult};

use super::Look;
use crate::finding::Found;

/// A count that was not correct, or not done.
pub fn counts(look: Look<'_>, found: &mut Found) {
    let counts = &look.case.closing.counts;
    for (path, what, result) in [
        ("closing.counts.swabs", "swab", counts.swabs),
        ("closing.counts.sharps", "sharps", counts.sharps),
        ("closing.counts.instruments", "instrument", counts.instruments),
    ] {
        match result {
            Some(CountResult::Incorrect) => {
                found.caution(&[path], format!("The {what} count is recorded as incorrect.")).blocking();
            }
            Some(CountResult::NotDone) => {
                found.caution(&[path], format!("The {what} count is recorded as not done."));
            }
            Some(CountResult::Correct) | None => {}
        }
    }
}

/// A safety check that is recorded as not done.
pub fn checks(look: Look<'_>, found: &mut Found) {
    let checks = &look.case.anaesthesia.checks;
    for (name, what, check) in [
        ("sign_in", "sign in", checks.sign_in),
        ("time_out", "time out", checks.time_out),
        ("sign_out", "sign out", checks.sign_out),
        ("side_confirmed", "check of the side", checks.side_confirmed),
        ("implants_confirmed_by_two", "check of the implants by two people", checks.implants_confirmed_by_two),
    ] {
        if check == Some(Check::NotDone) {
            found.caution(&[&format!("anaesthesia.checks.{name}")], format!("The {what} is recorded as not done."));
        }
    }
}

/// “None” is ticked beside a list that holds something.
pub fn none_beside_list(look: Look<'_>, found: &mut Found) {
    let case = look.case;
    let mut both = |none: Option<bool>, some: bool, none_path: &str, list_path: &str, what: &str| {
        if none == Some(true) && some {
            found.conflict(&[none_path, list_path], format!("“None” is ticked, but {what} recorded."));
        }
    };
    both(
        case.patient.none_recorded,
        !case.patient.allergies.is_empty(),
        "patient.none_recorded",
        "patient.allergies",
        "an allergy is",
    );
    both(
        case.knee.none_recorded,
        !case.knee.previous_surgery.is_empty(),
        "knee.none_recorded",
        "knee.previous_surgery",
        "previous surgery is",
    );
    both(
        case.approach.none_recorded,
        !case.approach.releases.is_empty(),
        "approach.none_recorded",
        "approach.releases",
        "a release is",
    );
    both(
        case.closing.none_recorded,
        !case.closing.specimens.is_empty(),
        "closing.none_recorded",
        "closing.specimens",
        "a specimen is",
    );
    both(case.none_recorded, !case.events.is_empty(), "none_recorded", "events", "an event is");
    for (i, visit) in case.visits.iter().enumerate() {
        let (none, list) = (format!("visits[{i}].none_recorded"), format!("visits[{i}].events"));
        both(visit.none_recorded, !visit.events.is_empty(), &none, &list, "an event is");
    }
}

/// An event that names a component which is not in the list.
pub fn component(look: Look<'_>, found: &mut Found) {
    for (i, event) in look.case.events.iter().enumerate() {
        if event.component.is_some_and(|index| index.0 as usize >= look.case.components.len()) {
            found
                .conflict(&[&format!("events[{i}].component")], "The event names a component that is not in the list.");
        }
    }
}
