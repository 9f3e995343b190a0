//! Bone cuts, patella and offset: edges and refusals. Most check values stand in tests/checks/knee.json.

use evengap_reckon::Limits;
use serde_json::json;

use crate::{check, check_needs, check_refused, check_value, run};

#[test]
fn published_compensation() {
    // Howell 2019: cut = component after compensating for 1 mm kerf and worn cartilage (2 mm), to within 0.5 mm.
    let source = "Howell, Orthopedics 2019;42:126";
    let worn = json!({ "component_mm": 9, "measured_mm": 6, "cartilage_worn_mm": 2 });
    check("cut", worn.clone(), "target_mm", 6.0, 0.0, source);
    check("cut", worn, "deviation_mm", 0.0, 0.0, source);
    let intact = json!({ "component_mm": 9, "measured_mm": 8, "cartilage_worn_mm": 0 });
    check("cut", intact.clone(), "target_mm", 8.0, 0.0, source);
    check("posterior_offset", intact, "change_mm", 0.0, 0.0, "a cut on target leaves the offset as it was");
}

#[test]
fn the_tolerance_itself_agrees() {
    let cut =
        |measured: f64| json!({ "component_mm": 9, "measured_mm": measured, "kerf_mm": 1, "cartilage_worn_mm": 0 });
    check_value("cut", cut(8.5), "within_tolerance", json!(true), "exactly 0.5 mm");
    check_value("cut", cut(7.5), "within_tolerance", json!(true), "exactly -0.5 mm");
    check_value("cut", cut(8.54), "within_tolerance", json!(true), "0.54 rounds to 0.5");
    check_value("cut", cut(8.55), "within_tolerance", json!(false), "0.55 rounds to 0.6");
    check_value("cut", cut(7.4), "within_tolerance", json!(false), "-0.6");
    // 8.3 - (9 - 1 - 0.2) is 0.5000000000000009 in binary.
    let dust = json!({ "component_mm": 9, "measured_mm": 8.3, "kerf_mm": 1, "cartilage_worn_mm": 0.2 });
    check_value("cut", dust, "within_tolerance", json!(true), "binary dust is no deviation");
}

#[test]
fn settings_stand_in_and_say_so() {
    let answer = run("cut", json!({ "component_mm": 9, "measured_mm": 6 }));
    let notes = answer["notes"].to_string();
    assert!(notes.contains("kerf_mm was not given: 1 mm"), "the kerf taken from the settings is said: {notes}");
    assert!(
        notes.contains("cartilage_worn_mm was not given: 2 mm"),
        "the wear taken from the settings is said: {notes}"
    );
    let mut limits = Limits::default();
    limits.cartilage_worn_mm.value = 2.5;
    let answer = evengap_reckon::find("cut").expect("listed");
    let answer = answer.run(&json!({ "component_mm": 9, "measured_mm": 6 }), &limits).expect("computable");
    assert_eq!(crate::result(&answer, "target_mm"), json!(5.5), "the setting moves the target");
}

#[test]
fn thin_patella() {
    let patella = |residual: f64| json!({ "residual_mm": residual });
    check_value("patella", patella(12.0), "residual_under_limit", json!(false), "the limit itself is not under it");
    check_value("patella", patella(11.96), "residual_under_limit", json!(false), "11.96 rounds to 12.0");
    check_value("patella", patella(11.9), "residual_under_limit", json!(true), "11.9 is under 12");
    check_value("patella", patella(14.0), "composite_mm", json!(null), "no button is given");
    let answer = run("patella", patella(14.0));
    assert_eq!(
        answer["results"][1]["not_computable"], "needs button_mm and before_mm",
        "each result says what it needs"
    );
}

#[test]
fn impossible_cuts() {
    check_needs("cut", json!({ "recut_mm": 1 }), "needs component_mm and measured_mm");
    check_refused(
        "cut",
        json!({ "component_mm": 9, "measured_mm": -3 }),
        "measured_mm: a thickness cannot be negative (got -3).",
    );
    check_refused(
        "cut",
        json!({ "component_mm": 2, "measured_mm": 3 }),
        "component_mm: a component of 2 mm is thinner than saw cut and worn cartilage together (3 mm); check these three.",
    );
    check_refused(
        "cut_tilt",
        json!({ "medial_deviation_mm": 1, "lateral_deviation_mm": 0, "spacing_mm": 0 }),
        "spacing_mm: a width must be above zero (got 0).",
    );
}

#[test]
fn the_rule_of_12_mm_is_no_finding_of_its_source() {
    let answer = run("patella", json!({ "residual_mm": 11 }));
    assert_eq!(answer["limits"][0]["source"]["kind"], "common_practice", "a habit, not a published limit: {answer}");
    let said = "Koh et al., J Arthroplasty 2002;17:56, found no worse outcome under it";
    assert!(answer["notes"].to_string().contains(said), "what the series concluded is said: {answer}");
}
