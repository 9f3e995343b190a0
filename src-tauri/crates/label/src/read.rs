//! From a scan to a label: lines, symbology identifier, scheme.

use crate::gs1::{self, Separators};
use crate::label::shown;
use crate::{Label, Options, Scheme, WarningCode, hibc, merge};

/// Longer texts are no scan of a label; the largest codes hold about 4,300 characters.
pub const LONGEST_SCAN_BYTES: usize = 16_384;

/// Symbology identifiers (ISO/IEC 15424) of codes that hold a GS1 element string.
const GS1_MARKS: &[&str] = &["]C1", "]d2", "]d5", "]Q3", "]Q5", "]J1", "]e0", "]e1", "]e2", "]e3"];

/// Reads one scan; never fails.
///
/// A scan of several lines is several codes of one label. What cannot be read comes back with scheme
/// `unknown`, its raw text and a warning.
#[must_use]
pub fn read(scan: &str, options: &Options) -> Label {
    if scan.len() > LONGEST_SCAN_BYTES {
        let mut label = Label::unread(scan);
        label.warn(
            WarningCode::Length,
            "The text is too long for the scan of a label: scan one label at a time.".to_owned(),
        );
        return label;
    }
    // A scanner may add a line end, and so may a person who copies.
    let trimmed = scan.trim_matches(['\r', '\n', '\t', '\u{feff}']);
    let mut codes: Vec<(&str, &str)> = Vec::new();
    for line in trimmed.split(['\r', '\n']).filter(|line| !line.is_empty()) {
        let (mark, text) = mark(line);
        if hibc::looks_like(text) {
            codes.extend(hibc::codes(text).into_iter().map(|code| (mark, code)));
        } else {
            codes.push((mark, text));
        }
    }
    let mut label = match codes.first() {
        Some((mark, text)) => read_code(mark, text, options),
        None => nothing(),
    };
    for (mark, text) in codes.iter().skip(1) {
        let other = read_code(mark, text, options);
        match merge(&label, &other) {
            Ok(both) => label = both,
            Err(refusal) => label.warn(WarningCode::OtherLabel, refusal.to_string()),
        }
    }
    scan.clone_into(&mut label.raw);
    label
}

/// Splits off the symbology identifier: `]`, a letter, a letter or digit.
fn mark(line: &str) -> (&str, &str) {
    let line = line.trim_start_matches(' ');
    let bytes = line.as_bytes();
    let is_mark =
        bytes.len() >= 3 && bytes[0] == b']' && bytes[1].is_ascii_alphabetic() && bytes[2].is_ascii_alphanumeric();
    if is_mark { line.split_at(3) } else { ("", line) }
}

fn nothing() -> Label {
    let mut label = Label::default();
    label.warn(WarningCode::NotRecognised, "The scan is empty: scan the label again.".to_owned());
    label
}

fn read_code(mark: &str, text: &str, options: &Options) -> Label {
    let mut label = Label::unread(text);
    let caption =
        text.strip_prefix('*').and_then(|inner| inner.strip_suffix('*')).filter(|inner| hibc::looks_like(inner));
    if let Some(inner) = caption {
        hibc::read(inner, true, options, &mut label);
    } else if hibc::looks_like(text) {
        hibc::read(text, false, options, &mut label);
    } else if GS1_MARKS.contains(&mark) && gs1::read(text, options, &mut label) {
        // Read.
    } else if is_isbt(text) {
        label.scheme = Scheme::Isbt128;
        label.warn(
            WarningCode::NotDecoded,
            "This is an ISBT 128 code, kept as scanned but not decoded: type the lot or serial from the label."
                .to_owned(),
        );
    } else if let Some(item) = item_number(mark, text) {
        let printed = format!("(01){item}");
        gs1::read(&printed, options, &mut label);
    } else {
        let separators = Separators::new(&options.separators);
        let is_led = separators.skip(text).len() < text.len();
        if !((is_led || gs1::looks_like(text, &separators)) && gs1::read(text, options, &mut label)) {
            let value = shown(text);
            label.warn(
                WarningCode::NotRecognised,
                match gs1::might_be(text) {
                    Some(code) => format!(
                        "Nothing marks ‘{value}’ as a GS1 code: if the label prints ({code}) in front, type it with the brackets."
                    ),
                    None => format!(
                        "‘{value}’ follows no labelling standard known here: type lot, serial and expiry from the label."
                    ),
                },
            );
        }
    }
    label
}

/// ISBT 128 data begin with `=` or `&` and a second character that is not a space.
fn is_isbt(text: &str) -> bool {
    let bytes = text.as_bytes();
    bytes.len() >= 6 && matches!(bytes[0], b'=' | b'&') && bytes[1].is_ascii_graphic()
}

/// An item number alone: EAN-13 and UPC-A (`]E0`), EAN-8 (`]E4`), ITF-14 (`]I1`), widened to 14 digits.
fn item_number(mark: &str, text: &str) -> Option<String> {
    let fits = match mark {
        "]E0" => matches!(text.len(), 12 | 13),
        "]E4" => text.len() == 8,
        "]I1" => text.len() == 14,
        _ => false,
    };
    (fits && text.bytes().all(|byte| byte.is_ascii_digit())).then(|| format!("{text:0>14}"))
}
