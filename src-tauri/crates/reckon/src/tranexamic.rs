//! Tranexamic acid: the sum of all doses, whatever the route.

use crate::given::{Given, codes};
use crate::{Answer, Input, Limits, Milligrams, Reckoning, Refusal, Source};

codes! {
    /// The way in which a dose was given.
    pub enum Route {
        Intravenous = "intravenous" => "intravenous",
        Topical = "topical" => "topical",
        Oral = "oral" => "oral",
    }
}

/// Sums doses; mg.
pub fn total_mg(doses: &[Milligrams]) -> f64 {
    doses.iter().map(|dose| dose.get()).sum()
}

/// The reckoning as data.
pub const RECKONING: Reckoning = Reckoning {
    name: "tranexamic_total",
    title: "Tranexamic acid in total",
    formula: "total = sum of all doses, whatever the route",
    inputs: &[Input::required("doses", "", "list of doses").lines(&[
        Input::optional("route", "", "intravenous, topical or oral"),
        Input::required("dose_mg", "mg", "dose"),
    ])],
    sources: &[Source::published("NICE NG157, joint replacement (primary): hip, knee and shoulder", 2020, "NICE")],
    answer,
};

fn answer(given: &mut Given<'_>, limits: &Limits) -> Result<Answer, Refusal> {
    let doses = given.lines("doses", |line| {
        line.take::<Route>("route");
        line.take::<Milligrams>("dose_mg")
    });
    let Some(doses) = doses else { return Ok(given.needs()) };
    let total = total_mg(&doses);
    let mut answer = Answer::of(&RECKONING);
    answer.number("total_mg", total, "mg");
    answer.yes_no("over_limit", total > limits.tranexamic_total_mg.value);
    answer.limits = limits.rows(&["tranexamic_total_mg"]);
    answer.note("The limit itself is not over. The same guideline names a lower intravenous dose where the kidneys are impaired.");
    Ok(answer)
}
