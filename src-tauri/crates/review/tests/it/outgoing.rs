//! What keeps the letters and the component record from being handed out.

use evengap_case::{Case, read_value};
use evengap_review::{
    DISCHARGE_LIST, Finding, blood_thinner_until, unfinished_clinician_letter, unfinished_component_record,
    unfinished_letter,
};
use serde_json::{Value, json};

use super::rules::{changed, demo};

const WHOLE: &str = "whole-knee-cemented";

fn without(mut case: Value, pointers: &[&str]) -> Case {
    for pointer in pointers {
        *case.pointer_mut(pointer).unwrap_or_else(|| panic!("the demo records {pointer}")) = Value::Null;
    }
    read_value(case).unwrap_or_else(|refusal| panic!("{refusal}")).case
}

fn letter(case: &Case) -> Vec<Finding> {
    unfinished_letter(case, Some("112"))
}

fn clinician_letter(case: &Case) -> Vec<Finding> {
    unfinished_clinician_letter(case, Some("112"))
}

/// Checks all reasons of a paper of the finished demo with some answers changed.
fn check(find: fn(&Case) -> Vec<Finding>, changes: &[(&str, Value)], expected: &[&str]) {
    let found = find(&changed(demo(WHOLE), changes));
    assert!(found.iter().all(|finding| finding.blocks), "a reason blocks: {found:?}");
    let found: Vec<_> = found.into_iter().map(|finding| finding.message).collect();
    assert_eq!(found, expected, "what is unfinished with {changes:?}");
}

#[test]
fn every_component_of_a_discharge_summary_is_missed_when_its_answers_are_emptied() {
    let rows: [(&str, &[&str]); 9] = [
        ("reason for hospitalization", &["/knee/diagnosis/kind"]),
        ("procedures performed", &["/choice/procedure"]),
        ("care, treatment and services provided", &["/approach/findings"]),
        ("care, treatment and services provided", &["/events"]),
        ("condition and disposition at discharge", &["/discharge/on"]),
        ("condition and disposition at discharge", &["/discharge/condition"]),
        ("condition and disposition at discharge", &["/discharge/destination"]),
        (
            "information provided to patient and family",
            &["/aftercare/instructions", "/aftercare/weight_bearing", "/aftercare/special"],
        ),
        (
            "provisions for follow-up care",
            &["/aftercare/reviews", "/aftercare/wound_check_on", "/aftercare/closure_removal_on"],
        ),
    ];
    let names: Vec<_> = DISCHARGE_LIST.items.iter().map(|item| item.name).collect();
    assert_eq!(names, rows.map(|row| row.0), "the table names every item of {}", DISCHARGE_LIST.source);
    for (item, emptied) in rows {
        let emptied: Vec<_> = emptied.iter().map(|pointer| (*pointer, Value::Null)).collect();
        let found = clinician_letter(&changed(demo(WHOLE), &emptied));
        let [one] = found.as_slice() else { panic!("“{item}” without {emptied:?} is one reason: {found:?}") };
        assert!(one.blocks && one.source.as_deref().is_some_and(|s| s.contains(&format!("({item})"))), "{one:?}");
    }
}

#[test]
fn a_finished_demo_lacks_nothing() {
    for find in [letter, clinician_letter, unfinished_component_record] {
        check(find, &[], &[]);
    }
}

#[test]
fn a_letter_needs_a_person_and_somebody_who_signs() {
    let whose = "The patient is not fully identified: name, hospital number and date of birth.";
    check(clinician_letter, &[("/patient/birth_date", Value::Null)], &[whose]);
    let nobody = "Nobody is named who can sign: the operating or the responsible surgeon.";
    for find in [letter, clinician_letter] {
        check(find, &[("/team", json!([{ "person": "Dr Quill", "part": "anaesthetist" }]))], &[nobody]);
        check(find, &[("/team", json!([{ "person": "Ms Quill", "part": "responsible_surgeon" }]))], &[]);
    }
}

