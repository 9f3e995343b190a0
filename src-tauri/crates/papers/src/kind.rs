//! The papers that can be written, and the languages in which they are.

use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// The papers that can be written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, TS)]
#[serde(rename_all = "kebab-case")]
#[ts(rename = "PaperKind")]
pub enum Kind {
    /// For the ward and the file.
    OperativeNote,
    /// For the patient.
    DischargeLetter,
    /// For the family doctor or whoever sent the patient.
    ClinicianLetter,
    /// For the patient's pocket and the file: every component.
    ComponentRecord,
    /// What was added to a signed entry.
    Addendum,
}

impl Kind {
    /// Every kind, in the order in which they are offered.
    pub const ALL: [Self; 5] =
        [Self::OperativeNote, Self::DischargeLetter, Self::ClinicianLetter, Self::ComponentRecord, Self::Addendum];

    /// The name on the command line and in file names.
    pub fn name(self) -> &'static str {
        match self {
            Self::OperativeNote => "operative-note",
            Self::DischargeLetter => "discharge-letter",
            Self::ClinicianLetter => "clinician-letter",
            Self::ComponentRecord => "component-record",
            Self::Addendum => "addendum",
        }
    }

    /// The words that a person reads.
    pub fn words(self) -> &'static str {
        match self {
            Self::OperativeNote => "Operative note",
            Self::DischargeLetter => "Discharge letter",
            Self::ClinicianLetter => "Clinician letter",
            Self::ComponentRecord => "Component record",
            Self::Addendum => "Addendum",
        }
    }

    /// The languages in which it can be written; English first.
    pub fn languages(self) -> &'static [Language] {
        match self {
            Self::DischargeLetter => &Language::ALL,
            Self::OperativeNote | Self::ClinicianLetter | Self::ComponentRecord | Self::Addendum => &[Language::En],
        }
    }

    /// The language in which it is written when `asked` is wanted: English where it has no other.
    pub fn in_language(self, asked: Language) -> Language {
        if self.languages().contains(&asked) { asked } else { Language::En }
    }
}

/// The language of a paper.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, TS)]
#[serde(rename_all = "lowercase")]
#[ts(rename = "PaperLanguage")]
pub enum Language {
    /// English.
    #[default]
    En,
    /// German.
    De,
    /// Spanish.
    Es,
}

impl Language {
    /// Every language, English first.
    pub const ALL: [Self; 3] = [Self::En, Self::De, Self::Es];

    /// The code of ISO 639-1.
    pub fn code(self) -> &'static str {
        match self {
            Self::En => "en",
            Self::De => "de",
            Self::Es => "es",
        }
    }

    /// Its own name for itself.
    pub fn words(self) -> &'static str {
        match self {
            Self::En => "English",
            Self::De => "Deutsch",
            Self::Es => "Español",
        }
    }

    /// The language tag of a text in it (BCP 47).
    pub fn tag(self) -> &'static str {
        match self {
            Self::En => "en-GB",
            Self::De => "de",
            Self::Es => "es",
        }
    }
}
