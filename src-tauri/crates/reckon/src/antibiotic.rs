//! The antibiotic before the incision: how long before, the dose of the table at this weight, and when the redosing
//! interval of the table has passed. Knows no allergy and orders nothing.

use crate::given::Given;
use crate::{Answer, AntibioticLine, Input, Kilograms, Limits, Milligrams, Moment, Reckoning, Refusal, Source};

/// Computes the minutes from the start of the dose to the incision; negative where it came after the incision.
pub fn minutes_before(given_at: Moment, incision_at: Moment) -> Result<f64, Refusal> {
    incision_at.since("incision_at", given_at, "given_at")
}

/// Tells whether a dose began before the incision and within the window; both edges count as within.
pub fn within_window(minutes_before: f64, window_min: f64) -> bool {
    (0.0..=window_min).contains(&minutes_before)
}

/// The dose that the table names.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum TableDose {
    /// In mg, at this weight.
    Mg(f64),
    /// It depends on the weight, which is not known.
    NeedsWeight,
    /// The table names none.
    NotListed,
}

/// Finds the dose that a line of the table names at a weight.
pub fn table_dose(line: &AntibioticLine, weight: Option<Kilograms>) -> TableDose {
    match (weight, line.heavy_from_kg.zip(line.heavy_dose_mg), line.dose_mg, line.dose_mg_per_kg) {
        (Some(weight), Some((from, dose)), ..) if weight.get() >= from => TableDose::Mg(dose),
        (None, Some(_), ..) => TableDose::NeedsWeight,
        (_, _, Some(dose), _) => TableDose::Mg(dose),
        (Some(weight), _, None, Some(per_kg)) => TableDose::Mg(per_kg * weight.get()),
        (None, _, None, Some(_)) => TableDose::NeedsWeight,
        (_, _, None, None) => TableDose::NotListed,
    }
}

/// The moment at which the redosing interval of a line ends, counted from the dose before the operation.
pub fn redose_due(line: &AntibioticLine, given_at: Moment) -> Option<Moment> {
    given_at.later_by(line.redose_min?)
}

/// The reckoning as data.
pub const RECKONING: Reckoning = Reckoning {
    name: "antibiotic_timing",
    title: "Antibiotic before the incision",
    formula: "minutes before = incision − start of the dose; redosing interval ends at start of the dose + interval",
    inputs: &[
        Input::required("drug", "", "name of the antibiotic"),
        Input::required("given_at", "", "start of the dose: YYYY-MM-DDTHH:MM, or minutes"),
        Input::required("incision_at", "", "incision, given in the same way"),
        Input::optional("closed_at", "", "wound closed, given in the same way"),
        Input::optional("dose_mg", "mg", "dose given"),
        Input::optional("weight_kg", "kg", "body weight"),
    ],
    sources: &[Source::published(
        "Bratzler et al. (ASHP, IDSA, SIS, SHEA), antimicrobial prophylaxis in surgery",
        2013,
        "Am J Health Syst Pharm 70:195",
    )],
    answer,
};

fn answer(given: &mut Given<'_>, limits: &Limits) -> Result<Answer, Refusal> {
    let drug = given.take::<String>("drug");
    let (given_at, incision_at) = (given.take("given_at"), given.take("incision_at"));
    let closed_at = given.take::<Moment>("closed_at");
    let (dose, weight) = (given.take::<Milligrams>("dose_mg"), given.take::<Kilograms>("weight_kg"));
    let (Some(drug), Some(given_at), Some(incision_at)) = (drug, given_at, incision_at) else {
        return Ok(given.needs());
    };
    let line = limits.antibiotic(&drug);
    let window = line.map_or(limits.antibiotic_window_min.value, |line| line.window_min);
    let minutes = minutes_before(given_at, incision_at)?;
    if let Some(closed_at) = closed_at
        && closed_at.since("closed_at", incision_at, "incision_at")? < 0.0
    {
        return Err(Refusal::of("closed_at", "the wound cannot be closed before incision_at; check both times."));
    }

    let mut answer = Answer::of(&RECKONING);
    answer.number("minutes_before_incision", minutes, "min");
    answer.number("window_min", window, "min");
    answer.yes_no("within_window", within_window(minutes, window));
    const IN_TABLE: &[&str] = &["a line for this drug in antibiotics"];
    match line.map(|line| table_dose(line, weight)) {
        Some(TableDose::Mg(named)) => {
            answer.number("table_dose_mg", named, "mg");
            let over = dose.map(|dose| dose.get() - named);
            answer.number_or("dose_minus_table_mg", over, "mg", &["dose_mg"]);
        }
        Some(TableDose::NeedsWeight) => answer.lacks("table_dose_mg", "mg", &["weight_kg"]),
        Some(TableDose::NotListed) | None => answer.lacks("table_dose_mg", "mg", IN_TABLE),
    }
    match line {
        Some(line) => {
            let due = redose_due(line, given_at);
            match due {
                Some(due) => answer.push(
                    "redosing_interval_ends_at",
                    due.to_value(),
                    if matches!(due, Moment::Minute(_)) { "min" } else { "" },
                ),
                None => answer.note("The table names no redosing interval for this drug."),
            }
            match (due, closed_at) {
                (Some(due), Some(closed_at)) => {
                    let left = closed_at.since("closed_at", due, "given_at")?;
                    answer.yes_no("interval_ended_before_closure", left > 0.0);
                }
                (Some(_), None) => answer.lacks("interval_ended_before_closure", "", &["closed_at"]),
                (None, _) => {}
            }
        }
        None => answer.lacks("redosing_interval_ends_at", "", IN_TABLE),
    }
    answer.limits = line.map_or_else(|| limits.rows(&["antibiotic_window_min"]), AntibioticLine::rows);
    answer.note("A dose that began at the incision or exactly at the edge of the window counts as within it.");
    if minutes < 0.0 {
        answer.note("The dose began after the incision.");
    }
    if line.is_none() {
        answer.note("This drug is not in the table: the general window was taken, and no dose or interval is named.");
    }
    Ok(answer)
}
