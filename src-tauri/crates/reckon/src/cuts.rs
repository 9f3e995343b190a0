//! The bone cuts held against the parts that replace them: thickness, tilt, patella, posterior offset.
//! States the shift of the joint line in mm; predicts no movement and corrects no cut.

use crate::given::Given;
use crate::number::tenth;
use crate::{Answer, Input, Limits, Reckoning, Refusal, Shift, Source, Thickness, Width};

const CALIPERED: Source =
    Source::published("Howell, calipered kinematically aligned total knee arthroplasty", 2019, "Orthopedics 42:126");
const GEOMETRY: Source = Source::common_practice("Plane geometry of two measured points");
const PATELLA: Source = Source::common_practice("Thickness of the resurfaced patella held against the native one");
const OFFSET: Source = Source::common_practice("Posterior condylar offset by caliper");

/// One measured piece of bone and the part that takes its place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cut {
    /// Thickness of the component at this place.
    pub component: Thickness,
    /// Thickness of the piece.
    pub measured: Thickness,
    /// How much further a recut moved the saw plane into the bone.
    pub recut: Thickness,
    /// Width of the saw cut.
    pub kerf: Thickness,
    /// Cartilage that was worn away here before.
    pub cartilage_worn: Thickness,
}

/// A cut held against its target; mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CutResult {
    /// component − kerf − cartilage worn.
    pub target: f64,
    /// Piece and recut together.
    pub removed: f64,
    /// removed − target: the shift of the joint line, positive into bone.
    pub deviation: f64,
    /// The deviation, rounded to 0.1 mm, lies within the tolerance.
    pub within_tolerance: bool,
}

/// Holds a cut against its target. Refuses a component thinner than kerf and wear together.
pub fn reckon(cut: &Cut, limits: &Limits) -> Result<CutResult, Refusal> {
    let target = cut.component.get() - cut.kerf.get() - cut.cartilage_worn.get();
    if tenth(target) < 0.0 {
        let lost = cut.kerf.get() + cut.cartilage_worn.get();
        let message = format!(
            "a component of {} mm is thinner than saw cut and worn cartilage together ({lost} mm); check these three.",
            cut.component.get()
        );
        return Err(Refusal::of("component_mm", message));
    }
    let removed = cut.measured.get() + cut.recut.get();
    let deviation = removed - target;
    let within_tolerance = tenth(deviation).abs() <= limits.cut_tolerance_mm.value;
    Ok(CutResult { target, removed, deviation, within_tolerance })
}

/// Computes the tilt in degrees that two deviations imply; positive where more was removed medially.
pub fn tilt_deg(medial: Shift, lateral: Shift, spacing: Width) -> f64 {
    (medial.get() - lateral.get()).atan2(spacing.get()).to_degrees()
}

/// The patella after the cut; mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Patella {
    /// Bone and button, where there is a button.
    pub composite: Option<f64>,
    /// composite − before, where both are known.
    pub change: Option<f64>,
    /// The bone left, rounded to 0.1 mm, is under the limit.
    pub thin: bool,
}

/// Computes the thickness of the patella after resurfacing.
pub fn patella(residual: Thickness, button: Option<Thickness>, before: Option<Thickness>, limits: &Limits) -> Patella {
    let composite = button.map(|button| residual.get() + button.get());
    Patella {
        composite,
        change: composite.zip(before).map(|(composite, before)| composite - before.get()),
        thin: tenth(residual.get()) < limits.patella_residual_mm.value,
    }
}

/// Computes the change of the posterior condylar offset in mm: component − (piece and recut + kerf + cartilage worn).
pub fn posterior_offset_change(cut: &Cut) -> f64 {
    cut.component.get() - (cut.measured.get() + cut.recut.get() + cut.kerf.get() + cut.cartilage_worn.get())
}

const CUT_INPUTS: &[Input] = &[
    Input::required("component_mm", "mm", "thickness of the component at this place"),
    Input::required("measured_mm", "mm", "thickness of the piece of bone"),
    Input::optional("recut_mm", "mm", "how much further a recut moved the saw plane; left out: none"),
    Input::optional("kerf_mm", "mm", "width of this blade's cut; left out: the setting"),
    Input::optional("cartilage_worn_mm", "mm", "cartilage worn away here, 0 where intact; left out: the setting"),
];

/// Target and deviation of one cut.
pub const CUT: Reckoning = Reckoning {
    name: "cut",
    title: "Bone cut held against its target",
    formula: "target = component − kerf − cartilage worn; deviation = measured + recut − target",
    inputs: CUT_INPUTS,
    sources: &[CALIPERED],
    answer: cut_answer,
};

/// Tilt implied by two deviations.
pub const CUT_TILT: Reckoning = Reckoning {
    name: "cut_tilt",
    title: "Tilt implied by two cuts",
    formula: "tilt = atan((medial deviation − lateral deviation) / spacing)",
    inputs: &[
        Input::required("medial_deviation_mm", "mm", "deviation of the medial cut, positive into bone"),
        Input::required("lateral_deviation_mm", "mm", "deviation of the lateral cut, positive into bone"),
        Input::required("spacing_mm", "mm", "distance between the two places"),
    ],
    sources: &[GEOMETRY],
    answer: tilt_answer,
};

