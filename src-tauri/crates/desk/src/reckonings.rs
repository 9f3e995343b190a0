//! Reckonings, where they come from, and the limits that a clinic keeps in its notebook.

use evengap_case::Problem;
use evengap_reckon::{Answer, Limits, RECKONINGS, Reckoning, Refusal, Source, SourceKind};
use serde::Serialize;
use serde_json::Value;
use ts_rs::TS;

use crate::{Desk, DeskError, ErrorCode, Right};

const LIMITS: &str = "limits";

/// One line of the table of sources.
#[derive(Debug, Clone, PartialEq, Serialize, TS)]
pub struct SourceLine {
    /// Name of the reckoning or of the limit.
    pub name: String,
    /// The formula; for a limit, what it limits and the number.
    pub formula: String,
    /// Authors and subject with journal or issuing body, or the habit of the trade.
    pub source: String,
    /// Year of publication, where there is one.
    pub year: Option<u16>,
    /// How well the source is held.
    pub kind: SourceKind,
}

impl Desk {
    /// Gives every reckoning with its inputs, formula and sources.
    pub fn reckonings(&self) -> &'static [Reckoning] {
        RECKONINGS
    }

    /// Computes one reckoning from named inputs, with the limits of the open notebook or the shipped ones.
    ///
    /// # Errors
    /// When there is no such reckoning, or an input is unknown or impossible (`refused`, with the names of the inputs).
    pub fn reckon(&self, name: &str, inputs: &Value) -> Result<Answer, DeskError> {
        let reckoning = evengap_reckon::find(name).ok_or_else(|| {
            let known: Vec<&str> = RECKONINGS.iter().map(|reckoning| reckoning.name).collect();
            DeskError::failed(format!("There is no reckoning “{name}”. There are: {}.", known.join(", ")))
        })?;
        Ok(reckoning.answer(inputs, &self.limits()?)?)
    }

    /// Gives the source of every formula and of every limit in force.
    ///
    /// # Errors
    /// When the limits of the open notebook can no longer be read.
    pub fn sources(&self) -> Result<Vec<SourceLine>, DeskError> {
        let formulas = RECKONINGS.iter().flat_map(|reckoning| {
            reckoning.sources.iter().map(|source| line(reckoning.name, reckoning.formula, source))
        });
        let limits = self.limits()?.table();
        let limits = limits.iter().map(|row| {
            let unit = row.unit.as_deref().unwrap_or_default();
            let space = if unit.is_empty() || unit == "°" { "" } else { " " };
            line(&row.name, &format!("limit: {}: {}{space}{unit}", row.about, row.value), &row.source)
        });
        Ok(formulas.chain(limits).collect())
    }

    /// Gives the limits of the open notebook, or the shipped ones.
    ///
    /// # Errors
    /// When the notebook can no longer be read.
    pub fn limits(&self) -> Result<Limits, DeskError> {
        let stored = self.notebook.as_ref().map(|notebook| notebook.setting(LIMITS)).transpose()?.flatten();
        stored.map_or_else(|| Ok(Limits::default()), |stored| Ok(Limits::read(&stored)?))
    }

    /// Keeps the limits of the open notebook. What is left out goes back to the shipped limit.
    ///
    /// # Errors
    /// When no notebook is open (`not_open`), or a limit is unknown, cannot be one or has no source
    /// (`refused`).
    pub fn limits_save(&mut self, limits: &Value) -> Result<Limits, DeskError> {
        let notebook = self.open_to_write_as(Right::Settings)?;
        let limits = Limits::read(&limits.to_string())?;
        if let Some(row) = limits.table().into_iter().find(|row| row.source.title.trim().is_empty()) {
            return Err(Refusal::of(row.name, "a limit needs its source: say who sets it.").into());
        }
        let stored = serde_json::to_string(&limits)
            .map_err(|error| DeskError::failed(format!("The limits cannot be stored: {error}.")))?;
        notebook.set_setting(LIMITS, &stored)?;
        Ok(limits)
    }
}

impl From<Refusal> for DeskError {
    fn from(refusal: Refusal) -> Self {
        let message = refusal.to_string();
        let places = refusal.problems.into_iter().filter(|problem| !problem.input.is_empty());
        let places = places.map(|problem| Problem { path: problem.input, message: problem.message }).collect();
        Self { code: ErrorCode::Refused, message, places }
    }
}

fn line(name: &str, formula: &str, source: &Source) -> SourceLine {
    let place = if source.place.is_empty() { String::new() } else { format!(", {}", source.place) };
    SourceLine {
        name: name.to_owned(),
        formula: formula.to_owned(),
        source: format!("{}{place}", source.title),
        year: source.year,
        kind: source.kind,
    }
}
