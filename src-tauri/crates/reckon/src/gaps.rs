//! The two spaces at their four corners, held against each other and against a target laxity, with the options that
//! textbooks name for each combination. Options are things a surgeon may weigh; none is chosen here.

use crate::given::Given;
use crate::number::tenth;
use crate::refusal::Problem;
use crate::{Answer, Input, Limits, Opening, Reckoning, Refusal, Source, Statement, Thickness};

/// More than any knee opens against parts in place; a gap between cut surfaces is larger.
const MOST_LAXITY_MM: f64 = 10.0;

/// The four measured corners.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Corners {
    /// Extension, medial.
    pub extension_medial: Opening,
    /// Extension, lateral.
    pub extension_lateral: Opening,
    /// Flexion, medial.
    pub flexion_medial: Opening,
    /// Flexion, lateral.
    pub flexion_lateral: Opening,
}

/// What fills the spaces, where gaps between cut surfaces were measured; zero where laxity was.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parts {
    /// Distal femur, insert and tray together.
    pub extension: Thickness,
    /// Posterior femur, insert and tray together.
    pub flexion: Thickness,
}

impl Parts {
    /// Nothing to take off: the corners are laxities.
    pub const NONE: Self = Self { extension: Thickness::ZERO, flexion: Thickness::ZERO };
}

/// The laxity that is aimed for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Target {
    /// Laxity of each corner.
    pub laxity: Opening,
    /// Even up to this far either way.
    pub tolerance: Opening,
}

impl Target {
    /// The least laxity that still counts as even; mm.
    pub fn least(self) -> f64 {
        self.laxity.get() - self.tolerance.get()
    }

    /// The setting.
    pub fn of(limits: &Limits) -> Result<Self, Refusal> {
        Ok(Self {
            laxity: Opening::new("target_laxity_mm", limits.target_laxity_mm.value)?,
            tolerance: Opening::new("target_tolerance_mm", limits.target_tolerance_mm.value)?,
        })
    }
}

/// How a space or a corner stands to the target.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum State {
    /// Less laxity than the target with its tolerance.
    Tight,
    /// Within the tolerance, its edges included.
    Even,
    /// More laxity.
    Loose,
}

impl State {
    /// The word that a person reads.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Tight => "tight",
            Self::Even => "even",
            Self::Loose => "loose",
        }
    }
}

/// How flexion stands to extension.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sagittal {
    /// Within the limit for even.
    Even,
    /// Beyond it.
    Uneven,
    /// Beyond the limit for severe.
    Severe,
}

/// The balance; mm, each after the parts were taken off.
#[derive(Debug, Clone, PartialEq)]
pub struct Balance {
    /// Lateral − medial in extension.
    pub extension_difference: f64,
    /// Lateral − medial in flexion.
    pub flexion_difference: f64,
    /// Flexion − extension, medially.
    pub flexion_minus_extension_medial: f64,
    /// Flexion − extension, laterally.
    pub flexion_minus_extension_lateral: f64,
    /// Flexion − extension of the means of both sides.
    pub flexion_minus_extension_mean: f64,
    /// The sides agree in extension.
    pub extension_even: bool,
    /// The sides agree in flexion.
    pub flexion_even: bool,
    /// How flexion stands to extension, by the means.
    pub sagittal: Sagittal,
    /// Each corner: extension medial, extension lateral, flexion medial, flexion lateral.
    pub corners: [State; 4],
    /// The extension space, by the mean of its sides.
    pub extension: State,
    /// The flexion space, by the mean of its sides.
    pub flexion: State,
}

