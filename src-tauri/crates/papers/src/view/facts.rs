//! Facts that follow from several answers: names joined, durations, sides of a deformity, and the
//! team and the components sorted as a note needs them.

use evengap_case::sections::{Event, EventWhen, Procedure, TeamMember, TeamPart};
use evengap_case::{Case, Date, LocalTime};
use evengap_review::{blood_thinner_until, is_to_come, says_none};
use serde_json::{Map, Value, json};

use super::Printer;
use crate::drawings;
use crate::words::{Derived, Words};

/// Adds `derived` to the view, and the minutes of each inflation to its record.
pub(super) fn add(root: &mut Map<String, Value>, case: &Case, printer: &Printer, unfinished: &[String]) {
    let words = &printer.words.derived;
    let with = |wanted: TeamPart| people(case, |part| part == Some(wanted), printer.words);
    let derived = json!({
        "patient_name": patient_name(case),
        "age_years": age_years(case).map(|age| age.to_string()),
        "operation": operation(case, printer.words),
        "operating_names": operating_names(case),
        "operating": with(TeamPart::OperatingSurgeon),
        "responsible": with(TeamPart::ResponsibleSurgeon),
        "supervising": with(TeamPart::SupervisingSurgeon),
        "assisting": with(TeamPart::Assistant),
        "anaesthetists": with(TeamPart::Anaesthetist),
        "scrub": with(TeamPart::ScrubPractitioner),
        "others": people(case, |part| matches!(part, None | Some(TeamPart::Other)), printer.words),
        "did": did(case, printer.words),
        "signing": case.team.iter().find(|m| m.part == Some(TeamPart::OperatingSurgeon))
            .and_then(|member| with_details(member, printer.words)),
        "attending": attending(case),
        "operation_minutes": minutes(case.times.incision, case.times.closed),
        "coronal_deformity": case.knee.deformity.coronal_deg.map(|deg| printer.leaning(deg, [&words.varus, &words.valgus], &words.no_coronal_deformity)),
        "femoral_rotation": case.cuts.femoral_rotation_deg.map(|deg| printer.leaning(deg, [&words.internal, &words.external], "0°")),
        "jlca": case.knee.alignment.jlca_deg.map(|deg| printer.leaning(-deg, [&words.varus, &words.valgus], "0°")),
        "has_drawing_of_axis": drawings::has_axis(case),
        "has_drawing_of_balance": drawings::has_balance(case),
        "has_drawing_of_surfaces": drawings::has_surfaces(case),
        "replaced": case.choice.procedure.and_then(|procedure| words.replaced(procedure)),
        "is_partial": case.choice.procedure.is_some_and(is_partial),
        "same_sitting": case.companion.is_some(),
        "stable_in": stable_in(case, true, words),
        "unstable_in": stable_in(case, false, words),
        "events": events(root, case),
        "events_of_stay": events_of_stay(root, case),
        "events_since_discharge": events_since_discharge(root, case),
        "beyond_straight": {
            "before_operation": beyond_straight(case.knee.range_before.extension_deg, printer),
            "at_end": beyond_straight(case.balance.r#final.extension_deg, printer),
            "at_discharge": beyond_straight(case.discharge.range.extension_deg, printer),
        },
        "anticoagulant": drug(case.patient.anticoagulant.as_deref()),
        "blood_thinner": drug(case.aftercare.vte.drug.as_deref()),
        "dates": dates(case, printer),
        "wound_check_to_come": to_come(case, case.aftercare.wound_check_on),
        "closure_removal_to_come": to_come(case, case.aftercare.closure_removal_on),
        "blood_thinner_until": blood_thinner_until(case).map(|date| printer.day(date)),
        "unfinished": unfinished,
    });
    root.insert("derived".into(), derived);
    let inflations = root.get_mut("anaesthesia").and_then(|v| v.pointer_mut("/tourniquet/inflations"));
    if let Some(Value::Array(items)) = inflations {
        for (item, inflation) in items.iter_mut().zip(&case.anaesthesia.tourniquet.inflations) {
            item["minutes"] = json!(minutes(inflation.up_at, inflation.down_at));
        }
    }
}

fn patient_name(case: &Case) -> Option<String> {
    let names: Vec<_> = [&case.patient.given_name, &case.patient.family_name].into_iter().flatten().cloned().collect();
    (!names.is_empty()).then(|| names.join(" "))
}

/// Calendar years on the day of the operation; a birthday on 29 February turns on 1 March.
fn age_years(case: &Case) -> Option<u32> {
    case.setting.operation_date?.0.years_since(case.patient.birth_date?.0)
}

fn is_partial(procedure: Procedure) -> bool {
    matches!(procedure, Procedure::MedialPartial | Procedure::LateralPartial | Procedure::Patellofemoral)
}

/// Names the operation with its side: "right total knee replacement".
fn operation(case: &Case, words: &Words) -> Option<String> {
    use Procedure::*;
    let code = case.choice.procedure?;
    let procedure = match code {
        // "Other" is an answer of the form and no name.
        Other => &words.derived.operation,
        _ => words.code("/choice/procedure", code.code()).unwrap_or(code.words()),
    };
    let Some(side) = case.knee.side else { return Some(procedure.to_owned()) };
    let side_words = words.code("/knee/side", side.code()).unwrap_or(side.words());
    Some(match code {
        Total | MedialPartial | LateralPartial | Patellofemoral | Bicompartmental => {
            words.derived.operation_of_side.fill(&[("side", side_words), ("procedure", procedure)])
        }
        _ => words.derived.operation_in_knee.fill(&[("procedure", procedure), ("knee", words.knee.of(side))]),
    })
}

/// Lists the people whose part fits: "Ines Halloran (consultant, reg. 4471)".
fn people(case: &Case, fits: impl Fn(Option<TeamPart>) -> bool, words: &Words) -> Vec<String> {
    let members = case.team.iter().filter(|member| fits(member.part));
    members.filter_map(|member| with_details(member, words)).collect()
}

/// Names the operating surgeons and nothing else, for a small sheet.
fn operating_names(case: &Case) -> Vec<&str> {
    let operating = case.team.iter().filter(|member| member.part == Some(TeamPart::OperatingSurgeon));
    operating.filter_map(|member| member.person.as_deref()).collect()
}

/// Names the surgeon who answers for the patient: the responsible one, or else the operating one.
fn attending(case: &Case) -> Option<&str> {
    let named = |part| case.team.iter().filter(move |m| m.part == Some(part)).find_map(|m| m.person.as_deref());
    named(TeamPart::ResponsibleSurgeon).or_else(|| named(TeamPart::OperatingSurgeon))
}

fn with_details(member: &TeamMember, words: &Words) -> Option<String> {
    let name = member.person.clone()?;
    let registration = member.registration.as_deref();
    let registration = registration.map(|number| words.derived.registration.fill(&[("number", number)]));
    let details: Vec<_> = member.grade.clone().into_iter().chain(registration).collect();
    Some(if details.is_empty() { name } else { format!("{name} ({})", details.join(", ")) })
}

fn did(case: &Case, words: &Words) -> Value {
    let members = case.team.iter().filter(|member| member.did.is_some());
    let named = |m: &TeamMember| m.person.clone().unwrap_or_else(|| words.derived.not_named.clone());
    members.map(|m| json!({ "person": named(m), "did": m.did })).collect()
}

fn minutes(from: Option<LocalTime>, to: Option<LocalTime>) -> Option<String> {
    Some((to?.0 - from?.0).num_minutes()).filter(|minutes| *minutes >= 0).map(|minutes| minutes.to_string())
}

/// The events by day, those of the operation itself first and those without a day last.
fn events(root: &Map<String, Value>, case: &Case) -> Value {
    by_day(in_words(root.get("events"), &case.events))
}

/// Pairs events with their words.
fn in_words<'a>(words: Option<&'a Value>, events: &'a [Event]) -> Vec<(&'a Value, &'a Event)> {
    words.and_then(Value::as_array).map(Vec::as_slice).unwrap_or_default().iter().zip(events).collect()
}

