//! The two spaces, the inserts and the slope.

use evengap_reckon::gaps::{Corners, Parts, State, Target, options, reckon};
use evengap_reckon::{Limits, Opening};
use proptest::prelude::*;
use serde_json::{Value, json};

use crate::{check, check_needs, check_refused, check_value, run};

fn spaces(extension: (f64, f64), flexion: (f64, f64)) -> Value {
    json!({
        "extension_medial_mm": extension.0, "extension_lateral_mm": extension.1,
        "flexion_medial_mm": flexion.0, "flexion_lateral_mm": flexion.1,
    })
}

#[test]
fn edges_of_even() {
    // Clark et al. 2023: balanced = within 2 mm of equality.
    let even = |lateral: f64| spaces((1.0, lateral), (1.0, 1.0));
    check_value("gaps", even(3.0), "extension_sides_even", json!(true), "exactly 2 mm");
    check_value("gaps", even(3.04), "extension_sides_even", json!(true), "2.04 rounds to 2.0");
    check_value("gaps", even(3.1), "extension_sides_even", json!(false), "2.1 mm");
    check_value("gaps", spaces((0.1, 2.1), (1.0, 1.0)), "extension_sides_even", json!(true), "2.1 - 0.1 in binary");
    let sagittal = |flexion: f64| spaces((1.0, 1.0), (flexion, flexion));
    check_value("gaps", sagittal(3.0), "flexion_against_extension", json!("even"), "exactly 2 mm");
    check_value("gaps", sagittal(3.1), "flexion_against_extension", json!("uneven"), "2.1 mm");
    check_value("gaps", sagittal(5.0), "flexion_against_extension", json!("uneven"), "exactly 4 mm is not above 4");
    check_value("gaps", sagittal(5.1), "flexion_against_extension", json!("severely uneven"), "4.1 mm");
}

#[test]
fn edges_of_the_target() {
    // The default target is 1 to 2 mm.
    for (laxity, word) in [(0.0, "tight"), (0.9, "tight"), (0.96, "even"), (1.0, "even"), (2.0, "even"), (2.1, "loose")]
    {
        check_value("gaps", spaces((laxity, laxity), (1.5, 1.5)), "extension_space", json!(word), "against 1 to 2 mm");
    }
    let mut own = spaces((0.3, 0.3), (0.3, 0.3));
    own["target_laxity_mm"] = json!(0.1);
    own["target_tolerance_mm"] = json!(0.2);
    check_value("gaps", own, "extension_space", json!("even"), "0.1 + 0.2 is 0.3 here, whatever binary makes of it");
}

#[test]
fn gaps_take_off_the_parts() {
    let mut gaps = spaces((20.5, 20.5), (19.0, 19.0));
    gaps["extension_parts_mm"] = json!(19);
    gaps["flexion_parts_mm"] = json!(18);
    check_value("gaps", gaps.clone(), "extension_space", json!("even"), "20.5 - 19 is 1.5 mm of laxity");
    check_value("gaps", gaps.clone(), "flexion_space", json!("even"), "19 - 18 is 1 mm");
    check("gaps", gaps.clone(), "flexion_minus_extension_mean_mm", -0.5, 0.0, "laxities are compared, not gaps");
    gaps.as_object_mut().expect("an object").remove("flexion_parts_mm");
    check_refused("gaps", gaps, "flexion_parts_mm: give this too, or neither of the two.");
}

#[test]
fn a_wide_laxity_is_a_gap() {
    check_refused(
        "gaps",
        spaces((10.1, 1.0), (1.0, 20.5)),
        "extension_medial_mm: a laxity lies between 0 and 10 mm (got 10.1); is this a gap between cut surfaces? \
         Then give extension_parts_mm and flexion_parts_mm too. \
         flexion_lateral_mm: a laxity lies between 0 and 10 mm (got 20.5); is this a gap between cut surfaces? \
         Then give extension_parts_mm and flexion_parts_mm too.",
    );
    check_value("gaps", spaces((10.0, 10.0), (10.0, 10.0)), "extension_space", json!("loose"), "10 mm is admitted");
}

#[test]
fn options_of_each_combination() {
    use State::{Even, Loose, Tight};
    // Each space with what moves it: distal femur extension only, posterior femur flexion only, tibia and insert both.
    let expected = [
        ((Tight, Tight), "thinner insert"),
        ((Tight, Even), "posterior capsule"),
        ((Tight, Loose), "larger femoral component"),
        ((Even, Tight), "smaller femoral component"),
        ((Even, Loose), "larger femoral component"),
        ((Loose, Tight), "smaller femoral component"),
        ((Loose, Even), "distal augment"),
        ((Loose, Loose), "thicker insert"),
    ];
    for ((extension, flexion), words) in expected {
        let options = options(extension, flexion).join("; ");
        assert!(options.contains(words), "{extension:?} and {flexion:?} must name {words}: {options}");
    }
    assert!(options(Even, Even).is_empty(), "two even spaces leave nothing to weigh");
    let answer = run("gaps", spaces((0.0, 0.0), (1.5, 1.5)));
    let first = &answer["statements"][0];
    assert_eq!(first["about"], "option a surgeon may weigh: tight in extension, even in flexion", "never an order");
    assert_eq!(first["source"]["kind"], "from_memory", "each option carries how well its source is held");
}