/// Holds the four corners against each other and against the target. Everything is rounded to 0.1 mm before comparing.
pub fn reckon(corners: &Corners, parts: &Parts, target: &Target, limits: &Limits) -> Balance {
    let left = |opening: Opening, part: Thickness| opening.get() - part.get();
    let extension = [left(corners.extension_medial, parts.extension), left(corners.extension_lateral, parts.extension)];
    let flexion = [left(corners.flexion_medial, parts.flexion), left(corners.flexion_lateral, parts.flexion)];
    let mean = |sides: [f64; 2]| (sides[0] + sides[1]) / 2.0;
    let between = mean(flexion) - mean(extension);
    let state = |laxity: f64| {
        let off = tenth(laxity - target.laxity.get());
        match () {
            () if off < -tenth(target.tolerance.get()) => State::Tight,
            () if off > tenth(target.tolerance.get()) => State::Loose,
            () => State::Even,
        }
    };
    let even = |difference: f64| tenth(difference).abs() <= limits.gap_even_mm.value;
    let sagittal = match tenth(between).abs() {
        off if off > limits.gap_severe_mm.value => Sagittal::Severe,
        _ if even(between) => Sagittal::Even,
        _ => Sagittal::Uneven,
    };
    Balance {
        extension_difference: extension[1] - extension[0],
        flexion_difference: flexion[1] - flexion[0],
        flexion_minus_extension_medial: flexion[0] - extension[0],
        flexion_minus_extension_lateral: flexion[1] - extension[1],
        flexion_minus_extension_mean: between,
        extension_even: even(extension[1] - extension[0]),
        flexion_even: even(flexion[1] - flexion[0]),
        sagittal,
        corners: [extension[0], extension[1], flexion[0], flexion[1]].map(state),
        extension: state(mean(extension)),
        flexion: state(mean(flexion)),
    }
}

/// The options that textbooks name for a combination of the two spaces; empty where both are even.
pub const fn options(extension: State, flexion: State) -> &'static [&'static str] {
    use State::{Even, Loose, Tight};
    match (extension, flexion) {
        (Tight, Tight) => &["a thinner insert", "more bone from the tibia"],
        (Tight, Even) => {
            &["release of the posterior capsule", "removal of posterior osteophytes", "more bone from the distal femur"]
        }
        (Tight, Loose) => &[
            "more bone from the distal femur with a larger femoral component or a posterior augment, and a thicker insert",
        ],
        (Even, Tight) => {
            &["a smaller femoral component", "recession of the posterior cruciate ligament", "more tibial slope"]
        }
        (Even, Even) => &[],
        (Even, Loose) => &[
            "a larger femoral component",
            "a posterior augment of the femur",
            "less tibial slope with a thicker insert",
        ],
        (Loose, Tight) => &["a smaller femoral component with a thicker insert", "a distal augment of the femur"],
        (Loose, Even) => &["a distal augment of the femur"],
        (Loose, Loose) => &["a thicker insert"],
    }
}

/// Source of the options.
pub const TEXTBOOK: Source = Source::from_memory("Insall & Scott, Surgery of the Knee", 2018, "textbook, 6th edition");

const CORNERS: [&str; 4] = ["extension_medial", "extension_lateral", "flexion_medial", "flexion_lateral"];

/// The reckoning as data.
pub const RECKONING: Reckoning = Reckoning {
    name: "gaps",
    title: "Balance of the two spaces",
    formula: "difference of a space = lateral − medial; flexion − extension on each side and of the means; \
              laxity = gap − parts; a space is tight, even or loose by its mean laxity against target ± tolerance",
    inputs: &[
        Input::required("extension_medial_mm", "mm", "medial opening in extension"),
        Input::required("extension_lateral_mm", "mm", "lateral opening in extension"),
        Input::required("flexion_medial_mm", "mm", "medial opening in flexion"),
        Input::required("flexion_lateral_mm", "mm", "lateral opening in flexion"),
        Input::optional(
            "extension_parts_mm",
            "mm",
            "distal femur + insert + tray, where gaps between cut surfaces are given; left out: laxities are given",
        ),
        Input::optional("flexion_parts_mm", "mm", "posterior femur + insert + tray, as above"),
        Input::optional("target_laxity_mm", "mm", "laxity aimed for at each corner; left out: the setting"),
        Input::optional("target_tolerance_mm", "mm", "even up to this far from the target; left out: the setting"),
    ],
    sources: &[
        Source::published(
            "Clark et al., functional alignment and balance before release (balanced: within 2 mm of equality)",
            2023,
            "Knee Surg Sports Traumatol Arthrosc 31:1420",
        ),
        TEXTBOOK,
    ],
    answer,
};

/// Takes the four corners.
pub(crate) fn take_corners(given: &mut Given<'_>) -> Option<Corners> {
    let (extension_medial, extension_lateral) = (given.take("extension_medial_mm"), given.take("extension_lateral_mm"));
    let (flexion_medial, flexion_lateral) = (given.take("flexion_medial_mm"), given.take("flexion_lateral_mm"));
    Some(Corners {
        extension_medial: extension_medial?,
        extension_lateral: extension_lateral?,
        flexion_medial: flexion_medial?,
        flexion_lateral: flexion_lateral?,
    })
}

