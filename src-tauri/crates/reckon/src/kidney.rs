//! Kidney function from a creatinine. Two formulas that do not measure the same thing: one is scaled to a body surface
//! of 1.73 m², the other is not.

use crate::given::Given;
use crate::number::{Creatinine, Kilograms, Years};
use crate::sex::{NO_COEFFICIENTS, Sex};
use crate::{Answer, Input, Limits, Reckoning, Refusal, Source};

/// µmol/l of creatinine in 1 mg/dl.
const UMOL_L_IN_MG_DL: f64 = 88.4;
/// Both formulas were made from adults.
const ADULT_FROM_YEARS: f64 = 18.0;
/// Where the age term of Cockcroft and Gault reaches zero.
const AGE_TERM_ENDS_YEARS: f64 = 140.0;
const ADULTS_ONLY: &str = "needs age_years of 18 or more: the formula was made for adults";

const AGE: Input = Input::required("age_years", "years", "age in completed years, 18 or more");
const SEX: Input =
    Input::required("sex", "", "female, male, other or unknown; the formula has numbers for the first two");
const CREATININE: Input =
    Input::required("creatinine_umol_l", "µmol/l", "creatinine in serum, by a method traceable to IDMS");

/// Estimated glomerular filtration rate from creatinine.
pub const EGFR: Reckoning = Reckoning {
    name: "egfr",
    title: "Estimated glomerular filtration rate (CKD-EPI creatinine 2021)",
    formula: "egfr = 142 × min(scr/κ, 1)^α × max(scr/κ, 1)^−1.200 × 0.9938^age (× 1.012 in women); \
              scr = creatinine in µmol/l / 88.4; κ 0.7 in women, 0.9 in men; α −0.241 in women, −0.302 in men",
    inputs: &[AGE, SEX, CREATININE],
    sources: &[Source::published(
        "Inker et al., New creatinine- and cystatin C-based equations to estimate GFR without race",
        2021,
        "N Engl J Med 385:1737",
    )],
    answer: egfr_answer,
};

/// Creatinine clearance.
pub const CREATININE_CLEARANCE: Reckoning = Reckoning {
    name: "creatinine_clearance",
    title: "Creatinine clearance (Cockcroft and Gault)",
    formula: "clearance = (140 − age) × weight in kg / (72 × scr) (× 0.85 in women); scr = creatinine in µmol/l / 88.4",
    inputs: &[AGE, SEX, Input::required("weight_kg", "kg", "body weight as measured, not an ideal one"), CREATININE],
    sources: &[Source::published(
        "Cockcroft and Gault, Prediction of creatinine clearance from serum creatinine",
        1976,
        "Nephron 16:31",
    )],
    answer: clearance_answer,
};

/// Estimates the glomerular filtration rate of an adult in ml/min per 1.73 m²; nothing for other and unknown sex.
pub fn egfr_ml_min(age: Years, sex: Sex, creatinine: Creatinine) -> Option<f64> {
    let (kappa, alpha, factor) = sex.choose((0.7, -0.241, 1.012), (0.9, -0.302, 1.0))?;
    let ratio = creatinine.get() / UMOL_L_IN_MG_DL / kappa;
    Some(142.0 * ratio.min(1.0).powf(alpha) * ratio.max(1.0).powf(-1.2) * 0.9938_f64.powf(age.get()) * factor)
}

/// Estimates the creatinine clearance of an adult in ml/min; nothing for other and unknown sex, or from 140 years on.
pub fn creatinine_clearance_ml_min(age: Years, sex: Sex, weight: Kilograms, creatinine: Creatinine) -> Option<f64> {
    let factor = sex.choose(0.85, 1.0)?;
    let years = AGE_TERM_ENDS_YEARS - age.get();
    (years > 0.0).then(|| years * weight.get() / (72.0 * creatinine.get() / UMOL_L_IN_MG_DL) * factor)
}

fn egfr_answer(given: &mut Given<'_>, _: &Limits) -> Result<Answer, Refusal> {
    let (age, sex) = (given.take::<Years>("age_years"), given.take::<Sex>("sex"));
    let creatinine = given.take::<Creatinine>("creatinine_umol_l");
    let (Some(age), Some(sex), Some(creatinine)) = (age, sex, creatinine) else {
        return Ok(given.needs());
    };
    let mut answer = Answer::of(&EGFR);
    if age.get() < ADULT_FROM_YEARS {
        answer.not_computable = Some(ADULTS_ONLY.into());
        return Ok(answer);
    }
    match egfr_ml_min(age, sex, creatinine) {
        None => answer.not_computable = Some(NO_COEFFICIENTS.into()),
        Some(egfr) => {
            answer.number("egfr_ml_min_1_73m2", egfr, "ml/min per 1.73 m²");
            answer.note("Rounded to four decimals; laboratories report a whole number.");
        }
    }
    Ok(answer)
}

fn clearance_answer(given: &mut Given<'_>, _: &Limits) -> Result<Answer, Refusal> {
    let (age, sex) = (given.take::<Years>("age_years"), given.take::<Sex>("sex"));
    let (weight, creatinine) = (given.take::<Kilograms>("weight_kg"), given.take::<Creatinine>("creatinine_umol_l"));
    let (Some(age), Some(sex), Some(weight), Some(creatinine)) = (age, sex, weight, creatinine) else {
        return Ok(given.needs());
    };
    let mut answer = Answer::of(&CREATININE_CLEARANCE);
    if age.get() < ADULT_FROM_YEARS {
        answer.not_computable = Some(ADULTS_ONLY.into());
        return Ok(answer);
    }
    if age.get() >= AGE_TERM_ENDS_YEARS {
        answer.not_computable = Some("needs age_years under 140: the formula gives nothing above".into());
        return Ok(answer);
    }
    match creatinine_clearance_ml_min(age, sex, weight, creatinine) {
        None => answer.not_computable = Some(NO_COEFFICIENTS.into()),
        Some(clearance) => {
            answer.number("creatinine_clearance_ml_min", clearance, "ml/min");
            answer.note("Not scaled to body surface. Rounded to four decimals; a whole number is usually printed.");
        }
    }
    Ok(answer)
}
