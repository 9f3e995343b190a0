//! One flipped byte, or one cut, anywhere in a door: it opens with the same key, or says so.

use std::path::Path;

use evengap_door::{Cost, Door, DoorError, FileKey, LENGTH, SlotKind};
use tempfile::TempDir;
use uuid::Uuid;

use crate::made::{COPIES, file_with};

/// A door for one person and a sheet: every sort of byte that a door has, and few of them.
fn door() -> (Door, FileKey) {
    let (mut door, key) = Door::new(Cost::LEAST).unwrap();
    door.add(&key, Uuid::from_u128(1), SlotKind::Person, "one's own words").unwrap();
    door.add(&key, Uuid::from_u128(2), SlotKind::Recovery, "the sheet's words").unwrap();
    (door, key)
}

/// What a damaged door says when it is read and opened by one of its people.
fn opened(path: &Path) -> Result<Option<FileKey>, String> {
    let said = |error: DoorError| error.to_string();
    Ok(Door::read(path).map_err(said)?.unlock("one's own words").map_err(said)?.map(|opened| opened.key))
}

/// How many bytes of a copy say something.
fn used(bytes: &[u8]) -> usize {
    let copy = &bytes[..COPIES[1] - 1024];
    copy.iter().rposition(|byte| *byte != 0).unwrap() + 1
}

#[test]
fn a_flipped_byte_in_one_copy_changes_nothing() {
    let folder = TempDir::new().unwrap();
    let (mut door, key) = door();
    let path = file_with(&mut door, &folder, "flipped");
    let whole = std::fs::read(&path).unwrap();
    for copy in COPIES {
        for at in copy..copy + used(&whole) {
            let mut bytes = whole.clone();
            bytes[at] ^= 0x01;
            std::fs::write(&path, &bytes).unwrap();
            assert_eq!(opened(&path), Ok(Some(key.clone())), "byte {at}");
        }
    }
}

#[test]
fn a_flipped_byte_in_the_only_copy_is_noticed() {
    let folder = TempDir::new().unwrap();
    let (mut door, _) = door();
    let path = file_with(&mut door, &folder, "alone");
    let whole = std::fs::read(&path).unwrap();
    let length = used(&whole);
    for at in 0..length {
        let mut bytes = whole.clone();
        bytes[at] ^= 0x80;
        bytes[COPIES[1]..COPIES[1] + length].fill(0);
        std::fs::write(&path, &bytes).unwrap();
        let said = opened(&path).expect_err("one byte is wrong");
        assert!(said.contains(' ') && said.len() > 20, "byte {at} is told in a sentence: {said}");
    }
}

#[test]
fn the_same_byte_flipped_in_both_copies_is_noticed() {
    let folder = TempDir::new().unwrap();
    let (mut door, _) = door();
    let path = file_with(&mut door, &folder, "both");
    let whole = std::fs::read(&path).unwrap();
    for at in 0..used(&whole) {
        let mut bytes = whole.clone();
        COPIES.iter().for_each(|copy| bytes[copy + at] ^= 0xff);
        std::fs::write(&path, &bytes).unwrap();
        assert!(opened(&path).is_err(), "byte {at}");
    }
}

#[test]
fn a_byte_between_the_copies_says_nothing() {
    let folder = TempDir::new().unwrap();
    let (mut door, key) = door();
    let path = file_with(&mut door, &folder, "between");
    let whole = std::fs::read(&path).unwrap();
    let length = used(&whole);
    let says_nothing = |at: &usize| !COPIES.iter().any(|copy| (*copy..copy + length).contains(at));
    for at in (0..whole.len()).filter(says_nothing).step_by(37) {
        let mut bytes = whole.clone();
        bytes[at] ^= 0xff;
        std::fs::write(&path, &bytes).unwrap();
        assert_eq!(opened(&path), Ok(Some(key.clone())), "byte {at}");
    }
}

#[test]
fn a_cut_while_it_is_written_leaves_the_door_before_or_the_new_one() {
    let folder = TempDir::new().unwrap();
    let (mut door, key) = door();
    let path = file_with(&mut door, &folder, "cut");
    let before = std::fs::read(&path).unwrap();
    door.change(&key, Uuid::from_u128(1), "new words").unwrap();
    door.write(&path).unwrap();
    let after = std::fs::read(&path).unwrap();
    let length = used(&after);
    // The first copy is durable before the second one is begun, so a cut falls into one of the two.
    for cut in (0..=length).step_by(7).chain([length]) {
        let mut first = before.clone();
        first[..cut].copy_from_slice(&after[..cut]);
        let mut second = after.clone();
        second[COPIES[1] + cut..].copy_from_slice(&before[COPIES[1] + cut..]);
        for (bytes, is_new) in [(first, cut == length), (second, true)] {
            std::fs::write(&path, &bytes).unwrap();
            let door = Door::read(&path).expect("one copy is whole");
            let opens = |words| door.unlock(words).unwrap().is_some();
            assert_eq!((opens("one's own words"), opens("new words")), (!is_new, is_new), "cut after {cut} bytes");
        }
    }
}

#[test]
fn a_door_that_was_cut_off_is_noticed_or_opens() {
    let folder = TempDir::new().unwrap();
    let (mut door, key) = door();
    let path = file_with(&mut door, &folder, "short");
    let whole = std::fs::read(&path).unwrap();
    let written = used(&whole);
    for length in (0..written + 2).chain((written..whole.len()).step_by(997)) {
        std::fs::write(&path, &whole[..length]).unwrap();
        match opened(&path) {
            Ok(opened) => assert_eq!(opened, Some(key.clone()), "the first copy is whole in {length} bytes"),
            Err(said) => assert!(length < written, "{length} bytes: {said}"),
        }
    }
    assert_eq!(whole.len() as u64, LENGTH);
}

#[test]
fn a_door_of_a_newer_program_says_so() {
    use sha2::Digest;
    let folder = TempDir::new().unwrap();
    let (mut door, _) = door();
    let path = file_with(&mut door, &folder, "newer");
    let mut bytes = std::fs::read(&path).unwrap();
    let length = used(&bytes);
    for copy in COPIES {
        bytes[copy + 17] = 2;
        let sum = sha2::Sha256::digest(&bytes[copy..copy + length - 32]);
        bytes[copy + length - 32..copy + length].copy_from_slice(&sum);
    }
    std::fs::write(&path, &bytes).unwrap();
    assert_eq!(opened(&path), Err("its door is of the form 2; this program reads 1".to_owned()));
}
