//! The clock and the calendar run forwards.

use evengap_case::{Date, LocalTime};

use super::Look;
use crate::finding::Found;

/// The times of the operation, of each inflation and of each mix, in their order.
pub fn order(look: Look<'_>, found: &mut Found) {
    let times = &look.case.times;
    forwards(
        found,
        &[
            ("times.into_theatre".into(), "Into theatre", times.into_theatre),
            ("times.anaesthesia_start".into(), "the start of anaesthesia", times.anaesthesia_start),
            ("times.incision".into(), "the incision", times.incision),
            ("times.closed".into(), "wound closed", times.closed),
            ("times.out_of_theatre".into(), "out of theatre", times.out_of_theatre),
        ],
    );
    for (i, inflation) in look.case.anaesthesia.tourniquet.inflations.iter().enumerate() {
        let at = |name: &str| format!("anaesthesia.tourniquet.inflations[{i}].{name}");
        forwards(
            found,
            &[(at("up_at"), "tourniquet up", inflation.up_at), (at("down_at"), "tourniquet down", inflation.down_at)],
        );
    }
    for (i, mix) in look.case.cement.mixes.iter().enumerate() {
        let at = |name: &str| format!("cement.mixes[{i}].{name}");
        forwards(
            found,
            &[
                (at("mixed_at"), "cement mixed", mix.mixed_at),
                (at("applied_at"), "cement applied", mix.applied_at),
                (at("seated_at"), "component seated", mix.seated_at),
                (at("hard_at"), "cement hard", mix.hard_at),
            ],
        );
    }
}

fn forwards(found: &mut Found, steps: &[(String, &str, Option<LocalTime>)]) {
    let recorded: Vec<_> = steps.iter().filter_map(|(path, name, time)| Some((path, name, (*time)?))).collect();
    for pair in recorded.windows(2) {
        let [(before_path, before, earlier), (after_path, after, later)] = pair else { continue };
        if later < earlier {
            found.conflict(
                &[after_path, before_path],
                format!(
                    "{} ({}) lies before {} ({}).",
                    capital(after),
                    spoken(*later),
                    before.to_lowercase(),
                    spoken(*earlier)
                ),
            );
        }
    }
}

fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map(|first| first.to_uppercase().chain(chars).collect()).unwrap_or_default()
}

/// Cement that was hard, or a tourniquet that went down, after the patient had left.
pub fn drugs_after_leaving(look: Look<'_>, found: &mut Found) {
    let Some(out) = look.case.times.out_of_theatre else { return };
    let mut late = |path: String, what: &str, time: Option<LocalTime>| {
        if let Some(time) = time.filter(|time| *time > out) {
            found.conflict(
                &[&path, "times.out_of_theatre"],
                format!("{what} ({}) lies after the patient left theatre ({}).", spoken(time), spoken(out)),
            );
        }
    };
    for (i, dose) in look.case.anaesthesia.antibiotics.iter().enumerate() {
        late(format!("anaesthesia.antibiotics[{i}].given_at"), "An antibiotic", dose.given_at);
    }
    for (i, inflation) in look.case.anaesthesia.tourniquet.inflations.iter().enumerate() {
        late(format!("anaesthesia.tourniquet.inflations[{i}].down_at"), "Tourniquet down", inflation.down_at);
    }
    for (i, mix) in look.case.cement.mixes.iter().enumerate() {
        late(format!("cement.mixes[{i}].seated_at"), "A component seated", mix.seated_at);
    }
}