#[test]
fn inserts_to_hand() {
    let mut inputs = spaces((19.5, 20.5), (20.0, 21.0));
    for (name, value) in [
        ("femur_distal_mm", json!(8)),
        ("femur_posterior_mm", json!(8)),
        ("tray_mm", json!(0)),
        ("inserts_mm", json!([9, 10, 11, 12])),
    ] {
        inputs[name] = value;
    }
    // By hand: 19.5 - 8 - 10 = 1.5; 20.5 - 8 - 10 = 2.5; 20 - 8 - 10 = 2; 21 - 8 - 10 = 3.
    let ten = json!({
        "insert_mm": 10.0, "extension_medial_mm": 1.5, "extension_lateral_mm": 2.5,
        "flexion_medial_mm": 2.0, "flexion_lateral_mm": 3.0, "no_corner_under_minimum": true,
    });
    check_value("insert_choice", inputs.clone(), "laxity_left_with_10", ten, "laxity left in four corners");
    check_value("insert_choice", inputs.clone(), "no_corner_under_minimum", json!([9.0, 10.0]), "11 leaves 0.5 mm");
    inputs["target_laxity_mm"] = json!(1);
    check_value(
        "insert_choice",
        inputs.clone(),
        "no_corner_under_minimum",
        json!([9.0, 10.0, 11.0]),
        "the minimum itself, 0.5 mm, is not under it",
    );
    inputs["inserts_mm"] = json!([]);
    check_refused(
        "insert_choice",
        inputs.clone(),
        "inserts_mm: the list is empty; give the thickness of each insert to hand.",
    );
    inputs["inserts_mm"] = json!([10, -1]);
    check_refused("insert_choice", inputs.clone(), "inserts_mm[1]: a thickness cannot be negative (got -1).");
    inputs["inserts_mm"] = json!([10, 11, 10.0]);
    check_refused("insert_choice", inputs, "inserts_mm[2]: 10 mm stands in the list already; name each insert once.");
}

#[test]
fn slope_as_published() {
    // Okazaki et al. 2014: 5° gave 1.9 ± 0.6 / 1.8 ± 0.4 mm (retaining), 1.2 ± 0.4 / 1.1 ± 0.3 mm (stabilised): about 2 and 1.
    let source = "Okazaki et al., Knee 2014;21:806";
    let slope = |change: f64, design: &str| json!({ "slope_change_deg": change, "design": design });
    check("slope_effect", slope(5.0, "cruciate_retaining"), "flexion_gap_change_mm", 1.8, 0.4, source);
    check("slope_effect", slope(-5.0, "cruciate_retaining"), "flexion_gap_change_mm", -1.9, 0.6, source);
    check("slope_effect", slope(5.0, "posterior_stabilised"), "flexion_gap_change_mm", 1.1, 0.3, source);
    check("slope_effect", slope(-5.0, "posterior_stabilised"), "flexion_gap_change_mm", -1.2, 0.4, source);
    check_needs("slope_effect", json!({}), "needs slope_change_deg");
}

fn opening(mm: f64) -> Opening {
    Opening::new("opening_mm", mm).expect("an opening")
}

proptest! {
    #[test]
    fn balance_is_symmetric_under_mirror(em in 0.0..40.0, el in 0.0..40.0, fm in 0.0..40.0, fl in 0.0..40.0) {
        let limits = Limits::default();
        let target = Target::of(&limits).expect("a target");
        let corners = |em, el, fm, fl| Corners {
            extension_medial: opening(em), extension_lateral: opening(el),
            flexion_medial: opening(fm), flexion_lateral: opening(fl),
        };
        let knee = reckon(&corners(em, el, fm, fl), &Parts::NONE, &target, &limits);
        let mirror = reckon(&corners(el, em, fl, fm), &Parts::NONE, &target, &limits);
        prop_assert_eq!(knee.extension_difference, -mirror.extension_difference, "the difference changes its sign");
        prop_assert_eq!(knee.flexion_difference, -mirror.flexion_difference, "in flexion too");
        prop_assert_eq!(knee.flexion_minus_extension_medial, mirror.flexion_minus_extension_lateral, "the sides swap");
        prop_assert_eq!(knee.flexion_minus_extension_mean, mirror.flexion_minus_extension_mean, "the mean has no side");
        prop_assert_eq!((knee.extension, knee.flexion), (mirror.extension, mirror.flexion), "nor have the spaces");
        prop_assert_eq!(knee.sagittal, mirror.sagittal, "nor has flexion against extension");
        let [a, b, c, d] = knee.corners;
        prop_assert_eq!([b, a, d, c], mirror.corners, "the corners swap");
    }
}
