//! The last day of a course against blood clots, from its first day and its length.

use chrono::{Datelike, Days, NaiveDate};

use crate::given::Given;
use crate::{Answer, Count, Day, Input, Limits, Reckoning, Refusal, Source};

/// The last year that `YYYY-MM-DD` can write.
const LAST_YEAR: i32 = 9999;

/// Finds the day of the last dose: the first day counts as day one. Refuses a course of no days, and one that ends in a
/// year of five digits.
pub fn last_dose_on(first: Day, days: Count) -> Result<Day, Refusal> {
    let Some(further) = days.get().checked_sub(1) else {
        return Err(Refusal::of("days", "a course lasts at least one day (got 0)."));
    };
    let last = first.0.checked_add_days(Days::new(u64::from(further))).filter(|last| last.year() <= LAST_YEAR);
    last.map(Day)
        .ok_or_else(|| Refusal::of("first_dose_on", format!("the course ends after {LAST_YEAR}; check the year.")))
}

/// The reckoning as data.
pub const RECKONING: Reckoning = Reckoning {
    name: "vte_dates",
    title: "Course against blood clots",
    formula: "last dose on = first dose on + days − 1",
    inputs: &[
        Input::required("first_dose_on", "", "day of the first dose: YYYY-MM-DD"),
        Input::required("days", "days", "length of the course; the first day counts as one"),
        Input::optional("operation_on", "", "day of the operation: YYYY-MM-DD"),
    ],
    sources: &[
        Source::published(
            "Falck-Ytter et al. (CHEST, 9th edition), prevention of VTE in orthopedic surgery patients",
            2012,
            "Chest 141(2 Suppl):e278S",
        ),
        Source::from_memory(
            "NICE NG89, venous thromboembolism in over 16s (14 days after knee replacement)",
            2018,
            "NICE",
        ),
    ],
    answer,
};

fn answer(given: &mut Given<'_>, limits: &Limits) -> Result<Answer, Refusal> {
    let (first, days) = (given.take::<Day>("first_dose_on"), given.take::<Count>("days"));
    let operation = given.take::<Day>("operation_on");
    let (Some(first), Some(days)) = (first, days) else { return Ok(given.needs()) };
    let last = last_dose_on(first, days)?;
    let written = |day: NaiveDate| day.format("%Y-%m-%d").to_string();
    let mut answer = Answer::of(&RECKONING);
    answer.text("last_dose_on", written(last.0));
    let length = f64::from(days.get());
    answer.yes_no("under_shortest_course", length < limits.vte_least_days.value);
    answer.yes_no("over_longest_course", length > limits.vte_most_days.value);
    if let Some(operation) = operation {
        answer.number("last_dose_days_after_operation", (last.0 - operation.0).num_days() as f64, "days");
    }
    answer.limits = limits.rows(&["vte_least_days", "vte_first_span_days", "vte_most_days"]);
    answer.note("The first day counts as day one; the limits themselves are neither under nor over.");
    Ok(answer)
}
