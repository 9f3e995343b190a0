//! From the parts of a label to the text of its code.

use chrono::NaiveDate;
use evengap_label::{Options, Parts, Scheme, compose, read};
use proptest::prelude::*;

use super::YEAR;

fn day(text: &str) -> Option<NaiveDate> {
    Some(text.parse().unwrap())
}

fn check(parts: Parts<'_>, expected: Option<&str>, why: &str) {
    assert_eq!(compose(&parts, &Options::new(YEAR)).as_deref(), expected, "{why}");
}

const GS1: Parts<'_> = Parts {
    scheme: Scheme::Gs1,
    device_identifier: "09521041001272",
    lot: None,
    serial: None,
    made_on: None,
    expires_on: None,
};
const HIBC: Parts<'_> = Parts { scheme: Scheme::Hibc, device_identifier: "A123SKLFMR0", ..GS1 };

#[test]
fn the_codes_of_the_demo_labels_are_written_as_they_were_scanned() {
    let whole = Parts {
        lot: Some("T228401"),
        serial: Some("S7194998"),
        made_on: day("2024-11-06"),
        expires_on: day("2034-11-05"),
        ..GS1
    };
    check(whole, Some("0109521041001272112411061734110510T228401\u{1d}21S7194998"), "a full GS1 label");
    check(GS1, Some("0109521041001272"), "the device identifier alone");
    check(Parts { serial: Some("A"), ..GS1 }, Some("010952104100127221A"), "no separator before the only such element");
    let partial = Parts {
        lot: Some("LV68684"),
        serial: Some("V9151623"),
        made_on: day("2025-01-28"),
        expires_on: day("2035-01-27"),
        ..HIBC
    };
    check(partial, Some("+A123SKLFMR0/$$3350127LV68684/SV9151623/16D20250128H"), "a full HIBC label");
}

#[test]
fn parts_that_a_code_cannot_carry_give_none() {
    check(Parts { device_identifier: "09521041001273", ..GS1 }, None, "a wrong check digit");
    check(Parts { device_identifier: "9521041001272", ..GS1 }, None, "a GTIN has 14 digits here");
    check(Parts { device_identifier: "", ..GS1 }, None, "no device identifier");
    check(Parts { lot: Some("Ü12"), ..GS1 }, None, "a character that GS1 does not allow");
    check(Parts { lot: Some("A\u{1d}21B"), ..GS1 }, None, "a separator inside the lot");
    check(Parts { lot: Some("123456789012345678901"), ..GS1 }, None, "a lot of 21 characters");
    check(Parts { lot: Some("a1"), ..HIBC }, None, "a small letter in HIBC");
    check(Parts { lot: Some("A/S1"), ..HIBC }, None, "a part inside the lot");
    check(Parts { expires_on: day("2090-01-01"), ..GS1 }, None, "a year that two digits cannot name in 2026");
    check(Parts { scheme: Scheme::Unknown, ..GS1 }, None, "no standard");
}

proptest! {
    /// Whatever is written says exactly its parts when it is read.
    #[test]
    fn what_is_written_reads_back(
        scheme in prop_oneof![Just(Scheme::Gs1), Just(Scheme::Hibc)],
        lot in prop::option::of(".{0,22}|[A-Z0-9./+$-]{1,20}"),
        serial in prop::option::of("[A-Za-z0-9/(+$-]{0,21}"),
        made in prop::option::of(0i32..60_000),
        expires in prop::option::of(0i32..60_000),
    ) {
        let date = |days: Option<i32>| days.and_then(|days| NaiveDate::from_num_days_from_ce_opt(719_163 + days));
        let gs1 = scheme == Scheme::Gs1;
        let parts = Parts {
            scheme,
            device_identifier: if gs1 { GS1.device_identifier } else { HIBC.device_identifier },
            lot: lot.as_deref(),
            serial: serial.as_deref(),
            made_on: date(made),
            expires_on: date(expires),
        };
        if let Some(text) = compose(&parts, &Options::new(YEAR)) {
            let back = read(&format!("{}{text}", if gs1 { "]d2" } else { "" }), &Options::new(YEAR));
            prop_assert_eq!(back.lot, lot);
            prop_assert_eq!(back.serial, serial);
            prop_assert_eq!(back.made_on.map(|on| on.on), date(made));
            prop_assert_eq!(back.expires_on.map(|on| on.on), date(expires));
        }
    }
}
