//! GS1 element strings, as scanned and as printed.
//!
//! After the GS1 General Specifications and the GS1 Barcode Syntax Dictionary; every doubt is a
//! warning, and every character of the scan ends up in an element.

mod checks;
mod identifiers;
mod pairing;
mod print;
mod split;

use identifiers::{Check, Date, Identifier, Set};
pub(crate) use pairing::judge;
pub use print::printed;
use split::Piece;
pub(crate) use split::Separators;

use crate::label::shown;
use crate::{Label, Options, Scheme, WarningCode, dates};

/// Values longer than this are searched for a swallowed element; shorter ones hold too little for one.
const LONG_VALUE: usize = 8;

/// Tells whether unmarked text can only be a GS1 element string.
///
/// A bare `10…` or `21…` is not enough: the same characters may be a lot or serial of its own.
pub(crate) fn looks_like(text: &str, separators: &Separators<'_>) -> bool {
    let digits = |count: usize| text.len() >= count && text.bytes().take(count).all(|byte| byte.is_ascii_digit());
    if text.starts_with("00") && digits(20)
        || ["01", "02", "03"].iter().any(|code| text.starts_with(code)) && digits(16)
    {
        return true;
    }
    if split::begins_printed(text) {
        return true;
    }
    let Some((known, length)) = identifiers::find(text) else { return false };
    if separators.are_in(text) {
        return true;
    }
    known.date == Date::DayOptional
        && digits(8)
        && dates::yymmdd(&text[length..8], 2000, true).is_some()
        && identifiers::find(&text[8..]).is_some()
}

/// Names the identifier that unmarked text begins with, where the text might still be a GS1 code.
pub(crate) fn might_be(text: &str) -> Option<&str> {
    identifiers::find(text).map(|(_, length)| &text[..length]).filter(|code| matches!(*code, "10" | "11" | "17" | "21"))
}

/// Reads the text behind the symbology identifier into the label; false if it holds no element.
pub(crate) fn read(text: &str, options: &Options, label: &mut Label) -> bool {
    let separators = Separators::new(&options.separators);
    let is_printed = {
        let begin = separators.skip(text);
        split::begins_printed(begin) || begin.len() < text.len() && split::begins_element(begin)
    };
    let pieces = if is_printed { split::printed(text, &separators) } else { split::scanned(text, &separators) };
    if pieces.is_empty() {
        return false;
    }
    label.scheme = Scheme::Gs1;
    label.elements.reserve(pieces.len());
    for piece in &pieces {
        note(piece, options, label);
    }
    repeated(label);
    two_expiries(label, options);
    if !is_printed && !separators.are_in(separators.skip(text)) {
        swallowed(&pieces, options, label);
    }
    judge(label);
    true
}

/// Writes one piece into the label and says what looks wrong with it.
fn note(piece: &Piece<'_>, options: &Options, label: &mut Label) {
    let Piece { code, identifier, value } = *piece;
    let Some(known) = identifier else {
        label.say(code, "Not recognised", value);
        let named = if code.is_empty() { String::new() } else { format!("({code}) ") };
        label.warn(
            WarningCode::UnknownElement,
            format!(
                "The part ‘{named}{}’ begins with no known application identifier; it is kept as scanned.",
                shown(value)
            ),
        );
        return;
    };
    label.say(code, known.title, value);
    if is_well_formed(code, known, value, label) {
        check(code, known, value, label);
    }
    let date = date(code, known, value, options, label);
    match code {
        "01" => set(&mut label.device_identifier, value),
        "10" => set(&mut label.lot, value),
        "21" => set(&mut label.serial, value),
        "240" => set(&mut label.reference, value),
        "11" => label.made_on = dates::closer(label.made_on, date),
        "17" | "7003" => label.expires_on = dates::closer(label.expires_on, date),
        "30" | "37" => label.quantity = label.quantity.or_else(|| dates::number(value)),
        _ => {}
    }
}

fn set(field: &mut Option<String>, value: &str) {
    if field.is_none() && !value.is_empty() {
        *field = Some(value.to_owned());
    }
}

/// Checks length and characters; false if the rest is not worth checking.
fn is_well_formed(code: &str, known: &Identifier, value: &str, label: &mut Label) -> bool {
    let length = if value.is_ascii() { value.len() } else { value.chars().count() };
    let (least, most) = (usize::from(known.least), usize::from(known.most));
    if !(least..=most).contains(&length) {
        let asked = if least == most { format!("{most}") } else { format!("{least} to {most}") };
        label.warn(
            WarningCode::Length,
            format!(
                "{} ({code}) should have {asked} characters and has {length}: compare ‘{}’ with the label.",
                known.title,
                shown(value)
            ),
        );
        return false;
    }
    let digits = usize::from(known.digits);
    let wrong = value.chars().enumerate().find(|&(place, character)| {
        if place < digits {
            return !character.is_ascii_digit();
        }
        !match known.set {
            Set::Invariant => checks::is_invariant(character),
            Set::PartNumber => matches!(character, '#' | '-' | '/' | '0'..='9' | 'A'..='Z'),
            Set::File64 => character.is_ascii_alphanumeric() || matches!(character, '-' | '_' | '='),
        }
    });
    if let Some((place, character)) = wrong {
        let what = if place < digits { "a digit belongs".to_owned() } else { "GS1 does not allow it".to_owned() };
        label.warn(
            WarningCode::Character,
            format!(
                "{} ({code}) holds ‘{}’ where {what}: compare ‘{}’ with the label.",
                known.title,
                shown(character.encode_utf8(&mut [0; 4])),
                shown(value)
            ),
        );
        return false;
    }
    true
}

