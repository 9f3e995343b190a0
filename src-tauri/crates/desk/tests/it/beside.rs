//! Reckonings and drawings beside the answers of an entry.

use evengap_desk::Desk;
use serde_json::json;

use crate::bench::entry;

#[test]
fn reckonings_stand_beside_their_answers() {
    let mut case = entry(1, "Threlkeld");
    case["patient"]["height_cm"] = json!(163);
    case["patient"]["weight_kg"] = json!(78);
    case["knee"]["alignment"] = json!({ "ldfa_deg": 88 });
    let found = Desk::new().case_reckonings(case).unwrap();
    let answer = |name: &str| {
        found.iter().find(|beside| beside.answer.reckoning == name).map(|beside| (&beside.at, &beside.answer))
    };
    let (at, bmi) = answer("bmi").unwrap();
    assert_eq!(at, "patient");
    // 78 / 1.63² = 29.36, by hand from the definition (WHO Technical Report 894, 2000).
    let value = bmi.results[0].value.as_f64().unwrap();
    assert!((value - 29.36).abs() < 0.01, "{value}");
    assert!(!bmi.sources.is_empty() && !bmi.formula.is_empty(), "formula and source come along");
    let (_, alignment) = answer("alignment").unwrap();
    assert!(alignment.not_computable.as_deref().is_some_and(|needs| needs.contains("mpta_deg")), "says what it needs");
    assert!(answer("egfr").is_none(), "nothing of its own is recorded");
}

#[test]
fn drawings_are_made_from_what_is_recorded() {
    let mut case = entry(1, "Threlkeld");
    assert_eq!(Desk::new().case_drawings(case.clone()).unwrap(), [], "nothing recorded, nothing drawn");
    case["balance"]["final"] = json!({ "extension": { "medial_mm": 1, "lateral_mm": 1.5 } });
    case["knee"]["alignment"] = json!({ "ldfa_deg": 88, "mpta_deg": 85.5, "jlca_deg": 3.5 });
    let drawn = Desk::new().case_drawings(case).unwrap();
    let names: Vec<_> = drawn.iter().map(|drawing| (drawing.name.as_str(), drawing.at.as_str())).collect();
    assert_eq!(names, [("axis", "knee.alignment"), ("balance", "balance.final")]);
    assert!(drawn.iter().all(|drawing| drawing.svg.starts_with("<svg")), "SVG for the window");
    assert!(drawn[1].alt.contains("medial 1 mm and lateral 1.5 mm"), "the same in words: {}", drawn[1].alt);
}