/// A time of the operation that lies more than a day from it: a slip of the date.
pub fn day_of_operation(look: Look<'_>, found: &mut Found) {
    let case = look.case;
    let Some(day) = case.setting.operation_date else { return };
    let mut near = |path: String, what: &str, time: Option<LocalTime>| {
        if let Some(time) = time.filter(|time| (time.0.date() - day.0).num_days().abs() > 1) {
            found.conflict(
                &[&path, "setting.operation_date"],
                format!("{what} is timed at {}, but the operation is dated {day}.", spoken(time)),
            );
        }
    };
    let times = &case.times;
    near("times.into_theatre".into(), "Into theatre", times.into_theatre);
    near("times.anaesthesia_start".into(), "The start of anaesthesia", times.anaesthesia_start);
    near("times.incision".into(), "The incision", times.incision);
    near("times.closed".into(), "The closure", times.closed);
    near("times.out_of_theatre".into(), "Out of theatre", times.out_of_theatre);
    for (i, dose) in case.anaesthesia.antibiotics.iter().enumerate() {
        near(format!("anaesthesia.antibiotics[{i}].given_at"), "An antibiotic", dose.given_at);
    }
    for (i, dose) in case.anaesthesia.tranexamic.iter().enumerate() {
        near(format!("anaesthesia.tranexamic[{i}].given_at"), "Tranexamic acid", dose.given_at);
    }
    for (i, one) in case.anaesthesia.tourniquet.inflations.iter().enumerate() {
        near(format!("anaesthesia.tourniquet.inflations[{i}].up_at"), "Tourniquet up", one.up_at);
        near(format!("anaesthesia.tourniquet.inflations[{i}].down_at"), "Tourniquet down", one.down_at);
    }
    for (i, mix) in case.cement.mixes.iter().enumerate() {
        near(format!("cement.mixes[{i}].mixed_at"), "A mix of cement", mix.mixed_at);
        near(format!("cement.mixes[{i}].hard_at"), "Cement hard", mix.hard_at);
    }
    // The date of the operation is the day of the incision.
    if let Some(incision) = times.incision.filter(|incision| incision.0.date() < day.0) {
        found.conflict(
            &["times.incision", "setting.operation_date"],
            format!("The incision is timed at {}, the day before the operation is dated.", spoken(incision)),
        );
    }
}

fn spoken(time: LocalTime) -> String {
    time.0.format("%H:%M on %Y-%m-%d").to_string()
}

/// Birth, consent, admission, operation, discharge, visits, end: the calendar in its order.
pub fn dates(look: Look<'_>, found: &mut Found) {
    let case = look.case;
    let Some(day) = case.setting.operation_date else { return };
    let mut not_after = |path: &str, what: &str, date: Option<Date>| {
        if let Some(date) = date.filter(|date| *date > day) {
            found.conflict(
                &[path, "setting.operation_date"],
                format!("{what} on {date} lies after the operation on {day}."),
            );
        }
    };
    not_after("patient.birth_date", "The birth", case.patient.birth_date);
    not_after("choice.consent.on", "The consent", case.choice.consent.on);
    not_after("setting.admitted_on", "The admission", case.setting.admitted_on);
    not_after("knee.bloods_before.on", "The blood test before the operation", case.knee.bloods_before.on);
    for (i, score) in case.knee.scores.iter().enumerate() {
        not_after(&format!("knee.scores[{i}].on"), "The score before the operation", score.on);
    }
    for (i, earlier) in case.knee.previous_surgery.iter().enumerate() {
        not_after(&format!("knee.previous_surgery[{i}].on"), "The earlier operation", earlier.on);
    }
    let mut not_before = |path: &str, what: &str, date: Option<Date>| {
        if let Some(date) = date.filter(|date| *date < day) {
            found.conflict(
                &[path, "setting.operation_date"],
                format!("{what} on {date} lies before the operation on {day}."),
            );
        }
    };
    not_before("discharge.on", "The discharge", case.discharge.on);
    not_before("aftercare.wound_check_on", "The wound check", case.aftercare.wound_check_on);
    not_before("aftercare.closure_removal_on", "The removal of stitches or clips", case.aftercare.closure_removal_on);
    not_before("end.died_on", "The death", case.end.died_on);
    not_before("end.revised.on", "The revision", case.end.revised.on);
    for (i, visit) in case.visits.iter().enumerate() {
        not_before(&format!("visits[{i}].on"), "The visit", visit.on);
    }
    for (i, event) in case.events.iter().enumerate() {
        not_before(&format!("events[{i}].on"), "The event", event.on);
    }
}
