//! The people of a notebook, their passphrases, and the recovery sheet.

use evengap_desk::{Desk, ErrorCode, PageSize, PersonLine, Role};

use crate::bench::{PASSPHRASE, at, desk_in, entry, finished, folder, id, quick, refused, save};

const REGISTRAR: (&str, &str) = ("Mr Idris Penhale", "the registrar's own words");

fn line(desk: &Desk, name: &str) -> PersonLine {
    desk.people().unwrap().into_iter().find(|line| line.name == name).unwrap()
}

#[test]
fn from_adding_to_removing() {
    let folder = folder();
    let path = folder.path().join("knees.evengap");
    let mut desk = desk_in(&folder);
    let mark = desk.person_add(REGISTRAR.0, Role::Registrar, false, REGISTRAR.1, at("08:01")).unwrap();
    let added = line(&desk, REGISTRAR.0);
    assert_eq!((&added.mark, added.role, added.can_open, added.you), (&mark, Role::Registrar, true, false));

    let state = desk.notebook_open(&path, REGISTRAR.1, at("08:02")).unwrap();
    assert_eq!((state.person.name.as_str(), state.writer.as_str()), (REGISTRAR.0, REGISTRAR.0), "who opened it");
    save(&mut desk, entry(1, "Threlkeld"), at("08:03")).unwrap();
    desk.passphrase_change(REGISTRAR.1, "words that nobody gave me", at("08:04")).unwrap();
    refused(desk.notebook_open(&path, REGISTRAR.1, at("08:05")), ErrorCode::WrongPassphrase);
    desk.notebook_open(&path, "words that nobody gave me", at("08:05")).unwrap();

    desk.notebook_open(&path, PASSPHRASE, at("08:06")).unwrap();
    desk.passphrase_set(&mark, "given by the keeper again").unwrap();
    desk.person_change(&mark, Role::Clinic, true).unwrap();
    assert_eq!((line(&desk, REGISTRAR.0).role, line(&desk, REGISTRAR.0).keeper), (Role::Clinic, true), "changed");
    desk.person_remove(&mark, at("08:07")).unwrap();
    let gone = line(&desk, REGISTRAR.0);
    assert_eq!((gone.can_open, gone.removed_at.as_deref()), (false, Some("2026-06-30T08:07")), "removed");
    refused(desk.notebook_open(&path, "given by the keeper again", at("08:08")), ErrorCode::WrongPassphrase);
    let steps = desk.case_history(&id(1).to_string()).unwrap();
    assert_eq!(steps[0].by, REGISTRAR.0, "what was written stays, with the name");
}

#[test]
fn what_is_refused() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    let you = line(&desk, "Ms Orla Quill").mark;
    let short = refused(desk.person_add("A", Role::Clinic, false, "too short", at("08:01")), ErrorCode::Refused);
    assert!(short.contains("at least 12 characters"), "{short}");
    let taken = refused(desk.person_add("A", Role::Clinic, false, PASSPHRASE, at("08:01")), ErrorCode::Refused);
    assert_eq!(taken, "This passphrase cannot be used in this notebook; choose another.");
    refused(desk.person_add(" ", Role::Clinic, false, REGISTRAR.1, at("08:01")), ErrorCode::Refused);
    refused(desk.person_add("Ms Orla Quill", Role::Clinic, false, REGISTRAR.1, at("08:01")), ErrorCode::Refused);
    let last = refused(desk.person_change(&you, Role::Surgeon, false), ErrorCode::Refused);
    assert!(last.contains("is the only keeper"), "{last}");
    refused(desk.person_remove(&you, at("08:01")), ErrorCode::Refused);
    refused(desk.person_remove("Tuesday", at("08:01")), ErrorCode::Refused);
    let error = desk.passphrase_change("not my passphrase", "something quite new", at("08:01"));
    let not_yours = refused(error, ErrorCode::WrongPassphrase);
    assert!(not_yours.starts_with("The old passphrase is not yours, so nothing was changed."), "{not_yours}");
    assert_eq!(desk.people().unwrap().len(), 1, "nobody came in");
}

