//! Blood volume, and the blood loss that follows from blood tests before and after an operation.
//!
//! Estimates of what was lost, hidden loss included; not what was seen in suction and swabs.

use crate::given::Given;
use crate::number::{Centimetres, Count, Haematocrit, Haemoglobin, Kilograms, Litres};
use crate::sex::{NO_COEFFICIENTS, Sex};
use crate::{Answer, Input, Limits, Reckoning, Refusal, Source};

const NADLER: Source = Source::published(
    "Nadler, Hidalgo and Bloch, Prediction of blood volume in normal human adults",
    1962,
    "Surgery 51:224",
);
const SEX_ABOUT: &str = "female, male, other or unknown; the formula has numbers for the first two";
/// What stands in for a known blood volume.
const VOLUME: Input =
    Input::optional("blood_volume_l", "l", "blood volume; without it sex, height and weight are needed (Nadler 1962)");
const SEX: Input = Input::optional("sex", "", SEX_ABOUT);
const HEIGHT: Input = Input::optional("height_cm", "cm", "height, where no blood volume is given");
const WEIGHT: Input = Input::optional("weight_kg", "kg", "body weight, where no blood volume is given");

/// Blood volume of an adult.
pub const BLOOD_VOLUME: Reckoning = Reckoning {
    name: "blood_volume",
    title: "Blood volume",
    formula: "men: 0.3669 h³ + 0.03219 w + 0.6041; women: 0.3561 h³ + 0.03308 w + 0.1833; h in m, w in kg, result in litres",
    inputs: &[
        Input::required("sex", "", SEX_ABOUT),
        Input::required("height_cm", "cm", "height, standing, without shoes"),
        Input::required("weight_kg", "kg", "body weight"),
    ],
    sources: &[NADLER],
    answer: volume_answer,
};

/// Blood loss from the haematocrit before and after.
pub const BLOOD_LOSS_HAEMATOCRIT: Reckoning = Reckoning {
    name: "blood_loss_haematocrit",
    title: "Blood loss from haematocrit",
    formula: "loss = blood volume × (before − after) / mean of before and after",
    inputs: &[
        Input::required(
            "haematocrit_before_fraction",
            "",
            "haematocrit before the operation, as a fraction such as 0.41",
        ),
        Input::required("haematocrit_after_fraction", "", "haematocrit afterwards, as a fraction such as 0.34"),
        VOLUME,
        SEX,
        HEIGHT,
        WEIGHT,
    ],
    sources: &[
        Source::published(
            "Gross, Estimating allowable blood loss: corrected for dilution",
            1983,
            "Anesthesiology 58:277",
        ),
        NADLER,
    ],
    answer: haematocrit_answer,
};

/// Blood loss from the haemoglobin balance.
pub const BLOOD_LOSS_HAEMOGLOBIN: Reckoning = Reckoning {
    name: "blood_loss_haemoglobin",
    title: "Blood loss from haemoglobin balance",
    formula: "haemoglobin lost in g = blood volume in l × (before − after) + units of red cells × g in a unit; \
              loss in ml = 1000 × haemoglobin lost / before",
    inputs: &[
        Input::required("haemoglobin_before_g_l", "g/l", "haemoglobin before the operation"),
        Input::required("haemoglobin_after_g_l", "g/l", "haemoglobin afterwards"),
        Input::required(
            "transfused_units",
            "units",
            "units of red cells given between the two tests; 0 where none was",
        ),
        VOLUME,
        SEX,
        HEIGHT,
        WEIGHT,
    ],
    sources: &[
        Source::published(
            "Good, Peterson and Lisander, Tranexamic acid decreases external blood loss but not hidden blood loss in total \
             knee replacement",
            2003,
            "Br J Anaesth 90:596",
        ),
        Source::published(
            "Gao et al., Four methods for calculating blood-loss after total knee arthroplasty",
            2015,
            "Chin Med J 128:2856",
        ),
        NADLER,
    ],
    answer: haemoglobin_answer,
};

/// Computes the blood volume of an adult in litres; nothing for other and unknown sex.
pub fn blood_volume_l(sex: Sex, height: Centimetres, weight: Kilograms) -> Option<f64> {
    let (cube, linear, constant) = sex.choose((0.3561, 0.03308, 0.1833), (0.3669, 0.03219, 0.6041))?;
    Some(cube * (height.get() / 100.0).powi(3) + linear * weight.get() + constant)
}

/// Computes the blood loss in ml; negative where the haematocrit rose.
pub fn blood_loss_haematocrit_ml(volume: Litres, before: Haematocrit, after: Haematocrit) -> f64 {
    let (before, after) = (before.get(), after.get());
    1000.0 * volume.get() * (before - after) / ((before + after) / 2.0)
}

