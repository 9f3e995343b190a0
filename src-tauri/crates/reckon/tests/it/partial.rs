//! Criteria for a partial replacement: how each stands, and that nothing sums them up.

use serde_json::{Value, json};

use crate::{check_needs, check_refused, check_value, result, run};

fn good_knee() -> Value {
    json!({
        "compartment": "medial", "age_years": 66, "weight_kg": 80, "inflammatory_arthritis": false,
        "chondrocalcinosis": false, "heavy_work": false,
        "medial_cartilage": "bone_on_bone", "lateral_cartilage": "intact", "patellofemoral_cartilage": "thinned",
        "patellofemoral_bone_loss": false, "acl": "intact", "pcl": "intact", "mcl": "intact", "lcl": "intact",
        "coronal_deg": -6, "correctable": "fully", "fixed_flexion_deg": 3, "extension_deg": 3, "flexion_deg": 125,
    })
}

/// Changes one answer of the good knee and holds one criterion.
fn check_criterion(input: &str, value: Value, criterion: &str, expected: &str, reason: &str) {
    let mut knee = good_knee();
    knee[input] = value;
    check_value("partial_suitability", knee, criterion, json!(expected), reason);
}

#[test]
fn a_knee_that_meets_all() {
    let answer = run("partial_suitability", good_knee());
    for output in answer["results"].as_array().expect("results") {
        assert_eq!(output["value"], "met", "{}: this knee meets every published criterion", output["name"]);
    }
}

#[test]
fn classic_edges_as_quoted() {
    // Kozinn & Scott 1989 as quoted (Bone Joint Proceedings BASK 2010; J Am Acad Orthop Surg 2019;27:166; EFORT Open Rev 2018;3:363).
    check_criterion("age_years", json!(60), "classic_age", "met", "younger than 60 is what they advise against");
    check_criterion("age_years", json!(59.9), "classic_age", "not met", "59");
    check_criterion("weight_kg", json!(82), "classic_weight", "not met", "82 kg (180 lb) or more");
    check_criterion("weight_kg", json!(81.9), "classic_weight", "met", "under 82 kg");
    check_criterion("fixed_flexion_deg", json!(5), "classic_fixed_flexion", "not met", "less than 5°");
    check_criterion("fixed_flexion_deg", json!(4.9), "classic_fixed_flexion", "met", "less than 5°");
    check_criterion("coronal_deg", json!(-15), "classic_deformity", "not met", "under 15° of varus");
    check_criterion("coronal_deg", json!(14.9), "classic_deformity", "met", "under 15° of valgus");
    check_criterion("flexion_deg", json!(93), "classic_arc", "met", "an arc of exactly 90°");
    check_criterion("flexion_deg", json!(92.9), "classic_arc", "not met", "an arc of 89.9°");
    check_criterion(
        "patellofemoral_cartilage",
        json!("bone_on_bone"),
        "classic_patellofemoral",
        "not met",
        "bare bone",
    );
    check_criterion("acl", json!("absent"), "classic_acl", "not met", "cruciate insufficiency");
}

#[test]
fn later_evidence_stands_beside_it() {
    // EFORT Open Rev 2018;3:363: bone on bone medially; patellofemoral bone loss with grooving is the exception.
    check_criterion("medial_cartilage", json!("thinned"), "later_bone_on_bone", "not met", "only for bone on bone");
    check_criterion(
        "patellofemoral_bone_loss",
        json!(true),
        "later_patellofemoral",
        "not met",
        "bone loss and grooving",
    );
    check_criterion(
        "patellofemoral_cartilage",
        json!("bone_on_bone"),
        "later_patellofemoral",
        "met",
        "bare bone alone",
    );
    check_criterion("lateral_cartilage", json!("thinned"), "later_other_compartment", "not met", "full cartilage");
    check_criterion("mcl", json!("stretched"), "later_collateral", "not met", "collateral of that side");
}

#[test]
fn not_recorded_is_neither() {
    check_criterion("acl", json!("not_assessed"), "later_acl", "not recorded", "not assessed is not absent");
    check_criterion("weight_kg", Value::Null, "classic_weight", "not recorded", "no weight");
    check_criterion("extension_deg", Value::Null, "classic_arc", "not recorded", "an arc needs both ends");
    check_needs("partial_suitability", json!({ "acl": "intact" }), "needs compartment");
    check_refused(
        "partial_suitability",
        json!({ "compartment": "middle" }),
        "compartment: “middle” is not one of the choices: medial, lateral.",
    );
    let lateral = run("partial_suitability", json!({ "compartment": "lateral", "lcl": "intact" }));
    assert_eq!(result(&lateral, "later_collateral"), "met", "the collateral of the lateral side");
    // Published for the medial side only; for the lateral side it is held as common practice.
    let intact = run("partial_suitability", json!({ "compartment": "lateral", "lateral_cartilage": "intact" }));
    assert_eq!(result(&intact, "later_bone_on_bone"), "not met", "a wrong compartment is not passed over");
}
