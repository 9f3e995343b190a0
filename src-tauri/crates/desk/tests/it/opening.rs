//! Locking, unlocking, and wrong passphrases.

use evengap_case::LocalTime;
use evengap_desk::{Desk, ErrorCode};

use crate::bench::{PASSPHRASE, at, desk_in, entry, folder, refused, save};

fn second(text: &str) -> LocalTime {
    LocalTime(format!("2026-06-30T{text}").parse().unwrap())
}

#[test]
fn locking_and_unlocking() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    save(&mut desk, entry(1, "Threlkeld"), at("08:01")).unwrap();
    let path = desk.notebook_lock().unwrap();
    refused(desk.cases_find(""), ErrorCode::NotOpen);
    refused(desk.notebook_lock(), ErrorCode::NotOpen);
    assert_eq!(desk.notebook_open(path.as_ref(), PASSPHRASE, at("08:02")).unwrap().cases, 1, "unlocked again");
}

#[test]
fn wrong_passphrases_slow_down() {
    let folder = folder();
    let path = folder.path().join("knees.evengap");
    drop(desk_in(&folder));
    let open = |passphrase: &str, clock: &str| Desk::new().notebook_open(&path, passphrase, second(clock)).map(drop);
    for _ in 0..5 {
        refused(open("wrong", "09:00:00"), ErrorCode::WrongPassphrase);
    }
    let sentence = refused(open(PASSPHRASE, "09:00:01"), ErrorCode::Wait);
    let said = "5 wrong passphrases were typed in a row. Wait 1 second; the next one is not looked at before.";
    assert_eq!(sentence, said, "not even the right one is looked at");
    refused(open("wrong", "09:00:02"), ErrorCode::WrongPassphrase);
    assert!(refused(open("wrong", "09:00:03"), ErrorCode::Wait).contains("Wait 3 seconds"), "twice as long");
    let mut clock = "09:10:00";
    for next in ["09:20:00", "09:30:00", "09:40:00", "09:50:00", "09:51:00"] {
        refused(open("wrong", clock), ErrorCode::WrongPassphrase);
        clock = next;
    }
    assert!(refused(open("wrong", "09:50:00"), ErrorCode::Wait).contains("Wait 60 seconds"), "never longer");
    refused(open(PASSPHRASE, "08:00:00"), ErrorCode::Wait);
    open(PASSPHRASE, "08:01:00").unwrap_or_else(|error| panic!("a clock that was set back: {error}"));
    for _ in 0..5 {
        refused(open("wrong", "10:00:00"), ErrorCode::WrongPassphrase);
    }
    open(PASSPHRASE, "10:00:02").unwrap_or_else(|error| panic!("the right one begins the count anew: {error}"));
}

#[test]
fn what_never_was_a_notebook_stays_as_it_is() {
    let folder = folder();
    let path = folder.path().join("other.evengap");
    let bytes = vec![7_u8; 64 * 1024];
    std::fs::write(&path, &bytes).unwrap();
    for _ in 0..7 {
        assert!(Desk::new().notebook_open(&path, "wrong", at("08:00")).is_err(), "it is none");
    }
    assert_eq!(std::fs::read(&path).unwrap(), bytes, "nothing is counted in a file without a door");
}
