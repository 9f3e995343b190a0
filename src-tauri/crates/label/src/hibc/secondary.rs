//! The second part of a HIBC label: dates, quantity, lot, serial and supplements.
//!
//! Parts stand between `/`. A part that fits no form is kept as scanned with a warning.

use crate::label::shown;
use crate::{Label, LabelDate, Options, WarningCode, dates};

/// Where the text behind flags and date goes.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Goes {
    Lot,
    Serial,
}

/// Reads all parts.
pub(super) fn read(data: &str, options: &Options, label: &mut Label) {
    for (place, part) in data.split('/').enumerate() {
        read_part(part, place == 0, options, label);
    }
}

fn read_part(part: &str, is_first: bool, options: &Options, label: &mut Label) {
    if let Some(rest) = part.strip_prefix("$$+") {
        label.say("$$+", "Expiry and serial number", rest);
        read_flagged(rest, Goes::Serial, options, label);
    } else if let Some(rest) = part.strip_prefix("$$") {
        label.say("$$", "Expiry and lot", rest);
        read_flagged(rest, Goes::Lot, options, label);
    } else if let Some(rest) = part.strip_prefix("$+") {
        label.say("$+", "Serial number", rest);
        put(rest, Goes::Serial, label);
    } else if let Some(rest) = part.strip_prefix('$') {
        label.say("$", "Lot", rest);
        put(rest, Goes::Lot, label);
    } else if let Some(rest) = part.strip_prefix("14D") {
        label.say("14D", "Expires on", rest);
        let date = dated(rest, dates::yyyymmdd(rest), label);
        expires(date, label);
    } else if let Some(rest) = part.strip_prefix("16D") {
        label.say("16D", "Made on", rest);
        let date = dated(rest, dates::yyyymmdd(rest), label);
        label.made_on = label.made_on.or(date);
    } else if let Some(rest) = part.strip_prefix('S') {
        label.say("S", "Serial number", rest);
        put(rest, Goes::Serial, label);
    } else if let Some(rest) = part.strip_prefix('Q').filter(|rest| dates::number(rest).is_some()) {
        label.say("Q", "Quantity", rest);
        label.quantity = label.quantity.or_else(|| dates::number(rest));
    } else if let Some((day, lot)) =
        part.split_at_checked(5).filter(|(day, _)| is_first && dates::number(day).is_some())
    {
        label.say("YYJJJ", "Expiry and lot", part);
        let date = dated(day, dates::yyjjj(day, options.current_year), label);
        expires(date, label);
        if !lot.is_empty() {
            put(lot, Goes::Lot, label);
        }
    } else {
        label.say("", "Not recognised", part);
        label.warn(
            WarningCode::UnknownElement,
            format!("The part ‘{}’ is none that a HIBC label has; it is kept as scanned.", shown(part)),
        );
    }
}

/// Reads what follows `$$` or `$$+`: a quantity, a date by its flag, then the lot or serial.
fn read_flagged(text: &str, goes: Goes, options: &Options, label: &mut Label) {
    let mut rest = text;
    let counted = [('8', 2), ('9', 5)].iter().find_map(|&(flag, count)| rest.strip_prefix(flag)?.get(..count));
    if let Some((digits, quantity)) = counted.and_then(|digits| Some((digits, dates::number(digits)?))) {
        label.quantity = label.quantity.or(Some(quantity));
        rest = &rest[1 + digits.len()..];
        if rest.is_empty() {
            return;
        }
    }
    let year = options.current_year;
    // (flag, characters of the flag that are not part of the date, digits of the date)
    let (skip, count) = match rest.bytes().next() {
        Some(b'0' | b'1') => (0, 4),
        Some(b'2' | b'3') => (1, 6),
        Some(b'4') => (1, 8),
        Some(b'5') => (1, 5),
        Some(b'6') => (1, 7),
        Some(b'7') => (1, 0),
        _ => {
            if !rest.is_empty() {
                label.warn(
                    WarningCode::Structure,
                    format!(
                        "No date flag (0 to 7) stands at ‘{}’, so all of it is taken as {}: compare it with the label.",
                        shown(rest),
                        named(goes)
                    ),
                );
            }
            return put(rest, goes, label);
        }
    };
    let Some(digits) = rest.get(skip..skip + count).filter(|digits| digits.bytes().all(|byte| byte.is_ascii_digit()))
    else {
        label.warn(
            WarningCode::Date,
            format!(
                "No date can be read at ‘{}’, so all of it is taken as {}: compare it with the label.",
                shown(rest),
                named(goes)
            ),
        );
        return put(rest, goes, label);
    };
    if count > 0 {
        let date = match rest.as_bytes()[0] {
            b'0' | b'1' => dates::mmyy(digits, year),
            b'2' => dates::mmddyy(digits, year),
            b'3' => dates::yymmdd(digits, year, false),
            b'4' => with_hour(digits, 6, |day| dates::yymmdd(day, year, false)),
            b'5' => dates::yyjjj(digits, year),
            _ => with_hour(digits, 5, |day| dates::yyjjj(day, year)),
        };
        let date = dated(digits, date, label);
        expires(date, label);
    }
    let behind = &rest[skip + count..];
    if !behind.is_empty() {
        put(behind, goes, label);
    }
}

/// Reads a day that two digits for the hour follow; the hour itself stays in the element.
fn with_hour(digits: &str, at: usize, day: impl Fn(&str) -> Option<LabelDate>) -> Option<LabelDate> {
    let (date, hour) = digits.split_at_checked(at)?;
    day(date).filter(|_| dates::number(hour).is_some_and(|hour| hour < 24))
}

fn dated(digits: &str, date: Option<LabelDate>, label: &mut Label) -> Option<LabelDate> {
    if date.is_none() {
        label.warn(WarningCode::Date, format!("‘{}’ is no possible date: read it from the label.", shown(digits)));
    }
    date
}

fn expires(date: Option<LabelDate>, label: &mut Label) {
    if let (Some(first), Some(second)) = (label.expires_on, date)
        && !dates::agree(first, second)
    {
        label.warn(
            WarningCode::Conflict,
            format!(
                "The label states two expiry dates, {} and {}: compare it with the printed one.",
                first.on, second.on
            ),
        );
    }
    label.expires_on = dates::closer(label.expires_on, date);
}

fn named(goes: Goes) -> &'static str {
    match goes {
        Goes::Lot => "the lot",
        Goes::Serial => "the serial number",
    }
}

fn put(value: &str, goes: Goes, label: &mut Label) {
    if value.is_empty() {
        return label
            .warn(WarningCode::Length, format!("The place of {} is empty: read it from the label.", named(goes)));
    }
    let field = match goes {
        Goes::Lot => &mut label.lot,
        Goes::Serial => &mut label.serial,
    };
    match field {
        Some(first) if first.as_str() == value => {}
        Some(first) => {
            let message = format!(
                "The label states two values for {}, ‘{}’ and ‘{}’: compare it with the printed one.",
                named(goes),
                shown(first),
                shown(value)
            );
            label.warn(WarningCode::Conflict, message);
        }
        None => *field = Some(value.to_owned()),
    }
}