/// Takes the target, or the setting where it is left out.
pub(crate) fn take_target(given: &mut Given<'_>, limits: &Limits) -> Result<Target, Refusal> {
    let setting = Target::of(limits)?;
    Ok(Target {
        laxity: given.take("target_laxity_mm").unwrap_or(setting.laxity),
        tolerance: given.take("target_tolerance_mm").unwrap_or(setting.tolerance),
    })
}

/// Refuses corners that are too wide for laxities.
fn refuse_gaps(corners: &Corners) -> Result<(), Refusal> {
    let named = [
        ("extension_medial_mm", corners.extension_medial),
        ("extension_lateral_mm", corners.extension_lateral),
        ("flexion_medial_mm", corners.flexion_medial),
        ("flexion_lateral_mm", corners.flexion_lateral),
    ];
    let wide = named.into_iter().filter(|(_, opening)| opening.get() > MOST_LAXITY_MM);
    let problems: Vec<Problem> = wide
        .map(|(name, opening)| Problem {
            input: name.into(),
            message: format!(
                "a laxity lies between 0 and {MOST_LAXITY_MM} mm (got {}); is this a gap between cut surfaces? \
                 Then give extension_parts_mm and flexion_parts_mm too.",
                opening.get()
            ),
        })
        .collect();
    if problems.is_empty() { Ok(()) } else { Err(Refusal { problems }) }
}

fn answer(given: &mut Given<'_>, limits: &Limits) -> Result<Answer, Refusal> {
    let corners = take_corners(given);
    let (extension_parts, flexion_parts) = (given.take("extension_parts_mm"), given.take("flexion_parts_mm"));
    let target = take_target(given, limits)?;
    let Some(corners) = corners else { return Ok(given.needs()) };
    let parts = match (extension_parts, flexion_parts) {
        (Some(extension), Some(flexion)) => Parts { extension, flexion },
        (None, None) => {
            refuse_gaps(&corners)?;
            Parts::NONE
        }
        (Some(_), None) => return Err(Refusal::of("flexion_parts_mm", "give this too, or neither of the two.")),
        (None, Some(_)) => return Err(Refusal::of("extension_parts_mm", "give this too, or neither of the two.")),
    };
    let found = reckon(&corners, &parts, &target, limits);

    let mut answer = Answer::of(&RECKONING);
    answer.number("extension_difference_mm", found.extension_difference, "mm");
    answer.number("flexion_difference_mm", found.flexion_difference, "mm");
    answer.number("flexion_minus_extension_medial_mm", found.flexion_minus_extension_medial, "mm");
    answer.number("flexion_minus_extension_lateral_mm", found.flexion_minus_extension_lateral, "mm");
    answer.number("flexion_minus_extension_mean_mm", found.flexion_minus_extension_mean, "mm");
    answer.yes_no("extension_sides_even", found.extension_even);
    answer.yes_no("flexion_sides_even", found.flexion_even);
    answer.text(
        "flexion_against_extension",
        match found.sagittal {
            Sagittal::Even => "even",
            Sagittal::Uneven => "uneven",
            Sagittal::Severe => "severely uneven",
        },
    );
    for (name, state) in CORNERS.iter().zip(found.corners) {
        answer.text(*name, state.words());
    }
    answer.text("extension_space", found.extension.words());
    answer.text("flexion_space", found.flexion.words());
    answer.statements = options(found.extension, found.flexion)
        .iter()
        .map(|option| Statement {
            about: format!(
                "option a surgeon may weigh: {} in extension, {} in flexion",
                found.extension.words(),
                found.flexion.words()
            ),
            says: (*option).into(),
            source: TEXTBOOK,
        })
        .collect();
    answer.limits = limits.rows(&["gap_even_mm", "gap_severe_mm", "target_laxity_mm", "target_tolerance_mm"]);
    answer
        .note("Differences and laxities are rounded to 0.1 mm before comparing; a limit itself still counts as even.");
    if parts == Parts::NONE {
        answer.note("No thickness of parts was given: the four numbers are taken as laxities.");
    }
    if !(found.extension_even && found.flexion_even) {
        answer.note("The sides of a space differ; its state is that of the mean of both sides.");
    }
    if !answer.statements.is_empty() {
        answer.note(
            "The options follow one rule: the distal femur moves extension only, the posterior femur flexion only, \
             tibia and insert move both. They are named, not recommended.",
        );
    }
    Ok(answer)
}
