//! What a reckoning answers: the results with units, and everything needed to print how they came about.

use serde::Serialize;
use serde_json::Value;
use ts_rs::TS;

use crate::number::shown;
use crate::{LimitRow, Reckoning, Source};

/// One result.
#[derive(Debug, Clone, PartialEq, Serialize, TS)]
pub struct Output {
    /// Name with the unit in it, such as `ahka_deg`.
    pub name: String,
    /// A number (four decimals at most), a text, yes or no, or a list; null where it is not computable.
    #[ts(type = "number | string | boolean | null | unknown[]")]
    pub value: Value,
    /// Unit, where it has one.
    pub unit: Option<String>,
    /// What is needed, where it could not be computed.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub not_computable: Option<String>,
}

/// An input as it was given.
#[derive(Debug, Clone, PartialEq, Serialize, TS)]
pub struct Echo {
    /// Name of the input.
    pub name: String,
    /// The value as given.
    #[ts(type = "unknown")]
    pub value: Value,
    /// Unit, where it has one.
    pub unit: Option<String>,
}

/// A statement that stands beside the numbers: an option that a surgeon may weigh, or a criterion.
#[derive(Debug, Clone, PartialEq, Serialize, TS)]
pub struct Statement {
    /// What it is about.
    pub about: String,
    /// What it says.
    pub says: String,
    /// Where it comes from.
    pub source: Source,
}

/// The answer of a reckoning.
#[derive(Debug, Clone, PartialEq, Serialize, TS)]
pub struct Answer {
    /// Name of the reckoning.
    pub reckoning: String,
    /// Its title.
    pub title: String,
    /// What is needed, where nothing could be computed.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[ts(optional)]
    pub not_computable: Option<String>,
    /// The results.
    pub results: Vec<Output>,
    /// Options a surgeon may weigh, or criteria; empty for most reckonings.
    pub statements: Vec<Statement>,
    /// How the results follow from the inputs.
    pub formula: String,
    /// The inputs as given.
    pub inputs: Vec<Echo>,
    /// The limits that results were held against, each with its source.
    pub limits: Vec<LimitRow>,
    /// Where the formula comes from.
    pub sources: Vec<Source>,
    /// What a reader must know, such as how was rounded.
    pub notes: Vec<String>,
}

impl Answer {
    /// Begins an answer that carries formula and sources.
    pub fn of(reckoning: &Reckoning) -> Self {
        Self {
            reckoning: reckoning.name.into(),
            title: reckoning.title.into(),
            not_computable: None,
            results: Vec::new(),
            statements: Vec::new(),
            formula: reckoning.formula.into(),
            inputs: Vec::new(),
            limits: Vec::new(),
            sources: reckoning.sources.to_vec(),
            notes: Vec::new(),
        }
    }

    /// Adds a number with its unit (an empty unit for none).
    pub fn number(&mut self, name: impl Into<String>, value: f64, unit: &str) {
        self.push(name, Value::from(shown(value)), unit);
    }

    /// Adds a number, or says what it needs.
    pub fn number_or(&mut self, name: impl Into<String>, value: Option<f64>, unit: &str, needs: &[&str]) {
        match value {
            Some(value) => self.number(name, value, unit),
            None => self.lacks(name, unit, needs),
        }
    }

    /// Adds a text.
    pub fn text(&mut self, name: impl Into<String>, value: impl Into<String>) {
        self.push(name, Value::String(value.into()), "");
    }

    /// Adds a yes or no.
    pub fn yes_no(&mut self, name: impl Into<String>, value: bool) {
        self.push(name, Value::Bool(value), "");
    }

    /// Adds any value.
    pub fn push(&mut self, name: impl Into<String>, value: Value, unit: &str) {
        let unit = (!unit.is_empty()).then(|| unit.to_owned());
        self.results.push(Output { name: name.into(), value, unit, not_computable: None });
    }

    /// Adds a result that could not be computed, with what it needs.
    pub fn lacks(&mut self, name: impl Into<String>, unit: &str, needs: &[&str]) {
        let unit = (!unit.is_empty()).then(|| unit.to_owned());
        let needs = Some(crate::given::needs(needs));
        self.results.push(Output { name: name.into(), value: Value::Null, unit, not_computable: needs });
    }

    /// Adds a note.
    pub fn note(&mut self, note: impl Into<String>) {
        self.notes.push(note.into());
    }
}
