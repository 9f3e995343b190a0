//! Scans become components; what a person typed stays.

use evengap_desk::Desk;
use serde_json::{Value, json};

use crate::bench::{at, entry};

const FEMUR: &str = "]d201095210410012721124110617341105 10T228401\u{1d}21S7194998";

fn scan(case: Value, scan: &str) -> evengap_desk::Scanned {
    Desk::new().scan_read(case, scan, at("08:00")).unwrap()
}

#[test]
fn a_scan_is_a_component_with_everything_its_label_says() {
    let read = scan(entry(1, "Threlkeld"), &FEMUR.replace(' ', ""));
    assert_eq!(read.into, None, "an entry without components gets a new one");
    assert_eq!(read.component.lot.as_deref(), Some("T228401"));
    assert_eq!(read.component.serial.as_deref(), Some("S7194998"));
    assert_eq!(read.component.expires_on.map(|date| date.to_string()).as_deref(), Some("2034-11-05"));
    assert_eq!(read.component.scan.device_identifier.as_deref(), Some("09521041001272"));
    assert!(read.warnings.is_empty(), "nothing is wrong with this label: {:?}", read.warnings);
    assert!(read.sentence.contains("lot T228401"), "the sentence says what was read: {}", read.sentence);
}

#[test]
fn two_codes_of_one_label_are_one_component() {
    let mut case = entry(1, "Threlkeld");
    let first = scan(case.clone(), "(01)09521041001272");
    let mut component = serde_json::to_value(&first.component).unwrap();
    component["role"] = json!("femur");
    component["size"] = json!("5");
    case["components"] = json!([component]);
    let second = scan(case, "(10)T228401(17)341105");
    assert_eq!(second.into, Some(0), "the lot belongs to the device that is there");
    assert_eq!(second.component.lot.as_deref(), Some("T228401"));
    assert_eq!(second.component.size.as_deref(), Some("5"), "what was typed stays");
    assert_eq!(second.component.scan.device_identifier.as_deref(), Some("09521041001272"));
}

#[test]
fn two_boxes_of_one_batch_are_two_components() {
    let label = "]d2010952386600125317280531 10M53363".replace(' ', "");
    let mut case = entry(1, "Threlkeld");
    let first = scan(case.clone(), &label);
    case["components"] = json!([serde_json::to_value(&first.component).unwrap()]);
    let other = scan(case.clone(), &label.replace("M53363", "M80898"));
    assert_eq!(other.into, None, "another lot is another box");
    let again = scan(case, &label);
    assert_eq!(again.into, Some(0), "the very same label is there already");
    assert!(again.sentence.contains("there already"), "and the sentence says so: {}", again.sentence);
}

#[test]
fn a_wrong_check_digit_is_a_warning_and_loses_nothing() {
    let read = scan(entry(1, "Threlkeld"), "(01)09521041001273(10)T228401");
    assert_eq!(read.component.scan.device_identifier.as_deref(), Some("09521041001273"), "kept as scanned");
    assert!(read.warnings.iter().any(|warning| warning.contains('2')), "the right digit is named: {:?}", read.warnings);
}

#[test]
fn what_is_no_label_is_refused_with_a_sentence() {
    let desk = Desk::new();
    let error = desk.scan_read(entry(1, "Threlkeld"), "hello", at("08:00")).unwrap_err();
    assert!(error.message.contains("no component label"), "{}", error.message);
    let error = desk.picture_read(entry(1, "Threlkeld"), b"not a picture", at("08:00")).unwrap_err();
    assert!(error.message.contains("PNG or JPEG"), "{}", error.message);
}
