//! The laxity that each insert to hand would leave in the four corners. Marks; does not choose.

use serde_json::json;

use crate::gaps::{Corners, Target, take_corners, take_target};
use crate::given::Given;
use crate::number::{shown, tenth};
use crate::{Answer, Input, Limits, Opening, Reckoning, Refusal, Source, Thickness};

/// The parts around the insert.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Around {
    /// Distal thickness of the femoral component.
    pub femur_distal: Thickness,
    /// Posterior thickness of the femoral component.
    pub femur_posterior: Thickness,
    /// Thickness of the tray; zero where the insert's printed thickness includes it.
    pub tray: Thickness,
}

/// What one insert would leave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit {
    /// The insert.
    pub insert: Thickness,
    /// Laxity left in mm: extension medial, extension lateral, flexion medial, flexion lateral. Negative: it would not go in.
    pub laxity: [f64; 4],
    /// No corner, rounded to 0.1 mm, is under the target's minimum.
    pub no_corner_under_minimum: bool,
}

/// Computes the laxity left in all four corners for each insert.
pub fn reckon(gaps: &Corners, around: &Around, inserts: &[Thickness], target: &Target) -> Vec<Fit> {
    let left =
        |gap: Opening, femur: Thickness, insert: Thickness| gap.get() - femur.get() - around.tray.get() - insert.get();
    let fit = |&insert: &Thickness| {
        let laxity = [
            left(gaps.extension_medial, around.femur_distal, insert),
            left(gaps.extension_lateral, around.femur_distal, insert),
            left(gaps.flexion_medial, around.femur_posterior, insert),
            left(gaps.flexion_lateral, around.femur_posterior, insert),
        ];
        let least = tenth(target.least());
        Fit { insert, laxity, no_corner_under_minimum: laxity.iter().all(|&corner| tenth(corner) >= least) }
    };
    inserts.iter().map(fit).collect()
}

/// The reckoning as data.
pub const RECKONING: Reckoning = Reckoning {
    name: "insert_choice",
    title: "Laxity left by each insert",
    formula: "laxity left = gap − femoral thickness − tray − insert, at each corner; minimum = target − tolerance",
    inputs: &[
        Input::required("extension_medial_mm", "mm", "medial gap in extension, between cut surfaces"),
        Input::required("extension_lateral_mm", "mm", "lateral gap in extension"),
        Input::required("flexion_medial_mm", "mm", "medial gap in flexion"),
        Input::required("flexion_lateral_mm", "mm", "lateral gap in flexion"),
        Input::required("femur_distal_mm", "mm", "distal thickness of the femoral component"),
        Input::required("femur_posterior_mm", "mm", "posterior thickness of the femoral component"),
        Input::required("tray_mm", "mm", "thickness of the tray; 0 where the insert's thickness includes it"),
        Input::required("inserts_mm", "mm", "list of the inserts to hand"),
        Input::optional("target_laxity_mm", "mm", "laxity aimed for at each corner; left out: the setting"),
        Input::optional("target_tolerance_mm", "mm", "even up to this far from the target; left out: the setting"),
    ],
    sources: &[Source::common_practice("Sum of thicknesses; some residual laxity is wanted, neither none nor excess")],
    answer,
};

fn answer(given: &mut Given<'_>, limits: &Limits) -> Result<Answer, Refusal> {
    let gaps = take_corners(given);
    let (distal, posterior) = (given.take("femur_distal_mm"), given.take("femur_posterior_mm"));
    let (tray, inserts) = (given.take("tray_mm"), given.list::<Thickness>("inserts_mm"));
    let target = take_target(given, limits)?;
    let (Some(gaps), Some(femur_distal), Some(femur_posterior), Some(tray), Some(inserts)) =
        (gaps, distal, posterior, tray, inserts)
    else {
        return Ok(given.needs());
    };
    if inserts.is_empty() {
        return Err(Refusal::of("inserts_mm", "the list is empty; give the thickness of each insert to hand."));
    }
    if let Some(again) = (1..inserts.len()).find(|&index| inserts[..index].contains(&inserts[index])) {
        let message = format!("{} mm stands in the list already; name each insert once.", inserts[again].get());
        return Err(Refusal::of(format!("inserts_mm[{again}]"), message));
    }
    let fits = reckon(&gaps, &Around { femur_distal, femur_posterior, tray }, &inserts, &target);

    let mut answer = Answer::of(&RECKONING);
    for fit in &fits {
        let insert = fit.insert.get();
        let [extension_medial, extension_lateral, flexion_medial, flexion_lateral] = fit.laxity.map(shown);
        let line = json!({
            "insert_mm": insert,
            "extension_medial_mm": extension_medial,
            "extension_lateral_mm": extension_lateral,
            "flexion_medial_mm": flexion_medial,
            "flexion_lateral_mm": flexion_lateral,
            "no_corner_under_minimum": fit.no_corner_under_minimum,
        });
        answer.push(format!("laxity_left_with_{insert}"), line, "mm");
    }
    let marked: Vec<f64> = fits.iter().filter(|fit| fit.no_corner_under_minimum).map(|fit| fit.insert.get()).collect();
    answer.push("no_corner_under_minimum", marked.into(), "mm");
    answer.number("minimum_mm", target.least(), "mm");
    answer.limits = limits.rows(&["target_laxity_mm", "target_tolerance_mm"]);
    answer.note(
        "Laxities are rounded to 0.1 mm before they are held against the minimum. A negative one would not go in.",
    );
    Ok(answer)
}
