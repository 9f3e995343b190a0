//! What a clinic sets once for all its papers; kept in the notebook.

use evengap_papers::PaperSettings;

use crate::{Desk, DeskError, Right};

const PAPERS: &str = "papers";
const SEPARATORS: &str = "scanner_separators";
/// Fever limits outside of this range are a slip of the keyboard. Common practice, no source.
const FEVER_C: std::ops::RangeInclusive<f64> = 37.0..=40.0;

impl Desk {
    /// Gives the texts that this place's scanners send between two elements of a label, besides ASCII 29.
    ///
    /// # Errors
    /// When the notebook can no longer be read.
    pub fn scanner_separators(&self) -> Result<Vec<String>, DeskError> {
        let stored = self.notebook.as_ref().map(|notebook| notebook.setting(SEPARATORS)).transpose()?.flatten();
        stored.map_or_else(
            || Ok(Vec::new()),
            |stored| {
                serde_json::from_str(&stored).map_err(|error| {
                    DeskError::failed(format!("The separators of the scanner cannot be read: {error}."))
                })
            },
        )
    }

    /// Keeps what this place's scanners send between two elements.
    ///
    /// # Errors
    /// When no notebook is open (`not_open`), or a separator could also be part of a lot or serial number.
    pub fn scanner_separators_save(&mut self, separators: Vec<String>) -> Result<Vec<String>, DeskError> {
        self.open_as(Right::Settings)?;
        let separators: Vec<String> = separators.into_iter().filter(|separator| !separator.is_empty()).collect();
        if let Some(wrong) = separators.iter().find(|separator| separator.chars().all(char::is_alphanumeric)) {
            return Err(DeskError::failed(format!(
                "Separator “{wrong}”: letters and digits stand in lots and serial numbers; write the sign that the scanner sends, such as ^ or |."
            )));
        }
        let stored = serde_json::json!(separators).to_string();
        self.open_to_write_as(Right::Settings)?.set_setting(SEPARATORS, &stored)?;
        Ok(separators)
    }

    /// Gives the settings of the open notebook's papers, or the shipped ones.
    ///
    /// # Errors
    /// When the notebook can no longer be read.
    pub fn paper_settings(&self) -> Result<PaperSettings, DeskError> {
        let Some(notebook) = &self.notebook else {
            return Ok(PaperSettings::default());
        };
        match notebook.setting(PAPERS)? {
            None => Ok(PaperSettings::default()),
            Some(stored) => serde_json::from_str(&stored)
                .map_err(|error| DeskError::failed(format!("The settings for papers cannot be read: {error}."))),
        }
    }

    /// Keeps the settings of the open notebook's papers.
    ///
    /// # Errors
    /// When no notebook is open (`not_open`), or a setting cannot be right.
    pub fn paper_settings_save(&mut self, mut settings: PaperSettings) -> Result<PaperSettings, DeskError> {
        self.open_as(Right::Settings)?;
        settings.emergency_number = settings.emergency_number.trim().to_owned();
        let number = &settings.emergency_number;
        if number.chars().filter(char::is_ascii_digit).count() < 2 || number.chars().count() > 20 {
            return Err(DeskError::failed(
                "Emergency number: write the number that calls an ambulance where your patients live, such as 112.",
            ));
        }
        if !FEVER_C.contains(&settings.fever_c) {
            return Err(DeskError::failed(format!(
                "Fever limit: write a temperature from {} to {} °C.",
                FEVER_C.start(),
                FEVER_C.end()
            )));
        }
        let stored = serde_json::to_string(&settings)
            .map_err(|error| DeskError::failed(format!("The settings for papers cannot be stored: {error}.")))?;
        self.open_to_write_as(Right::Settings)?.set_setting(PAPERS, &stored)?;
        Ok(settings)
    }
}
