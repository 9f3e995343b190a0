//! Two notebooks of one person.

use std::path::PathBuf;

use evengap_desk::{Desk, ErrorCode, Keep};
use tempfile::TempDir;

use crate::bench::{PASSPHRASE, at, entry, finished, folder, id, quick, refused, save};

const WORDS: &str = "only for this file";

fn desk_at(folder: &TempDir, name: &str) -> Desk {
    let mut desk = quick();
    desk.notebook_create(&folder.path().join(name), PASSPHRASE, "Ms Orla Quill", at("08:00")).unwrap();
    desk
}

fn sent(desk: &Desk, folder: &TempDir, name: &str) -> PathBuf {
    let to = folder.path().join(name);
    desk.exchange_write((&to, false), WORDS, None, at("12:00")).unwrap();
    to
}

#[test]
fn new_same_newer_older() {
    let folder = folder();
    let (mut theatre, mut clinic) = (desk_at(&folder, "theatre.evengap"), desk_at(&folder, "clinic.evengap"));
    save(&mut theatre, entry(1, "Threlkeld"), at("08:01")).unwrap();
    save(&mut theatre, entry(2, "Rowe"), at("08:01")).unwrap();
    let first = sent(&theatre, &folder, "first");
    let read = |desk: &mut Desk, from: &PathBuf| {
        let report = desk.exchange_read(from, WORDS, at("12:01")).unwrap();
        assert_eq!(report.written_by, "Ms Orla Quill", "who wrote it");
        [report.new, report.same, report.newer, report.older, u32::try_from(report.conflicts.len()).unwrap()]
    };
    assert_eq!(read(&mut clinic, &first), [2, 0, 0, 0, 0], "both are new");
    assert_eq!(read(&mut clinic, &first), [0, 2, 0, 0, 0], "twice changes nothing");
    save(&mut theatre, entry(1, "Threlkeld-Rowe"), at("13:00")).unwrap();
    let second = sent(&theatre, &folder, "second");
    assert_eq!(read(&mut clinic, &second), [0, 1, 1, 0, 0], "one is newer");
    assert_eq!(read(&mut clinic, &first), [0, 1, 0, 1, 0], "an old file takes nothing back");
    assert_eq!(clinic.case_history(&id(1).to_string()).unwrap().len(), 2, "the history came with it");
}

#[test]
fn a_conflict_keeps_both_and_asks() {
    let folder = folder();
    let (mut theatre, mut clinic) = (desk_at(&folder, "theatre.evengap"), desk_at(&folder, "clinic.evengap"));
    save(&mut theatre, entry(1, "Threlkeld"), at("08:01")).unwrap();
    clinic.exchange_read(&sent(&theatre, &folder, "first"), WORDS, at("12:01")).unwrap();
    save(&mut theatre, entry(1, "Theirs"), at("13:00")).unwrap();
    save(&mut clinic, entry(1, "Ours"), at("13:01")).unwrap();
    let report = clinic.exchange_read(&sent(&theatre, &folder, "second"), WORDS, at("13:02")).unwrap();
    assert_eq!(report.conflicts.len(), 1, "{report:?}");
    assert_eq!(clinic.notebook_current(at("13:03")).unwrap().unwrap().open_conflicts, 1, "and the frame says so");
    let [line] = &clinic.conflicts().unwrap()[..] else { panic!("one line") };
    let both = clinic.conflict_show(line.sequence).unwrap();
    let name = |side: &evengap_desk::ConflictSide| side.case.patient.family_name.clone().unwrap();
    assert_eq!((name(&both.ours), name(&both.theirs)), ("Ours".into(), "Theirs".into()), "side by side");
    assert_eq!(both.choices, [Keep::Ours, Keep::Theirs], "two drafts: either");
    clinic.conflict_settle(line.sequence, Keep::Theirs, at("13:04")).unwrap();
    let shown = clinic.case_show(&id(1).to_string()).unwrap();
    assert_eq!(shown.case.patient.family_name.as_deref(), Some("Theirs"), "the chosen one goes on");
    assert_eq!(clinic.conflicts().unwrap(), [], "settled");
    refused(clinic.conflict_show(line.sequence), ErrorCode::Failed);
}

