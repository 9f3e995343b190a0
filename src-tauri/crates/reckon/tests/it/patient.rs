//! Age, body, blood, kidney and score: check values from outside, edges, refusals and what is not computable.

use serde_json::{Value, json};

use crate::{check, check_needs, check_refused, check_value, result, run};

#[test]
fn values_from_outside() {
    let checks: Vec<Value> = serde_json::from_str(include_str!("../checks/patient.json")).expect("a list");
    for line in &checks {
        let text = |name: &str| line[name].as_str().expect("a text");
        let number = |name: &str| line[name].as_f64().expect("a number");
        let inputs = line["inputs"].clone();
        check(text("reckoning"), inputs, text("output"), number("expected"), number("within"), text("source"));
    }
    for name in [
        "age",
        "bmi",
        "bsa",
        "blood_volume",
        "blood_loss_haematocrit",
        "blood_loss_haemoglobin",
        "egfr",
        "creatinine_clearance",
        "readability",
        "score",
    ] {
        let count = checks.iter().filter(|line| line["reckoning"] == name).count();
        assert!(count >= 2, "{name} must have two values from outside, has {count}");
    }
}

#[test]
fn a_birthday_on_29_february_is_said() {
    let notes = |birth: &str| run("age", json!({ "birth_date": birth, "on_date": "2026-03-04" }))["notes"].to_string();
    assert!(notes("1960-02-29").contains("on 1 March"), "the rule stands beside the number: {}", notes("1960-02-29"));
    assert!(!notes("1960-02-28").contains("on 1 March"), "and nowhere else: {}", notes("1960-02-28"));
}

#[test]
fn bands_are_half_open() {
    let check_band = |weight: f64, height: f64, band: &str, reason: &str| {
        check_value("bmi", json!({ "weight_kg": weight, "height_cm": height }), "band", json!(band), reason);
    };
    check_band(72.25, 170.0, "pre-obese", "exactly 25 begins the band");
    check_band(72.24, 170.0, "normal range", "24.9965 is under 25, although it prints as 25.0");
    check_band(47.36, 160.0, "normal range", "exactly 18.5 begins the band");
    check_band(47.35, 160.0, "underweight", "18.496 is under 18.5");
    check_band(97.2, 180.0, "obese class I", "exactly 30");
    check_band(113.4, 180.0, "obese class II", "exactly 35");
    check_band(129.6, 180.0, "obese class III", "exactly 40");
}

#[test]
fn other_and_unknown_sex_are_not_guessed() {
    let sentence = "needs sex female or male: the formula was published for these two only and has no numbers for other or \
                    unknown";
    for sex in ["other", "unknown"] {
        check_needs("blood_volume", json!({ "sex": sex, "height_cm": 170, "weight_kg": 70 }), sentence);
        check_needs("egfr", json!({ "sex": sex, "age_years": 70, "creatinine_umol_l": 80 }), sentence);
        let inputs = json!({ "sex": sex, "age_years": 70, "creatinine_umol_l": 80, "weight_kg": 70 });
        check_needs("creatinine_clearance", inputs, sentence);
        let inputs = json!({ "haematocrit_before_fraction": 0.4, "haematocrit_after_fraction": 0.3, "sex": sex,
            "height_cm": 170, "weight_kg": 70 });
        check_needs("blood_loss_haematocrit", inputs, sentence);
    }
}

#[test]
fn what_is_lacking_is_named() {
    check_needs("age", json!({ "birth_date": "1956-08-14" }), "needs on_date");
    check_needs("bmi", json!({}), "needs height_cm and weight_kg");
    check_needs("bsa", json!({ "height_cm": 170 }), "needs weight_kg");
    check_needs("egfr", json!({ "age_years": 70 }), "needs creatinine_umol_l and sex");
    check_needs(
        "blood_loss_haemoglobin",
        json!({ "haemoglobin_before_g_l": 140, "haemoglobin_after_g_l": 110, "blood_volume_l": 5 }),
        "needs transfused_units",
    );
    check_needs(
        "blood_loss_haematocrit",
        json!({ "haematocrit_before_fraction": 0.4, "haematocrit_after_fraction": 0.3, "sex": "male" }),
        "needs blood_volume_l, or sex, height_cm and weight_kg",
    );
    check_needs("score", json!({ "score": 30 }), "needs scale");
    check_needs(
        "egfr",
        json!({ "age_years": 17, "sex": "male", "creatinine_umol_l": 80 }),
        "needs age_years of 18 or more: the formula was made for adults",
    );
    let answer = run("score", json!({ "scale": "0-48", "score": 30 }));
    assert_eq!(result(&answer, "change"), Value::Null, "one total alone has no change: {answer}");
}

