//! Facts that follow from several answers: names joined, durations, sides of a deformity, and the
//! team and the components sorted as a note needs them.

use evengap_case::sections::{Event, EventWhen, Procedure, TeamPart};
use evengap_case::{Case, Date, LocalTime};
use evengap_review::blood_thinner_until;
use serde_json::{Map, Value, json};

use super::Printer;
use super::print::number;
use crate::drawings;

/// Adds `derived` to the view, and the minutes of each inflation to its record.
pub(super) fn add(root: &mut Map<String, Value>, case: &Case, printer: &Printer, unfinished: &[String]) {
    let derived = json!({
        "patient_name": patient_name(case),
        "age_years": age_years(case).map(|age| age.to_string()),
        "operation": operation(case),
        "operating": people(case, TeamPart::OperatingSurgeon),
        "responsible": people(case, TeamPart::ResponsibleSurgeon),
        "supervising": people(case, TeamPart::SupervisingSurgeon),
        "assisting": people(case, TeamPart::Assistant),
        "anaesthetists": people(case, TeamPart::Anaesthetist),
        "scrub": people(case, TeamPart::ScrubPractitioner),
        "others": team_others(case),
        "did": did(case),
        "signing": case.team.iter().find(|m| m.part == Some(TeamPart::OperatingSurgeon))
            .and_then(|m| Some(with_details(m.person.clone()?, [m.grade.clone(), m.registration.clone()]))),
        "operation_minutes": minutes(case.times.incision, case.times.closed),
        "coronal_deformity": case.knee.deformity.coronal_deg.map(|deg| coronal(deg, "varus", "valgus", "none in the coronal plane (0°)")),
        "femoral_rotation": case.cuts.femoral_rotation_deg.map(|deg| coronal(deg, "internal", "external", "0°")),
        "jlca": case.knee.alignment.jlca_deg.map(|deg| coronal(-deg, "varus", "valgus", "0°")),
        "components": components(root),
        "has_drawing_of_axis": drawings::has_axis(case),
        "has_drawing_of_balance": drawings::has_balance(case),
        "has_drawing_of_surfaces": drawings::has_surfaces(case),
        "replaced": replaced(case),
        "is_partial": case.choice.procedure.map(|p| if is_partial(p) { "yes" } else { "no" }),
        "same_sitting": case.companion.is_some(),
        "stable_in": stable_in(case, true),
        "unstable_in": stable_in(case, false),
        "events": events(root, case),
        "dates": dates(case, printer),
        "wound_check_to_come": to_come(case, case.aftercare.wound_check_on),
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
fn operation(case: &Case) -> Option<String> {
    use Procedure::*;
    let procedure = case.choice.procedure?;
    let words = procedure.words();
    Some(match (case.knee.side, procedure) {
        (Some(side), Total | MedialPartial | LateralPartial | Patellofemoral | Bicompartmental) => {
            format!("{} {words}", side.words())
        }
        (Some(side), _) => format!("{words}, {} knee", side.words()),
        (None, _) => words.to_owned(),
    })
}

/// Lists the people with a part: "Ines Halloran (consultant, reg. 4471)".
fn people(case: &Case, part: TeamPart) -> Vec<String> {
    let members = case.team.iter().filter(|member| member.part == Some(part));
    members.filter_map(|m| Some(with_details(m.person.clone()?, [m.grade.clone(), m.registration.clone()]))).collect()
}

fn with_details(name: String, details: [Option<String>; 2]) -> String {
    let [grade, registration] = details;
    let details: Vec<_> = grade.into_iter().chain(registration.map(|r| format!("registration {r}"))).collect();
    if details.is_empty() { name } else { format!("{name} ({})", details.join(", ")) }
}

fn team_others(case: &Case) -> Vec<String> {
    let others = case.team.iter().filter(|m| matches!(m.part, None | Some(TeamPart::Other)));
    others.filter_map(|m| Some(with_details(m.person.clone()?, [m.grade.clone(), m.registration.clone()]))).collect()
}

fn did(case: &Case) -> Value {
    let members = case.team.iter().filter(|member| member.did.is_some());
    members.map(|m| json!({ "person": m.person.as_deref().unwrap_or("Not named"), "did": m.did })).collect()
}

fn minutes(from: Option<LocalTime>, to: Option<LocalTime>) -> Option<String> {
    Some((to?.0 - from?.0).num_minutes()).filter(|minutes| *minutes >= 0).map(|minutes| minutes.to_string())
}

fn coronal(deg: f64, negative: &str, positive: &str, zero: &str) -> String {
    if deg == 0.0 {
        zero.to_owned()
    } else {
        format!("{}° {}", number(deg.abs()), if deg < 0.0 { negative } else { positive })
    }
}

/// The components with their number in the list.
fn components(root: &Map<String, Value>) -> Value {
    let words = root.get("components").and_then(Value::as_array).map(Vec::as_slice).unwrap_or_default();
    words
        .iter()
        .enumerate()
        .map(|(index, words)| {
            let mut words = words.clone();
            words["number"] = json!((index + 1).to_string());
            words
        })
        .collect()
}

/// The events, those of the operation itself first.
fn events(root: &Map<String, Value>, case: &Case) -> Value {
    let words = root.get("events").and_then(Value::as_array).map(Vec::as_slice).unwrap_or_default();
    let later = |event: &Event| !matches!(event.when, None | Some(EventWhen::Intraoperative));
    let mut sorted: Vec<_> = words.iter().zip(&case.events).collect();
    sorted.sort_by_key(|(_, event)| later(event));
    sorted.into_iter().map(|(words, _)| words.clone()).collect()
}

/// The positions in which the knee was stable, or was not.
fn stable_in(case: &Case, stable: bool) -> Vec<&'static str> {
    let last = &case.balance.r#final;
    let positions = [
        (last.stable_extension, "extension"),
        (last.stable_mid_flexion, "mid flexion"),
        (last.stable_flexion, "flexion"),
    ];
    positions.into_iter().filter(|(recorded, _)| *recorded == Some(stable)).map(|(_, name)| name).collect()
}

/// Tells whether a day lies after going home; before the day of discharge is recorded every day does.
fn to_come(case: &Case, on: Option<Date>) -> bool {
    on.is_some_and(|on| case.discharge.on.is_none_or(|home| on > home))
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

/// The surfaces that were replaced, in plain words for the patient.
fn replaced(case: &Case) -> Option<&'static str> {
    use Procedure::*;
    Some(match case.choice.procedure? {
        Total => "the whole knee joint",
        MedialPartial => "the inner half of the knee joint",
        LateralPartial => "the outer half of the knee joint",
        Patellofemoral => "the joint between the kneecap and the thigh bone",
        Bicompartmental => "two of the three parts of the knee joint",
        InsertExchange | RevisionOneComponent | RevisionAll | FirstStageRemoval | SecondStageReimplantation | Other => {
            return None;
        }
    })
}