#[test]
fn a_signed_version_stays() {
    let folder = folder();
    let (mut theatre, mut clinic) = (desk_at(&folder, "theatre.evengap"), desk_at(&folder, "clinic.evengap"));
    let case = finished();
    save(&mut theatre, case.to_value(), at("08:01")).unwrap();
    clinic.exchange_read(&sent(&theatre, &folder, "first"), WORDS, at("12:01")).unwrap();
    clinic.case_sign(case.to_value(), &[], at("13:00")).unwrap();
    let mut other = case.clone();
    other.closing.blood_loss_ml = Some(321.into());
    save(&mut theatre, other.to_value(), at("13:01")).unwrap();
    clinic.exchange_read(&sent(&theatre, &folder, "second"), WORDS, at("13:02")).unwrap();
    let line = clinic.conflicts().unwrap().remove(0);
    assert_eq!(clinic.conflict_show(line.sequence).unwrap().choices, [Keep::Ours], "signed never changes");
    refused(clinic.conflict_settle(line.sequence, Keep::Theirs, at("13:03")), ErrorCode::Refused);
    clinic.conflict_settle(line.sequence, Keep::Ours, at("13:04")).unwrap();
}

#[test]
fn what_is_refused() {
    let folder = folder();
    let mut desk = desk_at(&folder, "theatre.evengap");
    save(&mut desk, entry(1, "Threlkeld"), at("08:01")).unwrap();
    let to = sent(&desk, &folder, "file");
    refused(desk.exchange_write((&to, false), WORDS, None, at("12:01")), ErrorCode::Exists);
    desk.exchange_write((&to, true), WORDS, Some(&[id(1).to_string()]), at("12:01")).unwrap();
    refused(desk.exchange_write((&to, true), "too short", None, at("12:01")), ErrorCode::Refused);
    let itself = folder.path().join("theatre.evengap");
    refused(desk.exchange_write((&itself, true), WORDS, None, at("12:01")), ErrorCode::Refused);
    refused(
        desk.exchange_write((&folder.path().join("x"), true), WORDS, Some(&[id(7).to_string()]), at("12:01")),
        ErrorCode::Failed,
    );
    refused(desk.exchange_read(&to, PASSPHRASE, at("12:02")), ErrorCode::WrongPassphrase);
    refused(desk.exchange_read(&itself, PASSPHRASE, at("12:02")), ErrorCode::Failed);
    refused(desk.exchange_read(&folder.path().join("none"), WORDS, at("12:02")), ErrorCode::Failed);
    let left: Vec<_> = std::fs::read_dir(folder.path()).unwrap().map(|file| file.unwrap().file_name()).collect();
    assert_eq!(left.len(), 2, "nothing is left beside: {left:?}");
}

#[test]
fn an_exchange_file_is_told_from_a_notebook() {
    let folder = folder();
    let mut desk = desk_at(&folder, "theatre.evengap");
    save(&mut desk, entry(1, "Threlkeld"), at("08:01")).unwrap();
    let file = sent(&desk, &folder, "first");
    let says =
        "is an exchange file, not a notebook. Open the notebook that shall have its cases, and receive it there.";
    let opened = refused(desk.notebook_open(&file, WORDS, at("12:01")), ErrorCode::Failed);
    assert!(opened.ends_with(says), "opened: {opened}");
    let to = folder.path().join("new.evengap");
    let restored = refused(desk.notebook_restore(&file, WORDS, &to, at("12:02")), ErrorCode::Failed);
    assert!(restored.ends_with(says) && restored.contains("first"), "restored: {restored}");
    assert!(!to.exists(), "and nothing is left behind");
}
