//! What a label says, and what about it looks wrong.

use std::borrow::Cow;

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// Says how to read: which year it is, and what the scanner sends between two elements.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Options {
    /// The calendar year in which the label is read; it decides the century of two-digit years.
    pub current_year: i32,
    /// Texts that this scanner sends where the code holds a separator, besides ASCII 29.
    pub separators: Vec<String>,
}

impl Options {
    /// Makes options for a scanner that sends separators as ASCII 29.
    #[must_use]
    pub fn new(current_year: i32) -> Self {
        Self { current_year, separators: Vec::new() }
    }
}

/// Names the standard that a scan follows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize, TS)]
#[serde(rename_all = "snake_case")]
#[ts(rename = "LabelScheme")]
pub enum Scheme {
    /// A GS1 element string.
    Gs1,
    /// A HIBC supplier label.
    Hibc,
    /// An ISBT 128 code, kept as scanned.
    Isbt128,
    /// Nothing that this crate reads.
    #[default]
    Unknown,
}

/// Holds one label: everything that its codes say.
///
/// `lot` and `serial` are always pieces of `raw`, character by character.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, TS)]
#[ts(rename = "ScannedLabel")]
pub struct Label {
    /// The scan as it came; two codes of one label stand on two lines.
    pub raw: String,
    /// The standard that the scan follows.
    pub scheme: Scheme,
    /// GTIN (AI 01) of 14 digits, or the HIBC labeler, product number and packaging level.
    pub device_identifier: Option<String>,
    /// The maker's own number where the label carries it: AI 240, or the HIBC product number.
    pub reference: Option<String>,
    /// The lot or batch.
    pub lot: Option<String>,
    /// The serial number.
    pub serial: Option<String>,
    /// The day of manufacture.
    pub made_on: Option<LabelDate>,
    /// The last day of use.
    pub expires_on: Option<LabelDate>,
    /// How many pieces the package holds.
    pub quantity: Option<u32>,
    /// Everything that the label says in the order of the codes, the fields above included.
    pub elements: Vec<Element>,
    /// What looks wrong, one sentence each.
    pub warnings: Vec<Warning>,
}

/// Holds a day on a label.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, TS)]
pub struct LabelDate {
    /// The day, `YYYY-MM-DD`; the last day of the month where the label states only the month.
    #[ts(type = "string")]
    pub on: NaiveDate,
    /// Whether the label states only the month.
    pub day_not_stated: bool,
}

/// Holds one element: an application identifier or a HIBC part with its value.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, TS)]
#[ts(rename = "LabelElement")]
pub struct Element {
    /// The application identifier such as `17`, or the HIBC part such as `16D`; empty: not recognised.
    pub code: String,
    /// What the code stands for, in words.
    #[ts(type = "string")]
    pub title: Cow<'static, str>,
    /// The value as scanned.
    pub value: String,
}

/// Says what looks wrong with a label.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, TS)]
#[ts(rename = "LabelWarning")]
pub struct Warning {
    /// The kind of doubt.
    pub code: WarningCode,
    /// One sentence for the reader.
    pub message: String,
}

/// Names the kinds of doubt.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, TS)]
#[serde(rename_all = "snake_case")]
#[ts(rename = "LabelWarningCode")]
pub enum WarningCode {
    /// The scan follows no standard known here.
    NotRecognised,
    /// The scheme is recognised but not decoded.
    NotDecoded,
    /// An application identifier or part is unknown.
    UnknownElement,
    /// A value is too short or too long.
    Length,
    /// A character does not belong to the allowed set.
    Character,
    /// A check digit or check character does not fit.
    CheckDigit,
    /// A date is impossible.
    Date,
    /// An element needs or forbids another one.
    Pairing,
    /// One element is there twice with two values, or two elements contradict each other.
    Conflict,
    /// A separator seems to be missing.
    Separator,
    /// The parts of the code do not stand as the standard asks.
    Structure,
    /// The lines of the scan belong to different labels.
    OtherLabel,
}

impl Label {
    /// Tells whether the label's last day of use lies before `day`; false without an expiry.
    #[must_use]
    pub fn expired_on(&self, day: NaiveDate) -> bool {
        self.expires_on.is_some_and(|expiry| day > expiry.on)
    }

    pub(crate) fn unread(raw: &str) -> Self {
        Self { raw: raw.to_owned(), ..Self::default() }
    }

    pub(crate) fn warn(&mut self, code: WarningCode, message: String) {
        self.warnings.push(Warning { code, message });
    }

    pub(crate) fn say(&mut self, code: &str, title: &'static str, value: &str) {
        self.elements.push(Element { code: code.to_owned(), title: Cow::Borrowed(title), value: value.to_owned() });
    }
}

/// Shortens a value for a sentence and makes its control characters visible.
pub(crate) fn shown(value: &str) -> String {
    const MOST: usize = 40;
    let mut text: String =
        value.chars().take(MOST).map(|character| if character.is_control() { '\u{b7}' } else { character }).collect();
    if value.chars().nth(MOST).is_some() {
        text.push('…');
    }
    text
}
