//! The tourniquet: cuff pressure over the limb occlusion pressure, and time under it.

use crate::given::Given;
use crate::{Answer, Input, LimitRow, Limits, Moment, Pressure, Reckoning, Refusal, Source};

const MARGINS: Source = Source::from_memory(
    "Noordin et al., surgical tourniquets in orthopaedics (AORN margins as quoted there)",
    2009,
    "J Bone Joint Surg Am 91:2958",
);
const SUM: Source = Source::common_practice("Sum of the inflations");

/// Finds the margin in mmHg for a limb occlusion pressure, rounded to whole mmHg. Nothing where no band reaches it.
pub fn cuff_margin_mmhg(occlusion: Pressure, limits: &Limits) -> Option<f64> {
    let whole = occlusion.get().round();
    limits
        .cuff_margins
        .iter()
        .find(|band| band.up_to_mmhg.is_none_or(|up_to| whole <= up_to))
        .map(|band| band.margin_mmhg)
}

/// One inflation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Inflation {
    /// Up at.
    pub up: Moment,
    /// Down at.
    pub down: Moment,
}

/// Time under tourniquet; minutes.
#[derive(Debug, Clone, PartialEq)]
pub struct TourniquetTime {
    /// Sum of the inflations.
    pub total: f64,
    /// The longest inflation.
    pub longest: f64,
    /// Pauses between inflations, in order.
    pub pauses: Vec<f64>,
    /// The total is above its limit.
    pub total_over: bool,
    /// A pause is under its limit.
    pub pause_short: bool,
}

/// Sums inflations. Refuses one that ends before it begins, or begins before the one before it has ended;
/// `name` is the name of the list in the refusal, such as `inflations`. An empty list sums to nothing.
pub fn reckon(name: &str, inflations: &[Inflation], limits: &Limits) -> Result<TourniquetTime, Refusal> {
    let (mut total, mut longest, mut pauses) = (0.0, 0.0_f64, Vec::new());
    for (index, inflation) in inflations.iter().enumerate() {
        let (up_at, down_at) = (format!("{name}[{index}].up_at"), format!("{name}[{index}].down_at"));
        let lasted = inflation.down.since(&down_at, inflation.up, &up_at)?;
        if lasted < 0.0 {
            return Err(Refusal::of(down_at, format!("the tourniquet cannot come down before it went up ({up_at}).")));
        }
        if let Some(before) = index.checked_sub(1).and_then(|before| inflations.get(before)) {
            let before_at = format!("{name}[{}].down_at", index - 1);
            let pause = inflation.up.since(&up_at, before.down, &before_at)?;
            if pause < 0.0 {
                return Err(Refusal::of(
                    up_at,
                    format!("this inflation begins before the one before it ended ({before_at})."),
                ));
            }
            pauses.push(pause);
        }
        total += lasted;
        longest = longest.max(lasted);
    }
    let total_over = total > limits.tourniquet_total_min.value;
    let pause_short = pauses.iter().any(|&pause| pause < limits.tourniquet_gap_min.value);
    Ok(TourniquetTime { total, longest, pauses, total_over, pause_short })
}

/// Cuff pressure from the limb occlusion pressure.
pub const CUFF_PRESSURE: Reckoning = Reckoning {
    name: "cuff_pressure",
    title: "Cuff pressure from limb occlusion pressure",
    formula: "cuff pressure = limb occlusion pressure + margin of its band",
    inputs: &[
        Input::required("limb_occlusion_mmhg", "mmHg", "limb occlusion pressure"),
        Input::optional("pressure_mmhg", "mmHg", "pressure that the cuff was set to"),
    ],
    sources: &[MARGINS],
    answer: cuff_answer,
};

/// Time under tourniquet.
pub const TOURNIQUET_TIME: Reckoning = Reckoning {
    name: "tourniquet_time",
    title: "Time under tourniquet",
    formula: "total = sum of (down − up); pause = up − the down before it",
    inputs: &[Input::required("inflations", "", "list of inflations, in order").lines(&[
        Input::required("up_at", "", "up at: YYYY-MM-DDTHH:MM, or minutes"),
        Input::required("down_at", "", "down at, given in the same way"),
    ])],
    sources: &[SUM],
    answer: time_answer,
};

fn cuff_answer(given: &mut Given<'_>, limits: &Limits) -> Result<Answer, Refusal> {
    let (occlusion, set) = (given.take::<Pressure>("limb_occlusion_mmhg"), given.take::<Pressure>("pressure_mmhg"));
    let Some(occlusion) = occlusion else { return Ok(given.needs()) };
    let mut answer = Answer::of(&CUFF_PRESSURE);
    let margin = cuff_margin_mmhg(occlusion, limits);
    let pressure = margin.map(|margin| occlusion.get() + margin);
    answer.number_or("margin_mmhg", margin, "mmHg", &["a band for this pressure in cuff_margins"]);
    answer.number_or("cuff_pressure_mmhg", pressure, "mmHg", &["a band for this pressure in cuff_margins"]);
    if let (Some(set), Some(pressure)) = (set, pressure) {
        answer.number("set_minus_reckoned_mmhg", set.get() - pressure, "mmHg");
    }
    answer.limits = limits.cuff_margins.iter().flat_map(|band| band.rows()).collect::<Vec<LimitRow>>();
    answer.note("The occlusion pressure is rounded to whole mmHg before its band is found.");
    Ok(answer)
}

fn time_answer(given: &mut Given<'_>, limits: &Limits) -> Result<Answer, Refusal> {
    let inflations = given.lines("inflations", |line| {
        let (up, down) = (line.take("up_at"), line.take("down_at"));
        Some(Inflation { up: up?, down: down? })
    });
    let Some(inflations) = inflations else { return Ok(given.needs()) };
    let found = reckon("inflations", &inflations, limits)?;
    let mut answer = Answer::of(&TOURNIQUET_TIME);
    answer.number("total_min", found.total, "min");
    answer.number("longest_min", found.longest, "min");
    answer.push("pauses_min", found.pauses.into(), "min");
    answer.yes_no("total_over_limit", found.total_over);
    answer.yes_no("pause_under_limit", found.pause_short);
    answer.limits = limits.rows(&["tourniquet_total_min", "tourniquet_gap_min"]);
    Ok(answer)
}