/// Checks the check digit or pair of a value of the right length and characters.
fn check(code: &str, known: &Identifier, value: &str, label: &mut Label) {
    match known.check {
        Check::None => {}
        Check::Digit(of) => {
            let Some((before, found)) =
                value.get(..usize::from(of)).and_then(|key| key.split_at_checked(key.len() - 1))
            else {
                return;
            };
            if let Some(right) = checks::check_digit(before).filter(|right| right.to_string() != found) {
                label.warn(
                    WarningCode::CheckDigit,
                    format!("{} ({code}) {} ends in the check digit {found} where {right} is right: compare it with the label.", known.title, shown(value)),
                );
            }
        }
        Check::Pair => {
            let Some((before, found)) = value.len().checked_sub(2).and_then(|at| value.split_at_checked(at)) else {
                return;
            };
            if let Some(right) = checks::check_pair(before).map(String::from_iter).filter(|right| right != found) {
                label.warn(
                    WarningCode::CheckDigit,
                    format!("{} ({code}) {} ends in the check characters {found} where {right} is right: compare it with the label.", known.title, shown(value)),
                );
            }
        }
    }
}

/// Reads the date that a value begins with, with a warning where there is no such day.
fn date(code: &str, known: &Identifier, value: &str, options: &Options, label: &mut Label) -> Option<crate::LabelDate> {
    if known.date == Date::None {
        return None;
    }
    let read =
        value.get(..6).and_then(|digits| dates::yymmdd(digits, options.current_year, known.date == Date::DayOptional));
    let timed = known.date != Date::Minute || value.get(6..).is_some_and(dates::is_time);
    if (read.is_none() || !timed) && value.len() >= usize::from(known.least) {
        label.warn(
            WarningCode::Date,
            format!("{} ({code}) ‘{}’ is no possible date: read it from the label.", known.title, shown(value)),
        );
    }
    read
}

/// Says where one identifier stands twice with two values.
fn repeated(label: &mut Label) {
    let mut found = Vec::new();
    for (place, element) in label.elements.iter().enumerate() {
        let first = label.elements[..place].iter().find(|other| other.code == element.code);
        if let Some(first) = first.filter(|first| first.value != element.value && !element.code.is_empty()) {
            found.push(format!(
                "{} ({}) is there twice, ‘{}’ and ‘{}’: compare them with the label.",
                element.title,
                element.code,
                shown(&first.value),
                shown(&element.value)
            ));
        }
    }
    for message in found {
        label.warn(WarningCode::Conflict, message);
    }
}

/// Says where the expiry (17) and the expiry with a time (7003) name two days.
fn two_expiries(label: &mut Label, options: &Options) {
    let day = |code: &str| {
        let element = label.elements.iter().find(|element| element.code == code)?;
        dates::yymmdd(element.value.get(..6)?, options.current_year, code == "17")
    };
    if let (Some(first), Some(second)) = (day("17"), day("7003"))
        && !dates::agree(first, second)
    {
        label.warn(
            WarningCode::Conflict,
            format!(
                "The label states two expiry dates, {} (17) and {} (7003): compare it with the printed one.",
                first.on, second.on
            ),
        );
    }
}

/// Says where a lot or serial seems to have swallowed the next element for want of a separator.
///
/// Common practice, not part of the standard: a possible expiry or manufacturing date behind its
/// identifier, or `21` (`10` in a serial) with at least three characters before and behind it in a
/// value of more than twelve. Only where the element does not stand elsewhere in the scan.
fn swallowed(pieces: &[Piece<'_>], options: &Options, label: &mut Label) {
    let Some(last) = pieces.last().filter(|last| matches!(last.code, "10" | "21") && last.value.len() > LONG_VALUE)
    else {
        return;
    };
    let stands = |code: &str| pieces.iter().any(|piece| piece.code == code);
    let is_dated = |code: &str| {
        !stands(code)
            && last.value.match_indices(code).any(|(at, _)| {
                let digits = last.value.get(at + 2..at + 8);
                at > 0 && digits.is_some_and(|digits| dates::yymmdd(digits, options.current_year, true).is_some())
            })
    };
    let other = if last.code == "10" { "21" } else { "10" };
    let holds_other = last.value.len() > 12
        && !stands(other)
        && last.value.match_indices(other).any(|(at, _)| at >= 3 && at + 5 <= last.value.len());
    let Some(inner) = [("17", is_dated("17")), ("11", is_dated("11")), (other, holds_other)]
        .iter()
        .find(|(_, there)| *there)
        .map(|(code, _)| *code)
    else {
        return;
    };
    let (what, value) = (if last.code == "10" { "lot" } else { "serial number" }, shown(last.value));
    label.warn(
        WarningCode::Separator,
        format!("The {what} ‘{value}’ may hold a further element ({inner}), because the scan has no separator: compare it with the label and let the scanner send ASCII 29."),
    );
}
