//! Making, opening and closing notebooks.

use evengap_desk::{Desk, ErrorCode};

use crate::bench::{PASSPHRASE, at, desk_in, entry, folder, quick, refused, save};

#[test]
fn the_state_follows_the_acts() {
    let folder = folder();
    let path = folder.path().join("knees.evengap");
    let mut desk = quick();
    assert_eq!(desk.notebook_current(at("08:00")).unwrap(), None, "nothing is open at first");
    let state = desk.notebook_create(&path, PASSPHRASE, " Ms Orla Quill ", at("08:00")).unwrap();
    assert_eq!(state.path, path.display().to_string(), "where it is");
    assert_eq!((state.writer.as_str(), state.demonstration, state.cases), ("Ms Orla Quill", false, 0), "what it is");
    save(&mut desk, entry(1, "Threlkeld"), at("08:01")).unwrap();
    assert_eq!(desk.notebook_current(at("08:00")).unwrap().unwrap().cases, 1, "the count follows");
    assert_eq!(desk.notebook_close().unwrap(), None, "closed");
    assert_eq!(desk.notebook_current(at("08:00")).unwrap(), None, "nothing is open");
    assert_eq!(desk.notebook_open(&path, PASSPHRASE, at("08:00")).unwrap().cases, 1, "and everything is there again");
}

#[test]
fn codes_tell_the_window_what_to_ask() {
    let folder = folder();
    let path = folder.path().join("knees.evengap");
    let mut desk = desk_in(&folder);
    refused(desk.notebook_create(&path, "another long one", "Mr B", at("08:00")), ErrorCode::Exists);
    let sentence = refused(desk.notebook_open(&path, "close sesame", at("08:00")), ErrorCode::WrongPassphrase);
    assert!(sentence.starts_with("The passphrase does not open this notebook."), "{sentence}");
    assert_eq!(
        refused(desk.notebook_open(&path, "", at("08:00")), ErrorCode::Refused),
        "The passphrase is empty; type one."
    );
    refused(desk.notebook_open(&folder.path().join("none.evengap"), "x", at("08:00")), ErrorCode::Failed);
    assert!(desk.notebook_current(at("08:00")).unwrap().is_some(), "after all that the open one is still open");
}

#[test]
fn without_a_notebook() {
    let mut desk = quick();
    let sentence = "No notebook is open. Open one or make a new one first.";
    assert_eq!(refused(desk.cases_find(""), ErrorCode::NotOpen), sentence, "finding");
    refused(desk.case_new(crate::bench::id(1), at("08:00")), ErrorCode::NotOpen);
    refused(desk.case_show(&crate::bench::id(1).to_string()), ErrorCode::NotOpen);
    refused(save(&mut desk, entry(1, "Threlkeld"), at("08:00")), ErrorCode::NotOpen);
}

#[test]
fn a_suggested_name_is_free() {
    let folder = folder();
    let desk = Desk::new();
    let suggested = || desk.notebook_suggest_path(folder.path());
    assert_eq!(suggested(), folder.path().join("knees.evengap"), "the plain name first");
    std::fs::write(suggested(), "").unwrap();
    assert_eq!(suggested(), folder.path().join("knees-2.evengap"), "then numbered");
}

#[test]
fn a_desk_may_move_between_threads() {
    fn check<T: Send>(_: &T) {}
    check(&Desk::new());
}
