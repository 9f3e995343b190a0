//! The clock of a mix of cement: mixed, applied, seated, hard. Times as they were; what a maker prints is not known here.

use crate::given::Given;
use crate::{Answer, Celsius, Input, Limits, Moment, Reckoning, Refusal, Source};

/// The times of one mix.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mix {
    /// Mixed at.
    pub mixed: Moment,
    /// Applied at.
    pub applied: Option<Moment>,
    /// Seated at.
    pub seated: Option<Moment>,
    /// Hard at.
    pub hard: Option<Moment>,
}

/// The steps of one mix; minutes, each where both of its times are known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MixTimes {
    /// Mixed to applied.
    pub mixed_to_applied: Option<f64>,
    /// Applied to seated.
    pub applied_to_seated: Option<f64>,
    /// Seated to hard.
    pub seated_to_hard: Option<f64>,
    /// Mixed to seated.
    pub mixed_to_seated: Option<f64>,
    /// Mixed to hard.
    pub mixed_to_hard: Option<f64>,
}

/// Computes the steps of one mix. Refuses times out of order; `name` is the prefix in the refusal, such as `mixes[0].`.
pub fn reckon(name: &str, mix: &Mix) -> Result<MixTimes, Refusal> {
    let times =
        [("mixed_at", Some(mix.mixed)), ("applied_at", mix.applied), ("seated_at", mix.seated), ("hard_at", mix.hard)];
    let step = |from: usize, to: usize| {
        let ((from_name, from), (to_name, to)) = (times[from], times[to]);
        let (Some(from), Some(to)) = (from, to) else { return Ok(None) };
        let to_name = format!("{name}{to_name}");
        let minutes = to.since(&to_name, from, &format!("{name}{from_name}"))?;
        if minutes < 0.0 {
            return Err(Refusal::of(to_name, format!("this comes before {name}{from_name}; check both times.")));
        }
        Ok(Some(minutes))
    };
    // applied to hard is not shown, but must be in order too
    step(1, 3)?;
    Ok(MixTimes {
        mixed_to_applied: step(0, 1)?,
        applied_to_seated: step(1, 2)?,
        seated_to_hard: step(2, 3)?,
        mixed_to_seated: step(0, 2)?,
        mixed_to_hard: step(0, 3)?,
    })
}

/// The reckoning as data.
pub const RECKONING: Reckoning = Reckoning {
    name: "cement_times",
    title: "Times of the cement",
    formula: "each step = its time − the time of the step before it; mixed to hard = hard − mixed",
    inputs: &[Input::required("mixes", "", "list of mixes").lines(&[
        Input::required("mixed_at", "", "mixed at: YYYY-MM-DDTHH:MM, or minutes"),
        Input::optional("applied_at", "", "applied at, given in the same way"),
        Input::optional("seated_at", "", "seated at, given in the same way"),
        Input::optional("hard_at", "", "hard at, given in the same way"),
        Input::optional("storage_c", "°C", "storage temperature"),
        Input::optional("theatre_c", "°C", "theatre temperature"),
    ])],
    sources: &[
        Source::from_memory("ISO 5833, implants for surgery: acrylic resin cements", 2002, "ISO"),
        Source::published(
            "Koh et al., storage temperature and equilibration time of bone cement",
            2015,
            "J Orthop Surg Res 10:178",
        ),
        Source::common_practice("About ten minutes from mixing to hard in theatre"),
    ],
    answer,
};

fn answer(given: &mut Given<'_>, limits: &Limits) -> Result<Answer, Refusal> {
    let mixes = given.lines("mixes", |line| {
        let mixed = line.take("mixed_at");
        let (applied, seated, hard) = (line.take("applied_at"), line.take("seated_at"), line.take("hard_at"));
        let (storage, theatre) = (line.take::<Celsius>("storage_c"), line.take::<Celsius>("theatre_c"));
        Some((Mix { mixed: mixed?, applied, seated, hard }, storage, theatre))
    });
    let Some(mixes) = mixes else { return Ok(given.needs()) };
    let mut answer = Answer::of(&RECKONING);
    for (index, (mix, storage, theatre)) in mixes.iter().enumerate() {
        let times = reckon(&format!("mixes[{index}]."), mix)?;
        let steps = [
            ("mixed_to_applied", times.mixed_to_applied, ["applied_at"].as_slice()),
            ("applied_to_seated", times.applied_to_seated, &["applied_at", "seated_at"]),
            ("seated_to_hard", times.seated_to_hard, &["seated_at", "hard_at"]),
            ("mixed_to_seated", times.mixed_to_seated, &["seated_at"]),
            ("mixed_to_hard", times.mixed_to_hard, &["hard_at"]),
        ];
        let given = |name: &str| match name {
            "applied_at" => mix.applied.is_some(),
            "seated_at" => mix.seated.is_some(),
            _ => mix.hard.is_some(),
        };
        for (name, minutes, needs) in steps {
            let lacking: Vec<&str> = needs.iter().copied().filter(|need| !given(need)).collect();
            answer.number_or(format!("mix_{}_{name}_min", index + 1), minutes, "min", &lacking);
        }
        if let Some(warmer) = storage.zip(*theatre).map(|(storage, theatre)| storage.get() - theatre.get()) {
            answer.number(format!("mix_{}_storage_minus_theatre_c", index + 1), warmer, "°C");
        }
    }
    answer.limits =
        limits.rows(&["cement_setting_least_min", "cement_setting_most_min", "cement_theatre_c", "cement_hard_min"]);
    answer.note("The standard's 3 to 15 minutes belong to its setting test at 23 °C, not to the theatre.");
    answer.note("Warm storage shortens the time to hard.");
    Ok(answer)
}
