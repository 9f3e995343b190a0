//! Local anaesthetics put into the tissues: milligrams, and the fraction of the table's greatest dose that all drugs
//! make together. Where the table has no number, nothing is computed from it.

use crate::given::Given;
use crate::{
    Answer, Input, Kilograms, LimitRow, Limits, LocalAnaestheticLine, Millilitres, Percent, Reckoning, Refusal, Source,
};

/// Computes the mass in mg: 1 % is 10 mg in each ml.
pub fn mass_mg(percent: Percent, volume: Millilitres) -> f64 {
    volume.get() * percent.get() * 10.0
}

/// The greatest dose that a line of the table names, or what it needs.
pub fn greatest_mg(line: &LocalAnaestheticLine, weight: Option<Kilograms>) -> Result<f64, &'static str> {
    match (line.mg_per_kg, line.cap_mg, weight) {
        (None, None, _) => Err("a greatest dose in the table"),
        (Some(_), _, None) => Err("weight_kg"),
        (Some(per_kg), cap, Some(weight)) => Ok((per_kg * weight.get()).min(cap.unwrap_or(f64::INFINITY))),
        (None, Some(cap), _) => Ok(cap),
    }
}

/// One infiltration.
#[derive(Debug, Clone, PartialEq)]
pub struct Infiltration {
    /// Name of the drug.
    pub drug: String,
    /// Strength.
    pub percent: Percent,
    /// Volume.
    pub volume: Millilitres,
    /// With adrenaline.
    pub with_adrenaline: bool,
}

/// One infiltration reckoned.
#[derive(Debug, Clone, PartialEq)]
pub struct Share {
    /// Mass in mg.
    pub mass_mg: f64,
    /// Fraction of the greatest dose, or what it needs.
    pub fraction: Result<f64, String>,
}

/// Computes mass and fraction of each infiltration.
pub fn reckon(infiltrations: &[Infiltration], weight: Option<Kilograms>, limits: &Limits) -> Vec<Share> {
    let share = |one: &Infiltration| {
        let mass_mg = mass_mg(one.percent, one.volume);
        let with = if one.with_adrenaline { "with" } else { "without" };
        let line = limits.local_anaesthetic(&one.drug, one.with_adrenaline);
        let greatest = line.map_or(Err("a greatest dose in the table"), |line| greatest_mg(line, weight));
        let fraction = match greatest {
            Ok(greatest) if greatest > 0.0 => Ok(mass_mg / greatest),
            Ok(_) => Err(format!("a greatest dose above zero for {} {with} adrenaline", one.drug)),
            Err("weight_kg") => Err("weight_kg".into()),
            Err(what) => Err(format!("{what} for {} {with} adrenaline", one.drug)),
        };
        Share { mass_mg, fraction }
    };
    infiltrations.iter().map(share).collect()
}

/// Adds the fractions of all infiltrations; where one cannot be had, says what is needed.
pub fn fraction_together(shares: &[Share]) -> Result<f64, Vec<String>> {
    let mut lacking: Vec<String> = shares.iter().filter_map(|share| share.fraction.clone().err()).collect();
    lacking.dedup();
    if lacking.is_empty() {
        Ok(shares.iter().filter_map(|share| share.fraction.as_ref().ok()).sum())
    } else {
        Err(lacking)
    }
}

/// Tells whether a fraction, rounded to thousandths, is over the whole.
pub fn is_over(fraction: f64) -> bool {
    (fraction * 1000.0).round() > 1000.0
}

/// The reckoning as data.
pub const RECKONING: Reckoning = Reckoning {
    name: "local_anaesthetic",
    title: "Local anaesthetic in total",
    formula: "mg = ml × % × 10; fraction = mg / min(mg/kg × weight, cap); the fractions of all drugs add",
    inputs: &[
        Input::required("infiltrations", "", "list of infiltrations").lines(&[
            Input::required("drug", "", "name of the drug"),
            Input::required("percent", "%", "strength; 1 % is 10 mg in each ml"),
            Input::required("volume_ml", "ml", "volume"),
            Input::optional("with_adrenaline", "", "true or false; left out: false, which is the stricter"),
        ]),
        Input::optional("weight_kg", "kg", "body weight"),
    ],
    sources: &[Source::common_practice("Fractions of the greatest dose of each drug are added")],
    answer,
};

