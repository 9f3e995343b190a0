//! Everything about a paper that does not come from its entry: when, by whom, for which sheet, in what
//! language, how the entry stands, and the clinic's settings.

use evengap_case::{Case, LocalTime};
use serde::{Deserialize, Serialize};
use ts_rs::TS;

use crate::Language;
use crate::document::Page;
use crate::words::Words;

/// How days are written on papers in English. Other languages keep their own habit.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize, TS)]
#[serde(rename_all = "snake_case")]
pub enum DateFormat {
    /// 4 March 2026
    #[default]
    DayMonthInWords,
    /// March 4, 2026
    MonthInWordsDay,
    /// 2026-03-04
    YearMonthDay,
}

/// What a clinic sets once for all its papers.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, TS)]
#[serde(default)]
pub struct PaperSettings {
    /// How days are written.
    pub date_format: DateFormat,
    /// The number that calls an ambulance. 112 works throughout the European Union and the United Kingdom.
    pub emergency_number: String,
    /// Fever above which the patient calls the same day, in °C. 38 is common practice, without a source.
    pub fever_c: f64,
    /// The translations that somebody of the clinic has checked; all others say that they wait for it.
    pub confirmed_translations: Vec<Language>,
}

impl PaperSettings {
    /// Tells whether the papers in a language need no notice: English is the original.
    pub fn is_confirmed(&self, language: Language) -> bool {
        language == Language::En || self.confirmed_translations.contains(&language)
    }
}

impl Default for PaperSettings {
    fn default() -> Self {
        Self {
            date_format: DateFormat::default(),
            emergency_number: "112".into(),
            fever_c: 38.0,
            confirmed_translations: Vec::new(),
        }
    }
}

/// How the entry of a paper stands.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum Standing {
    /// It may still change; every page says so.
    #[default]
    Draft,
    /// It was signed.
    Signed {
        /// Who signed.
        by: String,
        /// When.
        at: LocalTime,
        /// What tells the version that is printed from every other, as hexadecimal digits, where it is at hand. The
        /// note prints the first 16 of them, to be held against the notebook.
        fingerprint: Option<String>,
    },
}

/// What was added to a signed entry: words, and the entry as it is since then.
#[derive(Debug, Clone, PartialEq)]
pub struct Addendum {
    /// 1 for the first.
    pub number: u32,
    /// What it says and why it was added.
    pub text: String,
    /// Who added it.
    pub by: String,
    /// When.
    pub at: LocalTime,
    /// The entry as it was before.
    pub before: Case,
}

/// A surgeon's own template, in place of the built-in one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OwnTemplate {
    /// Name, as printed on the paper.
    pub name: String,
    /// Version, as printed on the paper.
    pub version: u32,
    /// The template.
    pub source: String,
}

/// The circumstances of writing a paper: everything that does not come from the entry.
#[derive(Debug, Clone, PartialEq)]
pub struct Occasion {
    /// Local time of writing.
    pub made_at: LocalTime,
    /// Who writes it; nothing where nobody is named, which the paper says.
    pub author: String,
    /// Sheet of the PDF.
    pub page: Page,
    /// Whether the patient is invented.
    pub demonstration: bool,
    /// The clinic's settings.
    pub settings: PaperSettings,
    /// The language; one that the paper does not have is written in English.
    pub language: Language,
    /// How the entry stands.
    pub standing: Standing,
    /// What the addendum adds; only the addendum prints it.
    pub addendum: Option<Addendum>,
    /// The template in force, where it is not the built-in one.
    pub template: Option<OwnTemplate>,
}

impl Occasion {
    /// Makes a plain occasion: A4, English, a draft, shipped settings and templates.
    pub fn new(made_at: LocalTime, author: impl Into<String>) -> Self {
        Self {
            made_at,
            author: author.into(),
            page: Page::default(),
            demonstration: false,
            settings: PaperSettings::default(),
            language: Language::default(),
            standing: Standing::default(),
            addendum: None,
            template: None,
        }
    }

    /// Names who writes, or says that nobody is named.
    pub(crate) fn author_in<'a>(&'a self, words: &'a Words) -> &'a str {
        if self.author.trim().is_empty() { &words.author_not_named } else { &self.author }
    }
}
