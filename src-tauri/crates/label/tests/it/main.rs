//! Tests of the label crate: one binary, one module for each kind of test.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a failing test says why by panicking")]

mod composing;
mod demo;
mod gs1;
mod hibc;
mod merging;
mod other_readers;
#[cfg(feature = "picture")]
mod pictures;
mod properties;
mod torrent;

use evengap_label::{Label, LabelDate, Options, Scheme, WarningCode, read};

/// The year in which the tables are read unless they name another one.
const YEAR: i32 = 2026;

/// Reads in [`YEAR`] with a scanner that sends ASCII 29.
fn scan(text: &str) -> Label {
    read(text, &Options::new(YEAR))
}

/// Tells a label in one line: scheme, fields that are there, kinds of warnings behind `!`.
fn told(label: &Label) -> String {
    let scheme = match label.scheme {
        Scheme::Gs1 => "gs1",
        Scheme::Hibc => "hibc",
        Scheme::Isbt128 => "isbt128",
        Scheme::Unknown => "unknown",
    };
    let mut line = scheme.to_owned();
    let texts =
        [("di", &label.device_identifier), ("ref", &label.reference), ("lot", &label.lot), ("serial", &label.serial)];
    for (name, value) in texts {
        if let Some(value) = value {
            line += &format!(" {name}={value}");
        }
    }
    for (name, date) in [("made", label.made_on), ("expires", label.expires_on)] {
        if let Some(LabelDate { on, day_not_stated }) = date {
            line += &format!(" {name}={on}{}", if day_not_stated { "~" } else { "" });
        }
    }
    if let Some(quantity) = label.quantity {
        line += &format!(" quantity={quantity}");
    }
    for warning in &label.warnings {
        line += &format!(" !{}", word(warning.code));
    }
    line
}

fn word(code: WarningCode) -> String {
    serde_json::to_value(code).unwrap().as_str().unwrap().to_owned()
}

/// Reads a scan and holds it against the line that tells it; `why` names the source or the reason.
fn check(text: &str, expected: &str, why: &str) {
    let label = scan(text);
    assert_eq!(told(&label), expected, "{why}: {text:?}\nwarnings: {:?}", label.warnings);
    assert_eq!(label.raw, text, "the raw scan is kept: {why}");
    for warning in &label.warnings {
        let message = &warning.message;
        assert!(message.ends_with('.') && message.matches(". ").count() == 0, "one sentence: {message}");
    }
}