/// Computes haemoglobin lost in g and blood lost in ml; negative where the haemoglobin rose by more than was given.
pub fn blood_loss_haemoglobin(
    volume: Litres,
    before: Haemoglobin,
    after: Haemoglobin,
    transfused: Count,
    unit_g: f64,
) -> (f64, f64) {
    let lost_g = volume.get() * (before.get() - after.get()) + f64::from(transfused.get()) * unit_g;
    (lost_g, 1000.0 * lost_g / before.get())
}

fn volume_answer(given: &mut Given<'_>, _: &Limits) -> Result<Answer, Refusal> {
    let (sex, height) = (given.take::<Sex>("sex"), given.take::<Centimetres>("height_cm"));
    let weight = given.take::<Kilograms>("weight_kg");
    let (Some(sex), Some(height), Some(weight)) = (sex, height, weight) else {
        return Ok(given.needs());
    };
    let mut answer = Answer::of(&BLOOD_VOLUME);
    match blood_volume_l(sex, height, weight) {
        None => answer.not_computable = Some(NO_COEFFICIENTS.into()),
        Some(volume) => {
            answer.number("blood_volume_l", volume, "l");
            answer.note("Made from adults of ordinary build. Rounded to four decimals; two are usually printed.");
        }
    }
    Ok(answer)
}

fn haematocrit_answer(given: &mut Given<'_>, _: &Limits) -> Result<Answer, Refusal> {
    let before = given.take::<Haematocrit>("haematocrit_before_fraction");
    let after = given.take::<Haematocrit>("haematocrit_after_fraction");
    let volume = volume(given)?;
    let (Some(before), Some(after)) = (before, after) else {
        return Ok(given.needs());
    };
    let mut answer = Answer::of(&BLOOD_LOSS_HAEMATOCRIT);
    match volume {
        Err(needs) => answer.not_computable = Some(needs),
        Ok(volume) => {
            let loss = blood_loss_haematocrit_ml(volume, before, after);
            answer.number("blood_volume_l", volume.get(), "l");
            answer.number("blood_loss_ml", loss, "ml");
            if loss < 0.0 {
                answer.note("The haematocrit rose, so the number is below zero and is no loss.");
            }
            answer.note(
                "Holds where the blood volume is the same at both tests and no red cells were given between them.",
            );
            answer.note("Rounded to four decimals; tens of ml are all that the method can tell.");
        }
    }
    Ok(answer)
}

fn haemoglobin_answer(given: &mut Given<'_>, limits: &Limits) -> Result<Answer, Refusal> {
    let before = given.take::<Haemoglobin>("haemoglobin_before_g_l");
    let after = given.take::<Haemoglobin>("haemoglobin_after_g_l");
    let transfused = given.take::<Count>("transfused_units");
    let volume = volume(given)?;
    let (Some(before), Some(after), Some(transfused)) = (before, after, transfused) else {
        return Ok(given.needs());
    };
    let mut answer = Answer::of(&BLOOD_LOSS_HAEMOGLOBIN);
    match volume {
        Err(needs) => answer.not_computable = Some(needs),
        Ok(volume) => {
            let unit_g = limits.red_cell_unit_g.value;
            let (lost_g, lost_ml) = blood_loss_haemoglobin(volume, before, after, transfused, unit_g);
            answer.number("blood_volume_l", volume.get(), "l");
            answer.limits = limits.rows(&["red_cell_unit_g"]);
            answer.number("haemoglobin_loss_g", lost_g, "g");
            answer.number("blood_loss_ml", lost_ml, "ml");
            if lost_ml < 0.0 {
                answer.note("The haemoglobin rose by more than was given, so the number is below zero and is no loss.");
            }
            answer.note("Holds where the blood volume is the same at both tests.");
            answer.note("Rounded to four decimals; tens of ml are all that the method can tell.");
        }
    }
    Ok(answer)
}

/// Takes the blood volume as given, or works it out; the inner error says what is needed.
fn volume(given: &mut Given<'_>) -> Result<Result<Litres, String>, Refusal> {
    let known = given.take::<Litres>("blood_volume_l");
    let (sex, height) = (given.take::<Sex>("sex"), given.take::<Centimetres>("height_cm"));
    let weight = given.take::<Kilograms>("weight_kg");
    if let Some(known) = known {
        return Ok(Ok(known));
    }
    let (Some(sex), Some(height), Some(weight)) = (sex, height, weight) else {
        return Ok(Err("needs blood_volume_l, or sex, height_cm and weight_kg".into()));
    };
    match blood_volume_l(sex, height, weight) {
        Some(volume) => Litres::new("blood_volume_l", volume).map(Ok),
        None => Ok(Err(NO_COEFFICIENTS.into())),
    }
}