fn by_day(mut events: Vec<(&Value, &Event)>) -> Value {
    let later = |event: &Event| !matches!(event.when, None | Some(EventWhen::Intraoperative));
    events.sort_by_key(|(_, event)| (later(event), event.on.is_none(), event.on));
    events.into_iter().map(|(words, _)| words.clone()).collect()
}

/// Tells whether an event came after the patient had left; what says nothing of it belongs to the stay.
fn is_since_discharge(case: &Case, event: &Event) -> bool {
    match event.when {
        Some(when) => when == EventWhen::AfterDischarge,
        None => matches!((event.on, case.discharge.on), (Some(on), Some(home)) if on > home),
    }
}

fn events_of_stay(root: &Map<String, Value>, case: &Case) -> Value {
    let mut events = in_words(root.get("events"), &case.events);
    events.retain(|(_, event)| !is_since_discharge(case, event));
    by_day(events)
}

/// The events after discharge, those of the visits among them; one that stands in both places comes once.
fn events_since_discharge(root: &Map<String, Value>, case: &Case) -> Value {
    let mut events = in_words(root.get("events"), &case.events);
    events.retain(|(_, event)| is_since_discharge(case, event));
    let visits = root.get("visits").and_then(Value::as_array).map(Vec::as_slice).unwrap_or_default();
    for (words, visit) in visits.iter().zip(&case.visits) {
        for (words, event) in in_words(words.get("events"), &visit.events) {
            let known = events.iter().any(|(_, known)| (known.what, known.on) == (event.what, event.on));
            if !known {
                events.push((words, event));
            }
        }
    }
    by_day(events)
}

