//! What a change of tibial slope did to the flexion gap in a published series. Shown as context; it predicts no knee.

use crate::given::{Given, codes};
use crate::{Answer, Degrees, Input, Limits, Reckoning, Refusal, Source};

codes! {
    /// What becomes of the posterior cruciate ligament.
    pub enum Design {
        CruciateRetaining = "cruciate_retaining" => "cruciate retaining",
        PosteriorStabilised = "posterior_stabilised" => "posterior stabilised",
    }
}

/// Computes the change of the flexion gap in mm that the series would give for a change of slope (more slope positive).
pub fn flexion_gap_change_mm(change: Degrees, design: Design, limits: &Limits) -> f64 {
    let for_five = match design {
        Design::CruciateRetaining => limits.slope_retaining_mm.value,
        Design::PosteriorStabilised => limits.slope_stabilised_mm.value,
    };
    change.get() / 5.0 * for_five
}

/// The reckoning as data.
pub const RECKONING: Reckoning = Reckoning {
    name: "slope_effect",
    title: "Tibial slope and the flexion gap",
    formula: "change of the flexion gap = change of slope / 5° × mm for 5°",
    inputs: &[
        Input::required("slope_change_deg", "°", "change of posterior slope, more slope positive"),
        Input::optional("design", "", "cruciate_retaining or posterior_stabilised; left out: both are shown"),
    ],
    sources: &[Source::published("Okazaki et al., posterior tibial slope and the flexion gap", 2014, "Knee 21:806")],
    answer,
};

fn answer(given: &mut Given<'_>, limits: &Limits) -> Result<Answer, Refusal> {
    let (change, design) = (given.take("slope_change_deg"), given.take::<Design>("design"));
    let Some(change) = change else { return Ok(given.needs()) };
    let mut answer = Answer::of(&RECKONING);
    let mut show = |name: &str, design: Design| {
        answer.number(name, flexion_gap_change_mm(change, design, limits), "mm");
    };
    match design {
        Some(design) => show("flexion_gap_change_mm", design),
        None => {
            show("flexion_gap_change_cruciate_retaining_mm", Design::CruciateRetaining);
            show("flexion_gap_change_posterior_stabilised_mm", Design::PosteriorStabilised);
        }
    }
    answer.limits = limits.rows(&["slope_retaining_mm", "slope_stabilised_mm"]);
    answer.note(
        "The series measured, for 5° more or less, 1.8 ± 0.4 and 1.9 ± 0.6 mm (cruciate retaining) and 1.1 ± 0.3 and \
         1.2 ± 0.4 mm (posterior stabilised), and summed up as about 2 and 1 mm.",
    );
    answer
        .note("Measured for 5° in one series and carried over in proportion: context, not a prediction for one knee.");
    Ok(answer)
}