fn answer(given: &mut Given<'_>, limits: &Limits) -> Result<Answer, Refusal> {
    let infiltrations = given.lines("infiltrations", |line| {
        let (drug, percent, volume) = (line.take("drug"), line.take("percent"), line.take("volume_ml"));
        let with_adrenaline = line.take("with_adrenaline").unwrap_or(false);
        Some(Infiltration { drug: drug?, percent: percent?, volume: volume?, with_adrenaline })
    });
    let weight = given.take::<Kilograms>("weight_kg");
    let Some(infiltrations) = infiltrations else { return Ok(given.needs()) };
    let shares = reckon(&infiltrations, weight, limits);

    let mut answer = Answer::of(&RECKONING);
    for (index, (one, share)) in infiltrations.iter().zip(&shares).enumerate() {
        answer.text(format!("drug_{}", index + 1), one.drug.as_str());
        answer.number(format!("mass_{}_mg", index + 1), share.mass_mg, "mg");
        match &share.fraction {
            Ok(fraction) => answer.number(format!("fraction_{}", index + 1), *fraction, ""),
            Err(what) => answer.lacks(format!("fraction_{}", index + 1), "", &[what]),
        }
        let line = limits.local_anaesthetic(&one.drug, one.with_adrenaline);
        let rows: Vec<LimitRow> = line.map_or_else(Vec::new, LocalAnaestheticLine::rows);
        answer.limits.extend(rows);
    }
    answer.number("mass_mg", shares.iter().map(|share| share.mass_mg).sum(), "mg");
    match fraction_together(&shares) {
        Ok(fraction) => {
            answer.number("fraction_together", fraction, "");
            answer.yes_no("over_limit", is_over(fraction));
        }
        Err(lacking) => {
            let lacking: Vec<&str> = lacking.iter().map(String::as_str).collect();
            answer.lacks("fraction_together", "", &lacking);
            // What is known is a lower bound: over already, whatever the rest would add.
            let known = shares.iter().filter_map(|share| share.fraction.as_ref().ok()).sum();
            answer.number("fraction_known", known, "");
            if is_over(known) {
                answer.yes_no("over_limit", true);
            } else {
                answer.lacks("over_limit", "", &lacking);
            }
            answer.note(
                "The known fraction is at least what was given: a drug without a number in the table adds to it.",
            );
        }
    }
    for drug in without_line(&infiltrations, limits) {
        answer.note(format!("{drug} has no line in the table; nothing is computed for it."));
    }
    answer
        .note("The fraction is rounded to thousandths before it is held against the whole (1); 1 itself is not over.");
    Ok(answer)
}

/// Names each drug once for which the table states no dose; with its adrenaline where only that one lacks.
fn without_line(infiltrations: &[Infiltration], limits: &Limits) -> Vec<String> {
    let stated = |drug: &str, with_adrenaline: bool| {
        let line = limits.local_anaesthetic(drug, with_adrenaline);
        line.is_some_and(|line| line.mg_per_kg.is_some() || line.cap_mg.is_some())
    };
    let mut named: Vec<String> = Vec::new();
    for one in infiltrations.iter().filter(|one| !stated(&one.drug, one.with_adrenaline)) {
        let name = match (stated(&one.drug, !one.with_adrenaline), one.with_adrenaline) {
            (false, _) => one.drug.clone(),
            (true, true) => format!("{} with adrenaline", one.drug),
            (true, false) => format!("{} without adrenaline", one.drug),
        };
        if !named.contains(&name) {
            named.push(name);
        }
    }
    named
}
