//! Reading: what is accepted, what is refused and with which sentence.

use evengap_case::{FORMAT, Reading, read, read_value};
use serde_json::{Value, json};

fn with(path: &str, value: Value) -> Value {
    let mut case = json!({ "format": FORMAT });
    let mut place = &mut case;
    for step in path.split('.') {
        place = &mut place[step];
    }
    *place = value;
    case
}

/// Reads a case with one answer and compares the only problem with `expected`.
fn check_refused(path: &str, value: Value, expected: &str) {
    let refusal = read_value(with(path, value)).expect_err("this answer must be refused");
    assert_eq!(refusal.to_string(), expected, "the sentence must name the field and say what to write");
}

fn check_read(value: Value) -> Reading {
    read_value(value).expect("this case must be read")
}

#[test]
fn refusals_name_the_field() {
    check_refused(
        "setting.operation_date",
        json!("2026-02-30"),
        "setting.operation_date: “2026-02-30” is not a day of the calendar; write it as YYYY-MM-DD, such as 2026-03-04.",
    );
    check_refused("knee.side", json!("lft"), "knee.side: “lft” is not one of the choices: left, right.");
    check_refused("patient.height_cm", json!("tall"), "patient.height_cm: a number is needed here, not “tall”.");
    check_refused("anaesthesia.asa", json!(9), "anaesthesia.asa: ASA grade goes from 1 to 6; 9 is not on that scale.");
    check_refused(
        "components",
        json!([{ "expires_on": "soon" }]),
        "components[0].expires_on: “soon” is not a day of the calendar; write it as YYYY-MM-DD, such as 2026-03-04.",
    );
    check_refused(
        "closing.transfused_units",
        json!(1.5),
        "closing.transfused_units: a whole number, zero or more, is needed here, not 1.5.",
    );
    check_refused(
        "times.incision",
        json!("2026-03-04T24:00"),
        "times.incision: “2026-03-04T24:00” is not a date and time; write it as YYYY-MM-DDTHH:MM, such as 2026-03-04T08:30.",
    );
    check_refused("patient", json!([]), "patient: a group of answers in braces is needed here, not a list.");
}

#[test]
fn all_problems_come_at_once() {
    let case = json!({ "format": FORMAT, "knee": { "side": "up" }, "patient": { "birth_date": "1950-13-01" } });
    let refusal = read_value(case).expect_err("two wrong answers");
    let paths: Vec<_> = refusal.problems.iter().map(|problem| problem.path.as_str()).collect();
    assert_eq!(paths, ["knee.side", "patient.birth_date"], "both, in the order of the file");
}

#[test]
fn files_that_are_no_case_are_refused() {
    let sentence = |json: &str| read(json).expect_err("no case").to_string();
    assert!(sentence("{").starts_with("This is not JSON"), "broken JSON says so");
    assert_eq!(sentence("[]"), "A case file is one JSON object; this is something else.");
    assert_eq!(
        sentence("{}"),
        "format: a case file says \"format\": \"evengap-case/1\"; add that line.",
        "an object alone is no case"
    );
    assert_eq!(
        sentence(r#"{"format":"evengap-case/2"}"#),
        "format: this file is written in evengap-case/2; this program reads evengap-case/1. Use a newer Evengap.",
        "a newer file is refused"
    );
}

#[test]
fn a_half_filled_entry_is_normal() {
    let reading =
        check_read(json!({ "format": FORMAT, "patient": { "given_name": "Aino", "height_cm": null, "sex": "" } }));
    assert_eq!(reading.case.patient.given_name.as_deref(), Some("Aino"));
    assert_eq!(reading.case.patient.height_cm, None, "null is not recorded");
    assert_eq!(reading.case.patient.sex, None, "blank is not recorded");
}

#[test]
fn unknown_keys_are_kept_and_reported() {
    let case = json!({
        "format": FORMAT,
        "from_elsewhere": { "deep": [1, 2.50, "three"] },
        "knee": { "side": "left", "gait": "antalgic" },
        "components": [{ "role": "femur", "colour": "grey" }],
    });
    let reading = check_read(case.clone());
    assert_eq!(reading.unknown, ["from_elsewhere", "knee.gait", "components[0].colour"]);
    let written = reading.case.to_value();
    for pointer in ["/from_elsewhere", "/knee/gait", "/components/0/colour"] {
        assert_eq!(written.pointer(pointer), case.pointer(pointer), "{pointer} must come back as it was");
    }
}

#[test]
fn writing_and_reading_give_the_same_entry() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../../demo-cases");
    let mut seen = 0;
    for file in std::fs::read_dir(folder).unwrap() {
        let path = file.unwrap().path();
        if path.extension().is_some_and(|ending| ending == "json") {
            let first = read(&std::fs::read_to_string(&path).unwrap()).unwrap();
            assert!(first.unknown.is_empty(), "{path:?} has unknown keys: {:?}", first.unknown);
            let second = read(&first.case.to_json()).unwrap();
            assert_eq!(first.case, second.case, "{path:?} must survive a round trip");
            seen += 1;
        }
    }
    assert_eq!(seen, 11, "ten cases, one of them on two knees");
}
