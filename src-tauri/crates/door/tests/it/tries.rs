//! The count of wrong passphrases, in its own sector.

use chrono::{NaiveDate, NaiveDateTime};
use evengap_door::{Tries, note_try, tries};
use tempfile::TempDir;

use crate::made::{LINES, check_whole, door, file_with, key_by, notebook};

fn at() -> NaiveDateTime {
    NaiveDate::from_ymd_opt(2026, 3, 14).and_then(|day| day.and_hms_opt(9, 26, 53)).unwrap()
}

#[test]
fn what_was_noted_is_read() {
    let folder = TempDir::new().unwrap();
    let (path, key) = notebook(&folder, "tried");
    assert_eq!(tries(&path), Tries::default(), "a new file has none");
    for failed in [1, 5, u32::MAX] {
        let noted = Tries { failed, last_at: Some(at()) };
        note_try(&path, &noted).unwrap();
        assert_eq!(tries(&path), noted);
    }
    note_try(&path, &Tries::default()).unwrap();
    assert_eq!(tries(&path), Tries::default(), "and it can be set back");
    assert_eq!(key_by(&path, "one's own words"), key, "the door is as it was");
    check_whole(&path, &key, LINES);
}

#[test]
fn writing_the_door_leaves_them() {
    let folder = TempDir::new().unwrap();
    let (mut door, _) = door();
    let path = file_with(&mut door, &folder, "kept");
    let noted = Tries { failed: 3, last_at: Some(at()) };
    note_try(&path, &noted).unwrap();
    door.write(&path).unwrap();
    assert_eq!(tries(&path), noted);
}

#[test]
fn a_broken_sector_reads_as_none() {
    let folder = TempDir::new().unwrap();
    let (mut door, key) = door();
    let path = file_with(&mut door, &folder, "broken");
    let before = std::fs::read(&path).unwrap();
    note_try(&path, &Tries { failed: 7, last_at: Some(at()) }).unwrap();
    let whole = std::fs::read(&path).unwrap();
    let changed: Vec<usize> = (0..whole.len()).filter(|at| whole[*at] != before[*at]).collect();
    assert!(changed[changed.len() - 1] / 512 == changed[0] / 512, "one sector, so that no cut tears it: {changed:?}");
    for at in changed {
        let mut bytes = whole.clone();
        bytes[at] ^= 0xff;
        std::fs::write(&path, &bytes).unwrap();
        assert_eq!(tries(&path), Tries::default(), "byte {at}");
        assert_eq!(key_by(&path, "one's own words"), key, "the door opens all the same");
    }
}

#[test]
fn a_file_without_a_door_has_none_and_gets_none() {
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("short");
    assert_eq!(tries(&path), Tries::default(), "a missing file");
    std::fs::write(&path, "short").unwrap();
    assert_eq!(tries(&path), Tries::default(), "a short one");
    assert!(note_try(&path, &Tries::default()).is_err());
    assert_eq!(std::fs::read(&path).unwrap(), b"short", "not a byte is written");
}