/// How far a knee goes beyond straight, in degrees: a lack of extension below 0.
fn beyond_straight(extension_deg: Option<f64>, printer: &Printer) -> Option<String> {
    extension_deg.filter(|deg| *deg < 0.0).map(|deg| printer.number(-deg))
}

/// Gives what was typed as the name of a drug, unless it says that there is none.
fn drug(typed: Option<&str>) -> Option<&str> {
    typed.filter(|typed| !says_none(typed))
}

/// The positions in which the knee was stable, or was not.
fn stable_in<'a>(case: &Case, stable: bool, words: &'a Derived) -> Vec<&'a str> {
    let last = &case.balance.r#final;
    let positions = [
        (last.stable_extension, words.extension.as_str()),
        (last.stable_mid_flexion, &words.mid_flexion),
        (last.stable_flexion, &words.flexion),
    ];
    positions.into_iter().filter(|(recorded, _)| *recorded == Some(stable)).map(|(_, name)| name).collect()
}

/// Tells whether something is still to come after going home; what has no day is not.
fn to_come(case: &Case, on: Option<Date>) -> bool {
    on.is_some_and(|on| is_to_come(case, on))
}

/// What awaits the patient after going home, by date; reviews without a date stand last.
fn dates(case: &Case, printer: &Printer) -> Value {
    let care = &case.aftercare;
    let mut dates = vec![
        (care.wound_check_on, "wound_check", None, None),
        (care.closure_removal_on, "closure_removal", None, care.closure_removal_by.as_deref()),
        (care.bloods_on, "bloods", None, None),
        (care.film_on, "film", None, None),
    ];
    dates.retain(|(on, ..)| on.is_some());
    dates.extend(care.reviews.iter().map(|r| (r.on, "review", r.what.as_deref(), r.with.as_deref())));
    dates.retain(|(on, ..)| on.is_none() || to_come(case, *on));
    dates.sort_by_key(|(on, ..)| (on.is_none(), *on));
    dates
        .into_iter()
        .map(|(on, kind, what, with)| json!({ "on": on.map(|on| printer.day(on)), "kind": kind, "what": what, "with": with }))
        .collect()
}
