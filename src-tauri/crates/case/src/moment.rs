//! Dates, local times and identifiers, parsed once and then trusted.

use std::fmt;
use std::str::FromStr;

use chrono::{NaiveDate, NaiveDateTime};
use serde::{Deserialize, Serialize};
use ts_rs::TS;
use uuid::Uuid;

use crate::dictionary::{Answer, Kind};

/// A calendar day, written `YYYY-MM-DD`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, TS)]
#[serde(try_from = "String", into = "String")]
#[ts(type = "string")]
pub struct Date(pub NaiveDate);

/// A local date and time to the minute, written `YYYY-MM-DDTHH:MM`. A case may cross midnight.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, TS)]
#[serde(try_from = "String", into = "String")]
#[ts(type = "string")]
pub struct LocalTime(pub NaiveDateTime);

/// The identifier of a case (UUID). The nil identifier means "none given yet".
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, TS)]
#[serde(try_from = "String", into = "String")]
#[ts(type = "string")]
pub struct CaseId(pub Uuid);

/// A zero-based index into the case's `components`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, TS)]
#[serde(transparent)]
pub struct ComponentIndex(pub u32);

/// A text that is not the date, time or identifier it should be. Displays what to write instead.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("“{text}” is not {wanted}")]
pub struct NotReadable {
    text: String,
    wanted: &'static str,
}

impl NotReadable {
    fn new(text: &str, wanted: &'static str) -> Self {
        Self { text: text.to_owned(), wanted }
    }
}

/// Tells whether a text has exactly the digits and signs of a pattern (`0` stands for any digit).
///
/// chrono alone would accept `2026-3-4` or a sign before the year.
fn shaped(text: &str, pattern: &str) -> bool {
    text.len() == pattern.len()
        && text.bytes().zip(pattern.bytes()).all(|(t, p)| if p == b'0' { t.is_ascii_digit() } else { t == p })
}

impl FromStr for Date {
    type Err = NotReadable;
    fn from_str(text: &str) -> Result<Self, NotReadable> {
        const WANTED: &str = "a day of the calendar; write it as YYYY-MM-DD, such as 2026-03-04";
        if !shaped(text, "0000-00-00") {
            return Err(NotReadable::new(text, WANTED));
        }
        NaiveDate::parse_from_str(text, "%Y-%m-%d").map(Self).map_err(|_| NotReadable::new(text, WANTED))
    }
}

impl FromStr for LocalTime {
    type Err = NotReadable;
    fn from_str(text: &str) -> Result<Self, NotReadable> {
        const WANTED: &str = "a date and time; write it as YYYY-MM-DDTHH:MM, such as 2026-03-04T08:30";
        if !shaped(text, "0000-00-00T00:00") {
            return Err(NotReadable::new(text, WANTED));
        }
        NaiveDateTime::parse_from_str(text, "%Y-%m-%dT%H:%M").map(Self).map_err(|_| NotReadable::new(text, WANTED))
    }
}

impl FromStr for CaseId {
    type Err = NotReadable;
    fn from_str(text: &str) -> Result<Self, NotReadable> {
        Uuid::try_parse(text)
            .map(Self)
            .map_err(|_| NotReadable::new(text, "a case identifier (a UUID, 36 characters with dashes)"))
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0.format("%Y-%m-%d"))
    }
}

impl fmt::Display for LocalTime {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0.format("%Y-%m-%dT%H:%M"))
    }
}

impl fmt::Display for CaseId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

macro_rules! as_text {
    ($($type:ty),*) => {$(
        impl TryFrom<String> for $type {
            type Error = NotReadable;
            fn try_from(text: String) -> Result<Self, NotReadable> {
                text.parse()
            }
        }
        impl From<$type> for String {
            fn from(value: $type) -> Self {
                value.to_string()
            }
        }
    )*};
}
as_text!(Date, LocalTime, CaseId);

impl Answer for CaseId {
    const KIND: Kind = Kind::Id;
    fn is_blank(&self) -> bool {
        self.0.is_nil()
    }
}
