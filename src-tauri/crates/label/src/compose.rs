//! From the parts of a label back to the text of its code: what a Data Matrix of it holds.
//!
//! It never writes a code that says something else than the parts: every text is read back before it is
//! given out, and parts that the standard cannot carry give none.

use std::fmt::Write;

use chrono::{Datelike, NaiveDate};

use crate::hibc::check_character;
use crate::{Options, Scheme, WarningCode, read};

/// Holds what a code is to say.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Parts<'a> {
    /// The standard; only GS1 and HIBC can be written.
    pub scheme: Scheme,
    /// GTIN of 14 digits, or the HIBC labeler, product number and packaging level.
    pub device_identifier: &'a str,
    /// The lot or batch.
    pub lot: Option<&'a str>,
    /// The serial number.
    pub serial: Option<&'a str>,
    /// The day of manufacture.
    pub made_on: Option<NaiveDate>,
    /// The last day of use.
    pub expires_on: Option<NaiveDate>,
}

/// Writes the text of a code as the symbol holds it: GS1 separators as ASCII 29, no symbology identifier.
///
/// `None` where the standard cannot carry the parts: a device identifier with a wrong check digit, a lot
/// with a character that is not allowed, a year that two digits cannot name.
#[must_use]
pub fn compose(parts: &Parts<'_>, options: &Options) -> Option<String> {
    let (text, mark) = match parts.scheme {
        Scheme::Gs1 => (gs1(parts), "]d2"),
        Scheme::Hibc => (hibc(parts)?, ""),
        Scheme::Isbt128 | Scheme::Unknown => return None,
    };
    let back = read(&format!("{mark}{text}"), options);
    let same = back.scheme == parts.scheme
        && back.device_identifier.as_deref() == Some(parts.device_identifier)
        && back.lot.as_deref() == parts.lot
        && back.serial.as_deref() == parts.serial
        && back.made_on.map(|date| date.on) == parts.made_on
        && back.expires_on.map(|date| date.on) == parts.expires_on;
    // That a lot looks as if it held a further element is no fault of a lot that is known.
    (same && back.warnings.iter().all(|warning| warning.code == WarningCode::Separator)).then_some(text)
}

/// GS1 General Specifications: elements of fixed length first, a separator only behind the lot.
fn gs1(parts: &Parts<'_>) -> String {
    let mut text = format!("01{}", parts.device_identifier);
    // Writing to a String cannot fail.
    for (code, date) in [("11", parts.made_on), ("17", parts.expires_on)] {
        let _ = date.map(|date| write!(text, "{code}{}", date.format("%y%m%d")));
    }
    if let Some(lot) = parts.lot {
        let _ = write!(text, "10{lot}");
    }
    if let Some(serial) = parts.serial {
        let separator = if parts.lot.is_some() { "\u{1d}" } else { "" };
        let _ = write!(text, "{separator}21{serial}");
    }
    text
}

/// ANSI/HIBC 2.6: one combined code, expiry with flag 3 (YYMMDD), check character last.
fn hibc(parts: &Parts<'_>) -> Option<String> {
    let expiry = parts.expires_on.map(|date| format!("3{}", date.format("%y%m%d")));
    let mut text = format!("+{}", parts.device_identifier);
    match (&expiry, parts.lot, parts.serial) {
        (Some(expiry), Some(lot), _) => text += &format!("/$${expiry}{lot}"),
        (Some(expiry), None, Some(serial)) => text += &format!("/$$+{expiry}{serial}"),
        (Some(expiry), None, None) => text += &format!("/$${expiry}"),
        (None, Some(lot), _) => text += &format!("/${lot}"),
        (None, None, Some(serial)) => text += &format!("/$+{serial}"),
        (None, None, None) => {}
    }
    if let (Some(_), Some(serial)) = (parts.lot, parts.serial) {
        text += &format!("/S{serial}");
    }
    if let Some(made) = parts.made_on.filter(|made| (1000..=9999).contains(&made.year())) {
        text += &format!("/16D{}", made.format("%Y%m%d"));
    }
    let check = check_character(&text)?;
    text.push(check);
    Some(text)
}
