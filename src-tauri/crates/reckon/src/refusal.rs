//! What is wrong with the numbers that were given. One sentence per input, all of them at once.

use std::fmt;

use serde::Serialize;
use ts_rs::TS;

/// One input that cannot be used, and why.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct Problem {
    /// Name of the input, such as `kerf_mm` or `inflations[1].down_at`.
    pub input: String,
    /// What is wrong and what to give instead; ends with a full stop.
    pub message: String,
}

/// Inputs that cannot be used. Displays one sentence per input.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, thiserror::Error)]
pub struct Refusal {
    /// The problems in the order of the inputs; never empty.
    pub problems: Vec<Problem>,
}

impl Refusal {
    /// Refuses one input.
    pub fn of(input: impl Into<String>, message: impl Into<String>) -> Self {
        Self { problems: vec![Problem { input: input.into(), message: message.into() }] }
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, problem) in self.problems.iter().enumerate() {
            if index > 0 {
                f.write_str(" ")?;
            }
            if problem.input.is_empty() {
                f.write_str(&problem.message)?;
            } else {
                write!(f, "{}: {}", problem.input, problem.message)?;
            }
        }
        Ok(())
    }
}