#[test]
fn a_letter_gives_the_blood_thinner_one_last_day() {
    let line = |name: &str, until: &str| ("/discharge/medicines/-", json!({ "name": name, "until": until }));
    for find in [letter, clinician_letter] {
        let none = "The last day of the blood thinner is not among the medicines.";
        check(find, &[("/discharge/medicines", json!([]))], &[none]);
        let two =
            "The medicines give Rivaroxaban two last days, 2026-03-23 and 2026-04-20; only one of them can stand.";
        let course =
            "The blood thinner ends on 2026-04-20 among the medicines, but its course of days ends on 2026-03-23.";
        check(find, &[line("Rivaroxaban", "2026-04-20")], &[two, course]);
        check(
            find,
            &[("/discharge/medicines/-", json!({ "name": "Rivaroxaban" }))],
            &["The medicines name Rivaroxaban with a last day and again without one."],
        );
        // A letter is no name of a drug, and another medicine's day is no day of the blood thinner.
        check(find, &[line("R", "2026-04-20"), line("Riva", "2026-04-21")], &[]);
        let early = "The blood thinner ends on 2026-03-12, before the discharge on 2026-03-13.";
        check(find, &[("/discharge/medicines/0/until", json!("2026-03-12"))], &[early]);
    }
    let case = changed(demo(WHOLE), &[line("rivaroxaban tablets", "2026-04-20"), line("R", "2026-05-01")]);
    let until = blood_thinner_until(&case).map(|day| day.to_string());
    assert_eq!(until.as_deref(), Some("2026-04-20"), "the latest of the medicines that bear its name");
}

#[test]
fn a_letter_says_what_becomes_of_the_blood_thinner_from_before() {
    let before = ("/patient/anticoagulant", json!("Warfarin 3 mg"));
    let two = "Two blood thinners are recorded, warfarin from before the operation and Rivaroxaban after it. Give \
               warfarin its own line among the medicines: its dose, “stopped”, or the day it starts again.";
    for find in [letter, clinician_letter] {
        check(find, std::slice::from_ref(&before), &[two]);
        let line =
            ("/discharge/medicines/-", json!({ "name": "Warfarin", "dose": "stopped; starts again on 24 March" }));
        check(find, &[before.clone(), line], &[]);
        check(find, &[before.clone(), ("/aftercare/vte/drug", json!("none"))], &[]);
    }
}

#[test]
fn a_letter_to_the_patient_is_not_written_to_the_dead() {
    let died = "The entry records that the patient died on 2026-03-13; this letter is written to a living patient.";
    let visits = ("/visits", json!([]));
    check(letter, &[visits.clone(), ("/end", json!({ "died_on": "2026-03-13" }))], &[died]);
    check(letter, &[visits.clone(), ("/end", json!({ "died_on": "2026-03-14" }))], &[]);
    let event = |when: &str| ("/events/-", json!({ "what": "other", "grade": "5", "when": when }));
    let died = "The entry records that the patient died; this letter is written to a living patient.";
    check(letter, &[event("inpatient")], &[died]);
    check(letter, &[event("after_discharge")], &[]);
    let after = "The discharge on 2026-03-13 lies after the death on 2026-03-12.";
    check(clinician_letter, &[visits, ("/end", json!({ "died_on": "2026-03-12" }))], &[after]);
    let nothing_follows = [
        ("/end", json!({ "died_on": "2026-03-12" })),
        ("/visits", json!([])),
        ("/discharge/on", json!("2026-03-12")),
        ("/aftercare/reviews", json!([])),
        ("/aftercare/wound_check_on", Value::Null),
        ("/aftercare/closure_removal_on", Value::Null),
    ];
    check(clinician_letter, &nothing_follows, &[]);
}

#[test]
fn each_telephone_number_can_be_called() {
    let nobody = "“ask at desk” is recorded as a telephone number, but nobody can call it.";
    check(letter, &[("/discharge/contact_phone", json!("ask at desk"))], &[nobody]);
    check(letter, &[("/discharge/emergency_phone", json!("ask at desk"))], &[nobody]);
    let ambulance = |number: &str| {
        format!("The telephone number {number} calls an ambulance; record one of the patient's own team.")
    };
    for number in ["112", "9 9 9", "911"] {
        check(letter, &[("/discharge/emergency_phone", json!(number))], &[&ambulance(number)]);
    }
    let case = changed(demo(WHOLE), &[("/discharge/emergency_phone", json!("144"))]);
    assert_eq!(unfinished_letter(&case, Some("112")), [], "a number like any other here");
    let found = unfinished_letter(&case, Some("144"));
    assert_eq!(found[0].message, ambulance("144"), "but not where it is the ambulance's");
}

