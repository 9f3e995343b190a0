//! Who opens a door, and who does not.

use evengap_door::{Cost, Door, DoorError, FileKey, SlotKind};
use tempfile::TempDir;
use uuid::Uuid;

use crate::made::{door, file_with, key_by};

const NEW: Uuid = Uuid::from_u128(9);

#[track_caller]
fn check(door: &Door, passphrase: &str, expected: Option<(u128, SlotKind)>) {
    let opened = door.unlock(passphrase).unwrap().map(|opened| (opened.slot.as_u128(), opened.kind));
    assert_eq!(opened, expected, "{passphrase:?}");
}

#[test]
fn each_passphrase_opens_its_own_slot() {
    let (door, key) = door();
    check(&door, "one's own words", Some((1, SlotKind::Person)));
    check(&door, "another's words", Some((2, SlotKind::Person)));
    check(&door, "the sheet's words", Some((3, SlotKind::Recovery)));
    for passphrase in ["one's own words", "another's words", "the sheet's words"] {
        let opened = door.unlock(passphrase).unwrap().unwrap();
        assert_eq!(opened.key, key, "they all get the one key of the pages");
        assert_eq!(opened.next_key, None, "no change of keys is under way");
    }
}

#[test]
fn anything_else_opens_none() {
    let (door, _) = door();
    for passphrase in ["", " ", "one's own word", "one's own words ", "One's own words", "'; DROP TABLE line; --", "\0"]
    {
        check(&door, passphrase, None);
    }
    check(&door, &"x".repeat(1_000_000), None);
    for number in 0..1_000 {
        check(&door, &format!("one's own words {number}"), None);
    }
}

#[test]
fn a_door_without_slots_opens_to_nobody() {
    let (door, _) = Door::new(Cost::LEAST).unwrap();
    check(&door, "", None);
}

#[test]
fn a_file_keeps_what_was_put_in() {
    let folder = TempDir::new().unwrap();
    let (mut door, key) = door();
    let path = file_with(&mut door, &folder, "kept");
    assert_eq!(std::fs::metadata(&path).unwrap().len(), evengap_door::LENGTH, "the door has its length at once");
    let read = Door::read(&path).unwrap();
    assert!(read.slots().eq(door.slots()), "the same slots in the same order");
    assert_eq!(read.cost(), Cost::LEAST, "and the same cost");
    assert_eq!(key_by(&path, "another's words"), key, "and the same key");
}

#[test]
fn a_passphrase_belongs_to_one() {
    let (mut door, key) = door();
    let refused = door.add(&key, NEW, SlotKind::Person, "another's words");
    assert!(matches!(refused, Err(DoorError::PassphraseTaken)), "{refused:?}");
    let refused = door.change(&key, Uuid::from_u128(1), "another's words");
    assert!(matches!(refused, Err(DoorError::PassphraseTaken)), "{refused:?}");
    assert_eq!(door.slots().count(), 3, "nobody was added");
    door.change(&key, Uuid::from_u128(1), "one's own words").unwrap();
    check(&door, "one's own words", Some((1, SlotKind::Person)));
}

#[test]
fn a_changed_passphrase_takes_the_place_of_the_old_one() {
    let (mut door, key) = door();
    door.change(&key, Uuid::from_u128(3), "words of a new sheet").unwrap();
    check(&door, "the sheet's words", None);
    check(&door, "words of a new sheet", Some((3, SlotKind::Recovery)));
    let refused = door.change(&key, NEW, "whatever");
    assert!(matches!(refused, Err(DoorError::NoSuchSlot)), "{refused:?}");
}

#[test]
fn who_was_removed_opens_nothing() {
    let (mut door, _) = door();
    assert!(door.remove(Uuid::from_u128(2)), "it was there");
    assert!(!door.remove(Uuid::from_u128(2)), "it is gone");
    check(&door, "another's words", None);
    check(&door, "one's own words", Some((1, SlotKind::Person)));
}

#[test]
fn only_who_has_the_key_changes_slots() {
    let (mut door, _) = door();
    let wrong = FileKey::random().unwrap();
    let refused = door.add(&wrong, NEW, SlotKind::Person, "words of nobody");
    assert!(matches!(refused, Err(DoorError::Forged)), "{refused:?}");
    let refused = door.begin_rotation(&wrong).map(|_| ());
    assert!(matches!(refused, Err(DoorError::Forged)), "{refused:?}");
}

#[test]
fn it_holds_forty_and_says_when_it_is_full() {
    let folder = TempDir::new().unwrap();
    let (mut door, key) = Door::new(Cost::LEAST).unwrap();
    let refused = (0..1_000)
        .find_map(|number| door.add(&key, Uuid::from_u128(number), SlotKind::Person, &format!("words {number}")).err());
    let Some(DoorError::Full(most)) = refused else { panic!("{refused:?}") };
    assert!(most >= 40, "a whole department, {most}");
    let path = file_with(&mut door, &folder, "full");
    assert_eq!(key_by(&path, &format!("words {}", most - 1)), key, "the last one is whole in the file");
}

#[test]
fn the_door_of_one_file_opens_no_other() {
    let folder = TempDir::new().unwrap();
    let (mut one, _) = door();
    let path = file_with(&mut one, &folder, "one");
    let bytes = std::fs::read(&path).unwrap();
    // The whole door of one file before the pages of another opens with its own key only.
    let (mut other, other_key) = door();
    let other_path = file_with(&mut other, &folder, "other");
    std::fs::write(&other_path, bytes).unwrap();
    assert_ne!(key_by(&other_path, "one's own words"), other_key, "the key of the other pages is not in it");
}

#[test]
fn nothing_secret_prints_itself() {
    let (door, key) = door();
    let shown = format!("{:?} {door:?} {key:?}", door.unlock("one's own words").unwrap());
    assert!(!shown.contains(", 1"), "no bytes: {shown}");
    assert!(shown.contains("FileKey(not shown)"), "{shown}");
}

#[test]
fn a_file_that_is_something_else_is_left_alone() {
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("letter.txt");
    std::fs::write(&path, "Dear colleague, ".repeat(4_000)).unwrap();
    assert!(!Door::is_at(&path).unwrap());
    assert!(matches!(Door::read(&path), Err(DoorError::NotADoor)));
    let (mut door, _) = door();
    let refused = door.write(&path);
    assert!(matches!(refused, Err(DoorError::NotADoor)), "{refused:?}");
    assert_eq!(std::fs::read(&path).unwrap(), "Dear colleague, ".repeat(4_000).into_bytes(), "not a byte is written");
}

#[test]
fn what_the_operating_system_refuses_is_handed_on() {
    let folder = TempDir::new().unwrap();
    let kind = |path: &std::path::Path| match Door::read(path) {
        Err(DoorError::Io(error)) => error.kind(),
        other => panic!("{other:?}"),
    };
    assert_eq!(kind(&folder.path().join("nowhere")), std::io::ErrorKind::NotFound, "a missing file");
    assert_eq!(kind(folder.path()), std::io::ErrorKind::IsADirectory, "a folder");
    let (mut door, _) = door();
    let missing = folder.path().join("nowhere");
    assert!(door.write(&missing).is_err(), "a door is written into a file that is there");
    assert!(!missing.exists(), "and makes none");
}
