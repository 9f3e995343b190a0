//! Alignment, phenotypes and wedges.

use evengap_reckon::{Degrees, Width, alignment::wedge_height};
use serde_json::{Value, json};

use crate::{check, check_needs, check_refused, check_value};

/// The phenotype of a knee by aHKA and JLO, and its neighbours.
fn check_phenotype(ldfa: f64, mpta: f64, phenotype: &str, neighbours: Value, reason: &str) {
    let inputs = json!({ "ldfa_deg": ldfa, "mpta_deg": mpta });
    check_value("alignment", inputs.clone(), "phenotype", json!(phenotype), reason);
    check_value("alignment", inputs, "neighbours", neighbours, reason);
}

#[test]
fn published_means_of_a_cohort() {
    // Means of 500 osteoarthritic knees of an urban Malaysian cohort: MPTA 85.8, LDFA 87.6, printed aHKA -1.8, JLO 173.4.
    let source = "printed means of 500 osteoarthritic knees, Malaysia";
    let inputs = json!({ "ldfa_deg": 87.6, "mpta_deg": 85.8 });
    check("alignment", inputs.clone(), "ahka_deg", -1.8, 1e-9, source);
    check("alignment", inputs, "jlo_deg", 173.4, 1e-9, source);
    check_phenotype(87.6, 85.8, "II", json!(["I"]), "0.2° from varus, 3.6° from a level joint line");
}

#[test]
fn all_nine_phenotypes() {
    // The nine of MacDessi et al. 2021: rows apex distal, neutral, apex proximal; columns varus, neutral, valgus.
    let nine = ["I", "II", "III", "IV", "V", "VI", "VII", "VIII", "IX"];
    for (index, numeral) in nine.into_iter().enumerate() {
        let (jlo, ahka) = ([172.0, 180.0, 188.0][index / 3], [-6.0, 0.0, 6.0][index % 3]);
        check_phenotype((jlo - ahka) / 2.0, (jlo + ahka) / 2.0, numeral, json!([]), "the middle of its field");
    }
}

#[test]
fn edges_count_as_neutral_and_name_the_neighbour() {
    check_phenotype(91.0, 89.0, "V", json!(["IV"]), "aHKA exactly -2, JLO 180");
    check_phenotype(91.05, 88.95, "IV", json!(["V"]), "aHKA -2.1 is varus");
    check_phenotype(91.02, 88.98, "V", json!(["IV"]), "aHKA -2.04 rounds to -2.0, an edge");
    check_phenotype(89.0, 91.0, "V", json!(["VI"]), "aHKA exactly 2");
    check_phenotype(88.9, 91.1, "VI", json!(["V"]), "aHKA 2.2 is valgus");
    check_phenotype(88.5, 88.5, "V", json!(["II"]), "JLO exactly 177");
    check_phenotype(88.4, 88.5, "II", json!(["V"]), "JLO 176.9 is apex distal");
    check_phenotype(91.5, 91.5, "V", json!(["VIII"]), "JLO exactly 183");
    check_phenotype(91.6, 91.5, "VIII", json!(["V"]), "JLO 183.1 is apex proximal");
    check_phenotype(91.5, 88.5, "IV", json!(["V"]), "aHKA -3.0: a degree from the edge is still near");
    check_phenotype(91.55, 88.45, "IV", json!([]), "aHKA -3.1: no longer near");
    check_phenotype(89.3, 87.3, "II", json!(["V", "I", "IV"]), "near a corner: all three neighbours");
}

#[test]
fn binary_dust_falls_to_no_side() {
    // 88.1 - 90.1 is -1.9999999999999858 and 90.2 - 88.2 is 2.0000000000000000 give or take: both are edges.
    check_phenotype(90.1, 88.1, "V", json!(["IV"]), "-2 from decimals");
    check_phenotype(88.2, 90.2, "V", json!(["VI"]), "2 from decimals");
    check("alignment", json!({ "ldfa_deg": 90, "mpta_deg": 87.95 }), "ahka_deg", -2.05, 1e-12, "decimal arithmetic");
    check_phenotype(90.0, 87.95, "IV", json!(["I", "V", "II"]), "-2.05 rounds away from zero, to -2.1");
}

#[test]
fn nothing_is_guessed() {
    check_needs("alignment", json!({ "ldfa_deg": 88 }), "needs mpta_deg");
    check_needs("alignment", json!({ "ldfa_deg": null }), "needs ldfa_deg and mpta_deg");
    check_value("alignment", json!({ "ldfa_deg": 88, "mpta_deg": 87 }), "hka_deg", Value::Null, "HKA needs JLCA");
    let wedge = json!({ "wedge_width_mm": 60, "wedge_angle_deg": 45 });
    check("alignment", wedge.clone(), "wedge_height_mm", 60.0, 1e-9, "tan 45° is 1");
    check_needs("alignment", wedge, "needs ldfa_deg and mpta_deg");
}

#[test]
fn impossible_numbers_are_refused() {
    check_refused(
        "alignment",
        json!({ "ldfa_deg": 400, "mpta_deg": "NaN" }),
        "ldfa_deg: an angle must lie between -180 and 180° (got 400). mpta_deg: a number is needed here, not “NaN”.",
    );
    check_refused(
        "alignment",
        json!({ "lfda_deg": 88 }),
        "lfda_deg: this reckoning knows no such input; did you mean ldfa_deg?",
    );
    check_refused(
        "alignment",
        json!({ "wedge_width_mm": 0, "wedge_angle_deg": 5 }),
        "wedge_width_mm: a width must be above zero (got 0).",
    );
    check_refused("alignment", json!([1]), "A group of named inputs in braces is needed, not a list.");
    for impossible in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 180.000001] {
        let refusal = Degrees::new("mpta_deg", impossible).expect_err("no angle");
        assert!(refusal.to_string().starts_with("mpta_deg: an angle must"), "the sentence names the input: {refusal}");
    }
    let width = Width::new("wedge_width_mm", 60.0).expect("a width");
    let refusal = wedge_height(width, Degrees::new("a", 90.0).expect("an angle")).expect_err("no wedge");
    assert_eq!(
        refusal.to_string(),
        "wedge_angle_deg: a wedge lies between -89 and 89° (got 90).",
        "tan 90° has no value"
    );
}
