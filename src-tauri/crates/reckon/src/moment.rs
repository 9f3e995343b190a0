//! Points in time as they are given: a local date and time, or plain minutes on any common scale. No clock is read.

use chrono::{NaiveDate, NaiveDateTime, TimeDelta};
use serde_json::Value;

use crate::Refusal;
use crate::given::{Read, said};

/// A calendar day, written `YYYY-MM-DD`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Day(pub NaiveDate);

/// A point in time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Moment {
    /// A local date and time to the minute, written `YYYY-MM-DDTHH:MM`.
    At(NaiveDateTime),
    /// Minutes from any common start, given as a number.
    Minute(f64),
}

impl Moment {
    /// Minutes from `earlier` to this moment, negative where this one comes first.
    /// Nothing where one is a date and time and the other plain minutes.
    pub fn minutes_since(self, earlier: Self) -> Option<f64> {
        match (self, earlier) {
            (Self::At(later), Self::At(earlier)) => Some((later - earlier).num_minutes() as f64),
            (Self::Minute(later), Self::Minute(earlier)) => Some(later - earlier),
            _ => None,
        }
    }

    /// Minutes from `earlier` to this moment, or a refusal that names this input.
    pub(crate) fn since(self, name: &str, earlier: Self, earlier_name: &str) -> Result<f64, Refusal> {
        self.minutes_since(earlier).ok_or_else(|| {
            Refusal::of(
                name,
                format!("give this in the same way as {earlier_name}: both as date and time or both as minutes."),
            )
        })
    }

    /// The moment some minutes later; nothing past the end of the calendar.
    pub fn later_by(self, minutes: f64) -> Option<Self> {
        match self {
            Self::At(at) => at.checked_add_signed(TimeDelta::try_minutes(minutes as i64)?).map(Self::At),
            Self::Minute(minute) => Some(Self::Minute(minute + minutes)),
        }
    }

    /// The moment as it would be written in JSON.
    pub(crate) fn to_value(self) -> Value {
        match self {
            Self::At(at) => Value::from(at.format("%Y-%m-%dT%H:%M").to_string()),
            Self::Minute(minute) => Value::from(minute),
        }
    }
}

/// Tells whether a text has exactly the digits and signs of a pattern (`0` stands for any digit).
fn shaped(text: &str, pattern: &str) -> bool {
    text.len() == pattern.len()
        && text.bytes().zip(pattern.bytes()).all(|(t, p)| if p == b'0' { t.is_ascii_digit() } else { t == p })
}

impl Read for Moment {
    fn read(name: &str, value: &Value) -> Result<Self, Refusal> {
        if let Some(minute) = value.as_f64() {
            // Ten years in minutes: a larger number is no time of an operation.
            return if minute.abs() <= 5_256_000.0 {
                Ok(Self::Minute(minute))
            } else {
                Err(Refusal::of(name, format!("a time in minutes must lie within ten years (got {minute}).")))
            };
        }
        value
            .as_str()
            .filter(|text| shaped(text, "0000-00-00T00:00"))
            .and_then(|text| NaiveDateTime::parse_from_str(text, "%Y-%m-%dT%H:%M").ok())
            .map(Self::At)
            .ok_or_else(|| {
                let said = said(value);
                Refusal::of(
                    name,
                    format!("{said} is not a time; write it as YYYY-MM-DDTHH:MM, or as a number of minutes."),
                )
            })
    }
}

impl Read for Day {
    fn read(name: &str, value: &Value) -> Result<Self, Refusal> {
        value
            .as_str()
            .filter(|text| shaped(text, "0000-00-00"))
            .and_then(|text| NaiveDate::parse_from_str(text, "%Y-%m-%d").ok())
            .map(Self)
            .ok_or_else(|| {
                let said = said(value);
                Refusal::of(
                    name,
                    format!("{said} is not a day of the calendar; write it as YYYY-MM-DD, such as 2026-03-04."),
                )
            })
    }
}
