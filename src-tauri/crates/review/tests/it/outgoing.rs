//! What keeps the clinician letter and the component record from being handed out.

use evengap_case::{Case, read_value};
use evengap_review::{DISCHARGE_LIST, Finding, unfinished_clinician_letter, unfinished_component_record};
use serde_json::{Value, json};

use super::rules::demo;

fn without(mut case: Value, pointers: &[&str]) -> Case {
    for pointer in pointers {
        *case.pointer_mut(pointer).unwrap_or_else(|| panic!("the demo records {pointer}")) = Value::Null;
    }
    read_value(case).unwrap_or_else(|refusal| panic!("{refusal}")).case
}

fn check(find: fn(&Case) -> Vec<Finding>, emptied: &[&str], expected: &[&str]) {
    let found: Vec<_> = find(&without(demo("whole-knee-cemented"), emptied)).into_iter().map(|f| f.message).collect();
    assert_eq!(found, expected, "what is missing without {emptied:?}");
}

#[test]
fn every_component_of_a_discharge_summary_is_missed_when_its_answers_are_emptied() {
    let rows: [(&str, &[&str]); 6] = [
        ("reason for hospitalization", &["/knee/diagnosis/kind"]),
        ("significant findings", &["/approach/findings"]),
        ("procedures and treatment provided", &["/choice/procedure"]),
        ("discharge condition", &["/discharge/condition"]),
        (
            "patient and family instructions",
            &["/aftercare/instructions", "/aftercare/weight_bearing", "/aftercare/special"],
        ),
        ("attending's signature", &["/team"]),
    ];
    let names: Vec<_> = DISCHARGE_LIST.items.iter().map(|item| item.name).collect();
    assert_eq!(names, rows.map(|row| row.0), "the table names every item of {}", DISCHARGE_LIST.source);
    assert_eq!(unfinished_clinician_letter(&without(demo("whole-knee-cemented"), &[])), [], "the demo is finished");
    for (item, emptied) in rows {
        let found = unfinished_clinician_letter(&without(demo("whole-knee-cemented"), emptied));
        let named = |f: &Finding| f.blocks && f.source.as_deref().is_some_and(|s| s.contains(&format!("({item})")));
        assert!(found.iter().any(named), "“{item}” is missed: {found:?}");
    }
}

#[test]
fn a_letter_needs_a_person_and_an_end_of_the_blood_thinner() {
    let whose = "The patient is not fully identified: name, hospital number and date of birth.";
    check(unfinished_clinician_letter, &["/patient/birth_date"], &[whose]);
    let end = "The last day of the blood thinner is not among the medicines.";
    check(unfinished_clinician_letter, &["/discharge/medicines"], &[end]);
}

#[test]
fn a_record_needs_a_person_a_knee_a_day_and_a_component() {
    check(unfinished_component_record, &[], &[]);
    check(
        unfinished_component_record,
        &["/patient/hospital_number", "/knee/side", "/setting/hospital", "/components"],
        &[
            "The patient is not fully identified: name, hospital number and date of birth.",
            "The side of the operated knee is not recorded.",
            "The day of the operation and the hospital are not both recorded.",
            "No implanted component is recorded.",
        ],
    );
    check(
        unfinished_component_record,
        &["/components/2/fate"],
        &["It is not recorded of every component whether it was implanted."],
    );
    let mut opened = demo("whole-knee-cemented");
    for part in opened["components"].as_array_mut().unwrap() {
        part["fate"] = json!("opened_not_used");
    }
    let found = unfinished_component_record(&read_value(opened).unwrap().case);
    assert_eq!(found.len(), 1, "what was opened and not used is not in the knee: {found:?}");
}