#[test]
fn a_letter_names_what_the_patient_reacts_to() {
    let reaction = ("/patient/allergies/-", json!({ "reaction": "collapse" }));
    let what = "An allergy is recorded by its reaction (collapse), but not to what.";
    check(letter, std::slice::from_ref(&reaction), &[what]);
    check(clinician_letter, &[reaction], &[what]);
}

#[test]
fn a_paper_that_prints_one_of_two_answers_is_not_finished() {
    let side = "The femoral component Fellgate cruciate-retaining femur (no. 1) is made for the other side; the knee is the left.";
    for find in [letter, clinician_letter, unfinished_component_record] {
        check(find, &[("/components/0/side", json!("right"))], &[side]);
        // Nothing that these papers print.
        check(find, &[("/times/closed", json!("2026-03-10T08:50"))], &[]);
    }
    let lot = "The label of the bone cement Marlbed G (no. 5) says lot M53363, the entry says M53364.";
    check(unfinished_component_record, &[("/components/4/lot", json!("M53364"))], &[lot]);
    check(letter, &[("/components/4/lot", json!("M53364"))], &[]);
    let expired = "The insert Fellgate cruciate-retaining insert (no. 3) expired on 2026-03-09, before the operation on \
                   2026-03-10.";
    let found =
        unfinished_component_record(&changed(demo(WHOLE), &[("/components/2/expires_on", json!("2026-03-09"))]));
    assert!(found.iter().any(|finding| finding.message == expired), "{found:?}");
    let birth = "The birth on 2026-03-11 lies after the operation on 2026-03-10.";
    check(letter, &[("/patient/birth_date", json!("2026-03-11"))], &[birth]);
}

#[test]
fn a_label_read_with_the_signs_of_another_scanner_is_no_conflict() {
    let scan = |separator: &str| {
        let raw = format!("]d201095238660012531125060310M53363{separator}17280531");
        unfinished_component_record(&changed(demo(WHOLE), &[("/components/4/scan/raw", json!(raw))]))
    };
    for separator in ["\u{1d}", "|", "^", "~", "{GS}", "<GS>"] {
        assert_eq!(scan(separator), [], "{separator:?} parts two elements");
    }
}

#[test]
fn a_record_needs_a_person_a_knee_a_day_and_a_component() {
    check(
        unfinished_component_record,
        &[
            ("/patient/hospital_number", Value::Null),
            ("/knee/side", Value::Null),
            ("/setting/hospital", Value::Null),
            ("/components", json!([])),
            ("/cement", Value::Null),
        ],
        &[
            "The patient is not fully identified: name, hospital number and date of birth.",
            "The side of the operated knee is not recorded.",
            "The day of the operation and the hospital are not both recorded.",
            "No implanted component is recorded.",
        ],
    );
    check(
        unfinished_component_record,
        &[("/components/2/fate", Value::Null)],
        &["It is not recorded of every component whether it was implanted."],
    );
    let mut opened = demo(WHOLE);
    for part in opened["components"].as_array_mut().unwrap() {
        part["fate"] = json!("opened_not_used");
    }
    let found = unfinished_component_record(&without(opened, &[]));
    let none = "No implanted component is recorded.";
    assert!(found.iter().any(|f| f.message == none), "what was opened and not used is not in the knee: {found:?}");
}

#[test]
fn a_record_tells_each_component_from_others() {
    check(
        unfinished_component_record,
        &[
            ("/components/2/name", Value::Null),
            ("/components/2/lot", Value::Null),
            ("/components/2/serial", Value::Null),
            ("/components/3/reference", Value::Null),
            ("/components/4/lot", Value::Null),
        ],
        &[
            "Component 3 (insert) lacks its name and its lot or serial number.",
            "Component 4 (patellar button) lacks its reference.",
            "Component 5 (bone cement) lacks its lot or serial number.",
        ],
    );
    check(unfinished_component_record, &[("/components/2/lot", Value::Null)], &[]);
}
