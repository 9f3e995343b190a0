//! Entries as the window handles them.

use evengap_case::{Case, LocalTime};
use evengap_desk::{Desk, ErrorCode, State};
use serde_json::json;

use crate::bench::{at, desk_in, entry, folder, id, refused, save};

#[test]
fn an_entry_from_its_beginning() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    let begun = desk.case_new(id(1), at("08:00")).unwrap();
    assert_eq!((begun.case.id, begun.case.created_at), (id(1), Some(at("08:00"))), "identifier and time are given");
    assert_eq!((begun.state, begun.saved_at), (State::Draft, None), "and nothing is stored");
    assert_eq!(desk.cases_find("").unwrap(), [], "an entry left blank leaves no line");

    let saved = save(&mut desk, begun.case.to_value(), at("08:05")).unwrap();
    assert_eq!(saved.saved_at, "2026-06-30T08:05", "the save answers when");
    let shown = desk.case_show(&id(1).to_string()).unwrap();
    assert_eq!((shown.case, shown.saved_at.as_deref()), (begun.case, Some("2026-06-30T08:05")), "what was saved");
    assert_eq!(desk.cases_find("").unwrap().len(), 1, "now there is a line");
}

#[test]
fn what_cannot_be_read_is_refused_with_its_places() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    save(&mut desk, entry(1, "Threlkeld"), at("08:00")).unwrap();
    let mut bad = entry(1, "Changed");
    bad["setting"]["operation_date"] = json!("2026-02-30");
    bad["knee"]["side"] = json!("middle");
    let Err(error) = save(&mut desk, bad.clone(), at("08:01")) else { panic!("it was saved") };
    let places: Vec<_> = error.places.iter().map(|place| place.path.as_str()).collect();
    assert_eq!((error.code, places), (ErrorCode::Refused, vec!["setting.operation_date", "knee.side"]), "all at once");
    assert_eq!(desk.cases_find("threlkeld").unwrap().len(), 1, "what was saved before stays");
    refused(desk.case_review(bad), ErrorCode::Refused);
}

#[test]
fn an_identifier_that_is_none() {
    let folder = folder();
    let desk = desk_in(&folder);
    let sentence = refused(desk.case_show("the one from Tuesday"), ErrorCode::Failed);
    assert_eq!(sentence, "“the one from Tuesday” is not a case identifier (a UUID, 36 characters with dashes).");
    refused(desk.case_show(&id(4).to_string()), ErrorCode::Failed);
}

#[test]
fn the_dictionary_and_the_schema_are_the_entry_s_own() {
    let desk = Desk::new();
    assert_eq!(desk.dictionary(), Case::FIELDS, "one dictionary");
    assert_eq!(desk.schema(), evengap_case::schema(), "one schema");
}

#[test]
fn review_needs_no_notebook() {
    let findings = Desk::new().case_review(entry(1, "Threlkeld")).unwrap();
    assert!(!findings.is_empty(), "an entry with a name and a day lacks something");
}

#[test]
fn a_file_that_is_no_case() {
    let folder = folder();
    let path = folder.path().join("case.json");
    let desk = Desk::new();
    let shown = path.display().to_string();
    let read = |bytes: &[u8]| {
        std::fs::write(&path, bytes).unwrap();
        desk.case_from_file(&path)
    };
    let sentence = refused(desk.case_from_file(&path), ErrorCode::Failed);
    assert_eq!(sentence, format!("There is no file {shown}. Check the name and the folder."), "missing");
    let sentence = refused(read(&[0xff, 0xfe]), ErrorCode::Failed);
    assert_eq!(sentence, format!("{shown}: this is not text in UTF-8; give a case file."), "another encoding");
    let sentence = refused(read(b"milk, bread"), ErrorCode::Refused);
    assert!(sentence.starts_with(&format!("{shown}: This is not JSON")), "{sentence}");
    let two = br#"{"format":"evengap-case/1","knee":{"side":"middle"},"setting":{"operation_date":"2026-02-30"}}"#;
    let sentence = refused(read(two), ErrorCode::Refused);
    assert_eq!(sentence.lines().filter(|line| line.starts_with(&shown)).count(), 2, "each line names it: {sentence}");
}

#[test]
fn adding_says_what_was_new() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    let case = evengap_case::read_value(entry(1, "Threlkeld")).unwrap().case;
    let mut nameless = case.clone();
    nameless.id = evengap_case::CaseId::default();
    let now: LocalTime = at("08:00");
    let added = desk.cases_add(vec![(case.clone(), id(8)), (nameless, id(9))], now).unwrap();
    let told: Vec<_> = added.iter().map(|one| (one.id.clone(), one.new)).collect();
    assert_eq!(told, [(id(1).to_string(), true), (id(9).to_string(), true)], "kept where given, new where not");
    let again = desk.cases_add(vec![(case, id(8))], now).unwrap();
    assert!(!again[0].new, "the same again is not new");
}
