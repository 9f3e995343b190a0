//! Backups, restoring, checking, and locking by itself.

use evengap_desk::{BackupSettings, ErrorCode, Role};

use crate::bench::{PASSPHRASE, at, desk_in, entry, finished, folder, quick, refused, save};

#[test]
fn a_reminder_comes_due() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    let day = |day: u32| format!("2026-07-{day:02}T09:00").parse().unwrap();
    let due = |desk: &evengap_desk::Desk, now| desk.notebook_current(now).unwrap().unwrap().backup.due;
    assert!(!due(&desk, day(1)), "an empty notebook can be made again");
    save(&mut desk, entry(1, "Threlkeld"), at("08:00")).unwrap();
    assert!(due(&desk, day(1)), "the first case is worth one");
    let settings = BackupSettings { folder: None, every_days: 0 };
    assert_eq!(desk.backup_settings_save(settings.clone()).unwrap(), settings, "kept");
    assert!(!due(&desk, day(1)), "nobody is reminded who does not want to be");
    assert_eq!(desk.backup_settings().unwrap(), settings, "and given back");
}

#[test]
fn settings_that_cannot_be() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    let nowhere = folder.path().join("none").to_string_lossy().into_owned();
    let sentence =
        refused(desk.backup_settings_save(BackupSettings { folder: Some(nowhere), every_days: 1 }), ErrorCode::Refused);
    assert!(sentence.starts_with("There is no folder "), "{sentence}");
    refused(desk.backup_settings_save(BackupSettings { folder: None, every_days: 367 }), ErrorCode::Refused);
    for minutes in [0, 121] {
        let sentence = refused(desk.lock_after_save(minutes), ErrorCode::Refused);
        assert_eq!(sentence, "Minutes until the notebook locks: write 1 to 120.");
    }
    assert_eq!(desk.lock_after().unwrap(), 10, "as shipped");
    desk.lock_after_save(3).unwrap();
    assert_eq!(desk.notebook_current(at("08:00")).unwrap().unwrap().lock_after_minutes, 3, "as set");
}

#[test]
fn a_backup_is_written_checked_and_remembered() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    save(&mut desk, entry(1, "Threlkeld"), at("08:01")).unwrap();
    let sentence = refused(desk.notebook_back_up(None, false, at("08:02"), |_| true), ErrorCode::Refused);
    assert!(sentence.starts_with("No folder for backups is set."), "{sentence}");
    let copies = folder.path().join("copies");
    std::fs::create_dir(&copies).unwrap();
    let settings = BackupSettings { folder: Some(copies.to_string_lossy().into_owned()), every_days: 7 };
    desk.backup_settings_save(settings).unwrap();
    let mut last = None;
    let told = |progress| {
        last = Some(progress);
        true
    };
    let report = desk.notebook_back_up(None, false, at("08:03"), told).unwrap();
    assert_eq!(report.path, copies.join("knees 2026-06-30 08.03.evengap").display().to_string(), "named by its time");
    assert_eq!((report.cases, std::fs::metadata(&report.path).unwrap().len()), (1, report.bytes), "what is in it");
    assert!(last.is_some_and(|last| last.done == last.total), "progress to its end: {last:?}");
    let state = desk.notebook_current("2026-07-06T08:00".parse().unwrap()).unwrap().unwrap().backup;
    assert_eq!((state.last_at.as_deref(), state.days_since, state.due), (Some("2026-06-30T08:03"), Some(6), false));
    let state = desk.notebook_current("2026-07-07T08:00".parse().unwrap()).unwrap().unwrap().backup;
    assert!(state.due, "a week later the next one is due");

    let to = folder.path().join("copy.evengap");
    desk.notebook_back_up(Some(&to), false, at("08:04"), |_| true).unwrap();
    refused(desk.notebook_back_up(Some(&to), false, at("08:04"), |_| true), ErrorCode::Exists);
    desk.notebook_back_up(Some(&to), true, at("08:04"), |_| true).unwrap();
    let itself = folder.path().join("knees.evengap");
    refused(desk.notebook_back_up(Some(&itself), true, at("08:04"), |_| true), ErrorCode::Refused);
    let stopped = folder.path().join("stopped.evengap");
    refused(desk.notebook_back_up(Some(&stopped), false, at("08:05"), |_| false), ErrorCode::Failed);
    assert!(!stopped.exists(), "a stopped one leaves nothing");
}

#[test]
fn a_backup_is_restored_with_a_report() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    save(&mut desk, entry(1, "Threlkeld"), at("08:01")).unwrap();
    let case = finished();
    save(&mut desk, case.to_value(), at("08:02")).unwrap();
    desk.case_sign(case.to_value(), &[], at("08:03")).unwrap();
    desk.person_add("Ms Clinic", Role::Clinic, false, "the clinic's own", at("08:04")).unwrap();
    let copy = folder.path().join("copy.evengap");
    desk.notebook_back_up(Some(&copy), false, at("08:05"), |_| true).unwrap();
    let bytes = std::fs::read(&copy).unwrap();

    let (new, quick) = (folder.path().join("new.evengap"), quick());
    refused(quick.notebook_restore(&copy, "not the passphrase", &new, at("09:00")), ErrorCode::WrongPassphrase);
    refused(quick.notebook_restore(&copy, "the clinic's own", &new, at("09:00")), ErrorCode::NotAllowed);
    assert!(!new.exists(), "whoever may not restore gets nothing");
    let report = quick.notebook_restore(&copy, PASSPHRASE, &new, at("09:00")).unwrap();
    assert_eq!((report.cases, report.drafts, report.signed, report.people), (2, 1, 1, 2), "{report:?}");
    assert_eq!((report.newest_saved_at.as_deref(), report.papers), (Some("2026-06-30T08:03"), 1), "{report:?}");
    assert_eq!(report.verify.problems, Vec::<String>::new(), "all is well");
    refused(quick.notebook_restore(&copy, PASSPHRASE, &new, at("09:01")), ErrorCode::Exists);
    assert!(std::fs::read(&copy).unwrap() == bytes, "the backup is as it was");
    assert_eq!(desk.notebook_open(&new, PASSPHRASE, at("09:02")).unwrap().cases, 2, "and the new one opens");
}

#[test]
fn a_check_finds_nothing_in_a_whole_notebook() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    save(&mut desk, entry(1, "Threlkeld"), at("08:01")).unwrap();
    let report = desk.notebook_verify().unwrap();
    assert_eq!((report.entries, report.steps, report.problems.len()), (1, 1, 0), "{report:?}");
    assert!(report.pages > 0 && report.ledger_head.is_some(), "{report:?}");
}
