//! One reckoning as data: its name, inputs, formula and sources, and the thin JSON face over its typed function.

use serde::Serialize;
use serde_json::Value;
use ts_rs::TS;

use crate::answer::Answer;
use crate::given::{Given, said};
use crate::{Limits, Refusal, Source};

/// One input of a reckoning.
#[derive(Debug, Clone, Copy, Serialize, TS)]
pub struct Input {
    /// Name with the unit in it.
    pub name: &'static str,
    /// Unit, where it has one.
    pub unit: Option<&'static str>,
    /// What it is, in a few words; sign convention and default where there are any.
    pub about: &'static str,
    /// Nothing can be computed without it.
    pub required: bool,
    /// Inputs of each line, where the input is a list of lines.
    #[serde(skip_serializing_if = "<[Input]>::is_empty")]
    pub lines: &'static [Input],
}

impl Input {
    /// Declares an input without which nothing can be computed (an empty unit for none).
    pub const fn required(name: &'static str, unit: &'static str, about: &'static str) -> Self {
        Self { name, unit: unit_of(unit), about, required: true, lines: &[] }
    }

    /// Declares an input that adds to the results or replaces a default.
    pub const fn optional(name: &'static str, unit: &'static str, about: &'static str) -> Self {
        Self { name, unit: unit_of(unit), about, required: false, lines: &[] }
    }

    /// Makes the input a list of lines with these inputs.
    pub const fn lines(mut self, lines: &'static [Input]) -> Self {
        self.lines = lines;
        self
    }
}

const fn unit_of(unit: &'static str) -> Option<&'static str> {
    if unit.is_empty() { None } else { Some(unit) }
}

/// A reckoning: what it is called, what it takes, how it computes and where that comes from.
#[derive(Debug, Serialize, TS)]
pub struct Reckoning {
    /// Name on the command line, lower snake case.
    pub name: &'static str,
    /// Title that a person reads.
    pub title: &'static str,
    /// The formula in one or a few lines.
    pub formula: &'static str,
    /// What it takes.
    pub inputs: &'static [Input],
    /// Where formula and edges come from; limits carry their own.
    pub sources: &'static [Source],
    /// Reads the inputs, calls the typed function and writes its result down.
    #[serde(skip)]
    #[ts(skip)]
    pub answer: fn(&mut Given<'_>, &Limits) -> Result<Answer, Refusal>,
}

impl Reckoning {
    /// Computes from a JSON object of named inputs. The answer always carries `results`, `formula`, `inputs`, `limits`,
    /// `sources` and `notes`; a lacking input gives `not_computable`, never a guess.
    pub fn run(&'static self, inputs: &Value, limits: &Limits) -> Result<Value, Refusal> {
        let answer = self.answer(inputs, limits)?;
        serde_json::to_value(answer)
            .map_err(|error| Refusal::of("", format!("The answer cannot be written down: {error}.")))
    }

    /// Computes from a JSON object of named inputs, as [`Reckoning::run`], and gives the typed answer.
    pub fn answer(&'static self, inputs: &Value, limits: &Limits) -> Result<Answer, Refusal> {
        let Some(values) = inputs.as_object() else {
            let message = format!("A group of named inputs in braces is needed, not {}.", said(inputs));
            return Err(Refusal::of("", message));
        };
        let mut given = Given::open(self, values);
        match (self.answer)(&mut given, limits) {
            Ok(answer) => given.close(answer),
            // An input that was refused on its own says more than what followed from its absence.
            Err(_) if given.is_refused() => given.close(Answer::of(self)),
            Err(refusal) => Err(refusal),
        }
    }
}
