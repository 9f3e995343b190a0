//! What is wrong with a template, with its place: line and column as an editor counts them.

use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// One thing that is wrong with a template.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, TS)]
pub struct Flaw {
    /// Line, from 1.
    pub line: usize,
    /// Column, from 1, in characters.
    pub column: usize,
    /// What is wrong, in one sentence.
    pub message: String,
    /// What may help, in one sentence.
    pub hint: Option<String>,
}

impl Flaw {
    /// Says what is wrong and what may help, without the place.
    pub fn sentence(&self) -> String {
        match &self.hint {
            Some(hint) => format!("{} {hint}", self.message),
            None => self.message.clone(),
        }
    }
}

impl std::fmt::Display for Flaw {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Line {}, column {}: {}", self.line, self.column, self.sentence())
    }
}

/// A flaw at a byte of the source; several checks find them in any order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Found {
    pub at: usize,
    pub message: String,
    pub hint: Option<String>,
}

impl Found {
    pub fn new(at: usize, message: impl Into<String>) -> Self {
        Self { at, message: message.into(), hint: None }
    }

    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }
}

/// Flaws beyond this many are not listed: the first ones explain the rest.
pub(super) const MOST: usize = 50;

/// Gives flaws their lines and columns, in order of place, each once.
pub(super) fn placed(source: &str, mut found: Vec<Found>) -> Vec<Flaw> {
    found.sort_by_key(|found| found.at);
    found.dedup();
    found.truncate(MOST);
    found
        .into_iter()
        .map(|Found { at, message, hint }| {
            let (line, column) = place(source, at);
            Flaw { line, column, message, hint }
        })
        .collect()
}

/// Counts line and column of a byte, both from 1.
pub(super) fn place(source: &str, at: usize) -> (usize, usize) {
    let before = source.get(..at).unwrap_or(source);
    let start = before.rfind('\n').map_or(0, |feed| feed + 1);
    (before.matches('\n').count() + 1, before[start..].chars().count() + 1)
}