#[test]
fn impossible_numbers_are_refused() {
    check_refused(
        "age",
        json!({ "birth_date": "2026-03-05", "on_date": "2026-03-04" }),
        "on_date: this day lies before the birth on 2026-03-05.",
    );
    check_refused(
        "age",
        json!({ "birth_date": "1826-03-05", "on_date": "2026-03-04" }),
        "birth_date: this would make an age of 199 years; check the year.",
    );
    check_refused(
        "age",
        json!({ "birth_date": "2023-02-29", "on_date": "2026-03-04" }),
        "birth_date: “2023-02-29” is not a day of the calendar; write it as YYYY-MM-DD, such as 2026-03-04.",
    );
    check_refused(
        "bmi",
        json!({ "weight_kg": -3, "height_cm": 0 }),
        "height_cm: a height must be above zero (got 0). weight_kg: a weight must be above zero (got -3).",
    );
    check_refused(
        "blood_loss_haematocrit",
        json!({ "haematocrit_before_fraction": 42, "haematocrit_after_fraction": 0, "blood_volume_l": 5 }),
        "haematocrit_before_fraction: a haematocrit (a fraction such as 0.41) must lie between 0 and 1 (got 42). \
         haematocrit_after_fraction: a haematocrit (a fraction such as 0.41) must be above zero (got 0).",
    );
    check_refused(
        "egfr",
        json!({ "age_years": 70, "sex": "woman", "creatinine_umol_l": 80 }),
        "sex: “woman” is not one of the choices: female, male, other, unknown.",
    );
    check_refused(
        "score",
        json!({ "scale": "0-48", "score": 49 }),
        "score: an Oxford Knee Score on the scale 0-48 lies between 0 and 48 (got 49).",
    );
    check_refused(
        "score",
        json!({ "scale": "12-60", "score": 20, "score_before": 11 }),
        "score_before: an Oxford Knee Score on the scale 12-60 lies between 12 and 60 (got 11).",
    );
    check_refused(
        "score",
        json!({ "scale": "0-48", "score": 30.5 }),
        "score: one person's total is a whole number (got 30.5).",
    );
}

#[test]
fn a_change_is_held_against_its_own_limit() {
    let check_change = |inputs: Value, change: f64, reaches: bool, reason: &str| {
        check("score", inputs.clone(), "change", change, 1e-9, reason);
        check_value("score", inputs, "reaches_minimal_important_change", json!(reaches), reason);
    };
    check_change(
        json!({ "scale": "0-48", "score_before": 20, "score": 27 }),
        7.0,
        true,
        "7 points, one person (Beard 2015)",
    );
    check_change(json!({ "scale": "0-48", "score_before": 20, "score": 26 }), 6.0, false, "one point less");
    check_change(
        json!({ "scale": "12-60", "score_before": 40, "score": 33 }),
        7.0,
        true,
        "fewer old points are better",
    );
    let group = |score: f64| json!({ "scale": "0-48", "score_before": 20.0, "score": score, "group": true });
    check_change(group(28.9), 8.9, false, "9 points for a group (Beard 2015)");
    check_change(group(29.0), 9.0, true, "9 points exactly");
    let answer = run("score", group(29.0));
    assert_eq!(answer["limits"][0]["name"], "oxford_group_change", "the limit stands beside the answer: {answer}");
}

#[test]
fn a_rise_is_no_loss() {
    let inputs = json!({ "haematocrit_before_fraction": 0.3, "haematocrit_after_fraction": 0.4, "blood_volume_l": 5 });
    let answer = run("blood_loss_haematocrit", inputs);
    assert!(result(&answer, "blood_loss_ml").as_f64().is_some_and(|ml| ml < 0.0), "the sign is kept: {answer}");
    assert!(answer["notes"].to_string().contains("is no loss"), "and explained: {answer}");
}

/// A value in the wrong unit is refused with the unit that is meant.
#[test]
fn the_wrong_unit_is_refused() {
    check_refused(
        "bmi",
        json!({ "height_cm": 1.7, "weight_kg": 78 }),
        "height_cm: a height must lie between 30 and 300 cm (got 1.7).",
    );
    check_refused(
        "egfr",
        json!({ "creatinine_umol_l": 0.9, "age_years": 60, "sex": "female" }),
        "creatinine_umol_l: a creatinine must lie between 15 and 10000 µmol/l (got 0.9).",
    );
}