/// Thickness of the patella.
pub const PATELLA_RECKONING: Reckoning = Reckoning {
    name: "patella",
    title: "Patella before and after",
    formula: "composite = residual + button; change = composite − before",
    inputs: &[
        Input::required("residual_mm", "mm", "bone left after the cut"),
        Input::optional("button_mm", "mm", "thickness of the button"),
        Input::optional("before_mm", "mm", "thickness before the cut"),
    ],
    sources: &[PATELLA],
    answer: patella_answer,
};

/// Change of the posterior condylar offset.
pub const POSTERIOR_OFFSET: Reckoning = Reckoning {
    name: "posterior_offset",
    title: "Change of the posterior condylar offset",
    formula: "change = component − (measured + recut + kerf + cartilage worn)",
    inputs: CUT_INPUTS,
    sources: &[OFFSET],
    answer: offset_answer,
};

/// Reads a cut; what is left out of kerf and wear comes from the settings and is said in the notes.
fn take_cut(given: &mut Given<'_>, limits: &Limits) -> Result<Option<(Cut, Vec<String>)>, Refusal> {
    let (component, measured) = (given.take("component_mm"), given.take("measured_mm"));
    let recut = given.take("recut_mm").unwrap_or(Thickness::ZERO);
    let (kerf, worn) = (given.take("kerf_mm"), given.take("cartilage_worn_mm"));
    let (Some(component), Some(measured)) = (component, measured) else { return Ok(None) };
    let mut notes = Vec::new();
    let mut or_setting = |value: Option<Thickness>, name: &str, setting: f64, what: &str| match value {
        Some(value) => Ok(value),
        None => {
            notes.push(format!("{name} was not given: {setting} mm was taken from the settings{what}."));
            Thickness::new(name, setting)
        }
    };
    let kerf = or_setting(kerf, "kerf_mm", limits.kerf_mm.value, "")?;
    let wear = "; where cartilage was intact, give 0";
    let cartilage_worn = or_setting(worn, "cartilage_worn_mm", limits.cartilage_worn_mm.value, wear)?;
    Ok(Some((Cut { component, measured, recut, kerf, cartilage_worn }, notes)))
}

fn cut_answer(given: &mut Given<'_>, limits: &Limits) -> Result<Answer, Refusal> {
    let Some((cut, notes)) = take_cut(given, limits)? else { return Ok(given.needs()) };
    let found = reckon(&cut, limits)?;
    let mut answer = Answer::of(&CUT);
    answer.number("target_mm", found.target, "mm");
    answer.number("removed_mm", found.removed, "mm");
    answer.number("deviation_mm", found.deviation, "mm");
    answer.yes_no("within_tolerance", found.within_tolerance);
    answer.limits = limits.rows(&["kerf_mm", "cartilage_worn_mm", "cut_tolerance_mm"]);
    answer.notes = notes;
    answer.note("A positive deviation shifts the joint line into bone at this place.");
    answer.note("The deviation is rounded to 0.1 mm before it is held against the tolerance.");
    answer.note("For worn cartilage 2.5 mm was proposed in 2026 (Sandhar, Nedopil & Hull, J Exp Orthop).");
    Ok(answer)
}

fn tilt_answer(given: &mut Given<'_>, _: &Limits) -> Result<Answer, Refusal> {
    let (medial, lateral) = (given.take("medial_deviation_mm"), given.take("lateral_deviation_mm"));
    let (Some(medial), Some(lateral), Some(spacing)) = (medial, lateral, given.take("spacing_mm")) else {
        return Ok(given.needs());
    };
    let mut answer = Answer::of(&CUT_TILT);
    answer.number("tilt_deg", tilt_deg(medial, lateral, spacing), "°");
    answer.note(
        "Positive: more was removed medially. On the distal femur and the tibia that is towards varus, \
         on the posterior femur towards external rotation.",
    );
    Ok(answer)
}

fn patella_answer(given: &mut Given<'_>, limits: &Limits) -> Result<Answer, Refusal> {
    let residual = given.take("residual_mm");
    let (button, before) = (given.take("button_mm"), given.take("before_mm"));
    let Some(residual) = residual else { return Ok(given.needs()) };
    let found = patella(residual, button, before, limits);
    let mut lacking = Vec::new();
    lacking.extend(button.is_none().then_some("button_mm"));
    lacking.extend(before.is_none().then_some("before_mm"));
    let mut answer = Answer::of(&PATELLA_RECKONING);
    answer.number_or("composite_mm", found.composite, "mm", &["button_mm"]);
    answer.number_or("change_mm", found.change, "mm", &lacking);
    answer.yes_no("residual_under_limit", found.thin);
    answer.limits = limits.rows(&["patella_residual_mm"]);
    answer.note("The bone left is rounded to 0.1 mm before it is held against the limit.");
    answer.note(
        "12 mm of bone left is a common rule; Koh et al., J Arthroplasty 2002;17:56, found no worse outcome under it.",
    );
    Ok(answer)
}

fn offset_answer(given: &mut Given<'_>, limits: &Limits) -> Result<Answer, Refusal> {
    let Some((cut, notes)) = take_cut(given, limits)? else { return Ok(given.needs()) };
    let mut answer = Answer::of(&POSTERIOR_OFFSET);
    answer.number("change_mm", posterior_offset_change(&cut), "mm");
    answer.limits = limits.rows(&["kerf_mm", "cartilage_worn_mm"]);
    answer.notes = notes;
    answer.note("Positive: the condyle reaches further back than before. No flexion is predicted from it.");
    Ok(answer)
}
