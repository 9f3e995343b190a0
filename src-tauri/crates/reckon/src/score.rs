//! The Oxford Knee Score: its two scales, and a change held against the published minimal important change.
//!
//! Totals only. The twelve questions are licensed and nowhere in the program.

use serde_json::Value;

use crate::given::{Given, Read, codes};
use crate::number::number;
use crate::{Answer, Input, Limits, Reckoning, Refusal, Source};

/// Both scales are mirror images about this sum.
const OLD_PLUS_NEW: f64 = 60.0;

codes! {
    /// The scale on which a total was written down.
    pub enum Scale {
        New = "0-48" => "0 to 48, 48 best",
        Old = "12-60" => "12 to 60, 12 best",
    }
}

/// Oxford Knee Score: both scales, and the change.
pub const RECKONING: Reckoning = Reckoning {
    name: "score",
    title: "Oxford Knee Score",
    formula: "old scale (12 to 60, 12 best) = 60 − new scale (0 to 48, 48 best); change = score − score before, new scale",
    inputs: &[
        Input::required("scale", "", "scale of the given totals: 0-48 (48 best) or 12-60 (12 best)"),
        Input::required("score", "points", "the total"),
        Input::optional("score_before", "points", "an earlier total on the same scale, for the change"),
        Input::optional(
            "group",
            "",
            "true where the totals are the means of a group; false or left out for one person",
        ),
    ],
    sources: &[
        Source::published(
            "Murray et al., The use of the Oxford hip and knee scores",
            2007,
            "J Bone Joint Surg Br 89:1010",
        ),
        Source::published(
            "Beard et al., Meaningful changes for the Oxford hip and knee scores after joint replacement surgery",
            2015,
            "J Clin Epidemiol 68:73",
        ),
    ],
    answer,
};

/// A total of the Oxford Knee Score, kept on the new scale.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Oxford(f64);

impl Oxford {
    /// Admits a total on its scale, or refuses it with a sentence that begins with `name`. One person's total is whole;
    /// the mean of a group need not be.
    pub fn new(name: &str, total: f64, scale: Scale, group: bool) -> Result<Self, Refusal> {
        let (least, most) = match scale {
            Scale::New => (0.0, 48.0),
            Scale::Old => (12.0, 60.0),
        };
        if !(least..=most).contains(&total) {
            let message = format!(
                "an Oxford Knee Score on the scale {} lies between {least} and {most} (got {total}).",
                scale.code()
            );
            return Err(Refusal::of(name, message));
        }
        if total.fract() != 0.0 && !group {
            return Err(Refusal::of(name, format!("one person's total is a whole number (got {total}).")));
        }
        Ok(Self(match scale {
            Scale::New => total,
            Scale::Old => OLD_PLUS_NEW - total,
        }))
    }

    /// Points on the scale 0 to 48, 48 best.
    pub const fn new_scale(self) -> f64 {
        self.0
    }

    /// Points on the scale 12 to 60, 12 best.
    pub const fn old_scale(self) -> f64 {
        OLD_PLUS_NEW - self.0
    }

    /// Points gained since an earlier total; positive is better.
    pub fn change_since(self, before: Self) -> f64 {
        self.0 - before.0
    }
}

/// A total whose scale is not settled yet.
struct Total(f64);

impl Read for Total {
    fn read(name: &str, value: &Value) -> Result<Self, Refusal> {
        number(name, value).map(Self)
    }
}

fn answer(given: &mut Given<'_>, limits: &Limits) -> Result<Answer, Refusal> {
    let (scale, score) = (given.take::<Scale>("scale"), given.take::<Total>("score"));
    let before = given.take::<Total>("score_before");
    let group = given.take::<bool>("group").unwrap_or(false);
    let (Some(scale), Some(score)) = (scale, score) else {
        return Ok(given.needs());
    };
    let score = Oxford::new("score", score.0, scale, group)?;
    let before = before.map(|before| Oxford::new("score_before", before.0, scale, group)).transpose()?;
    let mut answer = Answer::of(&RECKONING);
    answer.number("score_0_48", score.new_scale(), "points of 48, 48 best");
    answer.number("score_12_60", score.old_scale(), "points from 12 to 60, 12 best");
    match before {
        None => answer.lacks("change", "points", &["score_before"]),
        Some(before) => {
            let change = score.change_since(before);
            let (limit, name) = if group {
                (&limits.oxford_group_change, "oxford_group_change")
            } else {
                (&limits.oxford_individual_change, "oxford_individual_change")
            };
            answer.number("score_before_0_48", before.new_scale(), "points of 48, 48 best");
            answer.number("change", change, "points");
            answer.yes_no("reaches_minimal_important_change", change >= limit.value);
            answer.limits = limits.rows(&[name]);
        }
    }
    answer.note(
        "A positive change is an improvement. The limit for one person and the limit for the mean of a group differ.",
    );
    Ok(answer)
}
