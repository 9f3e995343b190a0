//! Body mass index and body surface area.

use crate::given::Given;
use crate::number::{Centimetres, Kilograms};
use crate::{Answer, Input, Limits, Reckoning, Refusal, Source};

/// Each band begins at its number and ends below the next one. kg/m².
const BANDS: [(f64, &str); 6] = [
    (0.0, "underweight"),
    (18.5, "normal range"),
    (25.0, "pre-obese"),
    (30.0, "obese class I"),
    (35.0, "obese class II"),
    (40.0, "obese class III"),
];

const HEIGHT: Input = Input::required("height_cm", "cm", "height, standing, without shoes");
const WEIGHT: Input = Input::required("weight_kg", "kg", "body weight");

/// Body mass index with the band of the World Health Organization.
pub const BMI: Reckoning = Reckoning {
    name: "bmi",
    title: "Body mass index",
    formula: "bmi = weight in kg / (height in m)²; bands begin at 18.5, 25, 30, 35 and 40 and end below the next number",
    inputs: &[HEIGHT, WEIGHT],
    sources: &[Source::published(
        "World Health Organization, Obesity: preventing and managing the global epidemic",
        2000,
        "WHO Technical Report Series 894",
    )],
    answer: bmi_answer,
};

/// Body surface area.
pub const BSA: Reckoning = Reckoning {
    name: "bsa",
    title: "Body surface area",
    formula: "bsa = √(height in cm × weight in kg / 3600)",
    inputs: &[HEIGHT, WEIGHT],
    sources: &[Source::published(
        "Mosteller, Simplified calculation of body-surface area",
        1987,
        "N Engl J Med 317:1098",
    )],
    answer: bsa_answer,
};

/// Computes the body mass index in kg/m².
pub fn bmi_kg_m2(height: Centimetres, weight: Kilograms) -> f64 {
    // In centimetres, so that a height such as 170 squares exactly and an index of exactly 25 is 25.
    weight.get() * 10_000.0 / (height.get() * height.get())
}

/// Names the band of a body mass index in kg/m²; the bands are half-open.
pub fn bmi_band(bmi_kg_m2: f64) -> &'static str {
    // A billionth of a unit is binary dust, not a difference between bands.
    let settled = (bmi_kg_m2 * 1e9).round() / 1e9;
    BANDS.iter().rev().find(|(from, _)| settled >= *from).map_or(BANDS[0].1, |(_, band)| band)
}

/// Computes the body surface area in m².
pub fn bsa_m2(height: Centimetres, weight: Kilograms) -> f64 {
    (height.get() * weight.get() / 3600.0).sqrt()
}

fn bmi_answer(given: &mut Given<'_>, _: &Limits) -> Result<Answer, Refusal> {
    let (height, weight) = (given.take::<Centimetres>("height_cm"), given.take::<Kilograms>("weight_kg"));
    let (Some(height), Some(weight)) = (height, weight) else {
        return Ok(given.needs());
    };
    let bmi = bmi_kg_m2(height, weight);
    let mut answer = Answer::of(&BMI);
    answer.number("bmi_kg_m2", bmi, "kg/m²");
    answer.text("band", bmi_band(bmi));
    answer
        .note("The band is that of the number before rounding. The bands are for adults and the same for both sexes.");
    Ok(answer)
}

fn bsa_answer(given: &mut Given<'_>, _: &Limits) -> Result<Answer, Refusal> {
    let (height, weight) = (given.take::<Centimetres>("height_cm"), given.take::<Kilograms>("weight_kg"));
    let (Some(height), Some(weight)) = (height, weight) else {
        return Ok(given.needs());
    };
    let mut answer = Answer::of(&BSA);
    answer.number("bsa_m2", bsa_m2(height, weight), "m²");
    answer.note("Rounded to four decimals; two are usually printed.");
    Ok(answer)
}