#[test]
fn the_recovery_sheet_opens_the_notebook_for_a_keeper() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    let path = folder.path().join("knees.evengap");
    let sheet = folder.path().join("sheet.pdf");
    assert_eq!(desk.notebook_current(at("08:00")).unwrap().unwrap().recovery_sheet_at, None, "none at first");
    desk.recovery_sheet(&sheet, false, PageSize::A4, at("08:01")).unwrap();
    assert!(std::fs::read(&sheet).unwrap().starts_with(b"%PDF-"), "a PDF");
    let state = desk.notebook_current(at("08:02")).unwrap().unwrap();
    assert_eq!(state.recovery_sheet_at.as_deref(), Some("2026-06-30T08:01"), "when");
    refused(desk.recovery_sheet(&sheet, false, PageSize::A4, at("08:03")), ErrorCode::Exists);
    refused(desk.recovery_sheet(&path, true, PageSize::A4, at("08:03")), ErrorCode::Failed);
    let nowhere = folder.path().join("none").join("sheet.pdf");
    refused(desk.recovery_sheet(&nowhere, false, PageSize::A4, at("08:03")), ErrorCode::Failed);
    let state = desk.notebook_current(at("08:04")).unwrap().unwrap();
    assert_eq!(state.recovery_sheet_at.as_deref(), Some("2026-06-30T08:01"), "a file that cannot be costs no sheet");
    assert!(line(&desk, "Recovery sheet").recovery, "it stands among the people");
    assert!(!state.person.recovery, "but nobody opened the notebook with it");
    assert!(desk.notebook_open(&path, PASSPHRASE, at("08:05")).is_ok(), "and the passphrases go on");
}

#[test]
fn the_demonstration_locks_nobody_out() {
    let folder = folder();
    let mut desk = quick();
    desk.notebook_open_demonstration(folder.path(), at("08:00")).unwrap();
    let people = desk.people().unwrap();
    for person in desk.demo_people() {
        let line = people.iter().find(|line| line.name == person.name).unwrap();
        assert_eq!((line.role, line.can_open), (person.role, true), "{} can open it", person.name);
    }
    let registrar = people.iter().find(|line| line.role == Role::Registrar).unwrap();
    refused(desk.person_remove(&registrar.mark, at("08:00")), ErrorCode::Refused);
    let error = desk.passphrase_change("demonstration", "something else entirely", at("08:00"));
    let sentence = refused(error, ErrorCode::Refused);
    assert!(sentence.starts_with("The people of the demonstration"), "{sentence}");
    let path = desk.notebook_lock().unwrap();
    let clinic = desk.demo_people()[2];
    let state = desk.notebook_open(path.as_ref(), clinic.passphrase, at("08:01")).unwrap();
    assert_eq!((state.person.role, state.demonstration), (Role::Clinic, true), "as somebody of the clinic");
    let folder_of_it = folder.path();
    assert!(desk.notebook_open_demonstration(folder_of_it, at("08:02")).is_ok(), "and it opens by itself again");
}

#[test]
fn who_signs_is_who_opened_it() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    desk.person_add("Mr Second", Role::Surgeon, false, "a second surgeon's", at("08:01")).unwrap();
    let case = finished();
    save(&mut desk, case.to_value(), at("08:02")).unwrap();
    desk.notebook_open(&folder.path().join("knees.evengap"), "a second surgeon's", at("08:03")).unwrap();
    let entry = desk.case_sign(case.to_value(), &[], at("17:00")).unwrap();
    assert_eq!(entry.signed.unwrap().by, "Mr Second", "and not who began the notebook");
    let by: Vec<_> = desk.case_history(&case.id.to_string()).unwrap().into_iter().map(|step| step.by).collect();
    assert_eq!(by, ["Mr Second", "Ms Orla Quill"], "each step has its author");
}

#[test]
fn a_role_that_is_changed_elsewhere_holds_at_once() {
    let folder = folder();
    let path = folder.path().join("knees.evengap");
    let mut keeper = desk_in(&folder);
    let mark = keeper.person_add(REGISTRAR.0, Role::Registrar, false, REGISTRAR.1, at("08:01")).unwrap();
    let mut registrar = quick();
    registrar.notebook_open(&path, REGISTRAR.1, at("08:02")).unwrap();
    save(&mut registrar, entry(1, "Threlkeld"), at("08:03")).unwrap();
    keeper.person_change(&mark, Role::Clinic, false).unwrap();
    let sentence = refused(registrar.case_show(&id(1).to_string()), ErrorCode::NotAllowed);
    assert!(sentence.contains("is somebody of the clinic in this notebook"), "the new role is named: {sentence}");
    refused(registrar.case_review(entry(1, "Threlkeld")), ErrorCode::NotAllowed);
    let state = registrar.notebook_current(at("08:04")).unwrap().unwrap();
    assert_eq!(state.person.role, Role::Clinic, "and the frame shows it");
    keeper.person_change(&mark, Role::Surgeon, false).unwrap();
    assert!(registrar.case_show(&id(1).to_string()).is_ok(), "what is given holds at once too");
    keeper.person_remove(&mark, at("08:05")).unwrap();
    let sentence = refused(registrar.case_show(&id(1).to_string()), ErrorCode::Gone);
    assert!(sentence.contains("somebody was removed"), "whoever is removed is told to open it again: {sentence}");
    assert!(registrar.notebook_lock().is_ok(), "and it can be left");
}
