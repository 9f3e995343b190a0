//! The key of the pages changes in three steps; whoever stops between them loses nothing.

use evengap_door::{Door, DoorError, FileKey, SlotKind, connect};
use tempfile::TempDir;
use uuid::Uuid;

use crate::made::{LINES, READ_WRITE, check_whole, count, notebook};

const PEOPLE: [&str; 2] = ["one's own words", "the sheet's words"];

/// Opens the file as everybody who remains does: with the key, or else with the next one.
#[track_caller]
fn check_opens(path: &std::path::Path) {
    for passphrase in PEOPLE {
        let opened = Door::read(path).unwrap().unlock(passphrase).unwrap().expect("remaining people open it");
        let opens = |key: &FileKey| count(&connect(path, READ_WRITE, key).unwrap()).is_ok();
        let key = if opens(&opened.key) { opened.key } else { opened.next_key.expect("then the next key") };
        check_whole(path, &key, LINES);
    }
    assert!(Door::read(path).unwrap().unlock("another's words").unwrap().is_none(), "the removed person does not");
}

#[test]
fn every_step_leaves_a_file_that_opens() {
    let folder = TempDir::new().unwrap();
    let (path, old) = notebook(&folder, "rotated");
    let mut door = Door::read(&path).unwrap();
    door.remove(Uuid::from_u128(2));
    let new = door.begin_rotation(&old).unwrap();
    assert_ne!(old, new, "it is another key");
    door.write(&path).unwrap();
    check_opens(&path);

    new.replace_on(&connect(&path, READ_WRITE, &old).unwrap()).unwrap();
    check_opens(&path);
    assert!(count(&connect(&path, READ_WRITE, &old).unwrap()).is_err(), "the old key opens no pages");

    let mut door = Door::read(&path).unwrap();
    door.end_rotation(true);
    door.write(&path).unwrap();
    check_opens(&path);
    let opened = door.unlock(PEOPLE[0]).unwrap().unwrap();
    assert_eq!((opened.key, opened.next_key), (new, None), "the next key is in force and there is no other");
}

#[test]
fn a_change_that_was_not_made_is_dropped() {
    let folder = TempDir::new().unwrap();
    let (path, old) = notebook(&folder, "dropped");
    let mut door = Door::read(&path).unwrap();
    let _next = door.begin_rotation(&old).unwrap();
    door.write(&path).unwrap();
    let mut door = Door::read(&path).unwrap();
    door.end_rotation(false);
    door.write(&path).unwrap();
    let opened = Door::read(&path).unwrap().unlock("another's words").unwrap().unwrap();
    assert_eq!((opened.key, opened.next_key), (old, None), "everything as before");
}

#[test]
fn while_it_is_under_way_nothing_else_changes() {
    let folder = TempDir::new().unwrap();
    let (path, old) = notebook(&folder, "under way");
    let mut door = Door::read(&path).unwrap();
    let _next = door.begin_rotation(&old).unwrap();
    let again = door.begin_rotation(&old).map(|_| ());
    assert!(matches!(again, Err(DoorError::Rotating)), "the pages may have the next key already: {again:?}");
    let added = door.add(&old, Uuid::from_u128(9), SlotKind::Person, "new words");
    assert!(matches!(added, Err(DoorError::Rotating)), "who is added would miss the next key: {added:?}");
}

#[test]
fn the_removed_person_cannot_put_the_old_slot_back() {
    let folder = TempDir::new().unwrap();
    let (path, old) = notebook(&folder, "put back");
    let kept = Door::read(&path).unwrap();
    let mut door = Door::read(&path).unwrap();
    door.remove(Uuid::from_u128(2));
    let new = door.begin_rotation(&old).unwrap();
    new.replace_on(&connect(&path, READ_WRITE, &old).unwrap()).unwrap();
    door.end_rotation(true);
    door.write(&path).unwrap();
    // Their copy of the old door opens, with a key that opens no pages.
    let opened = kept.unlock("another's words").unwrap().unwrap();
    assert!(count(&connect(&path, READ_WRITE, &opened.key).unwrap()).is_err(), "the pages are closed to them");
    // Their old slot among the new ones is noticed before a next key is sealed to it.
    let lines = std::fs::read(&path).unwrap();
    let mut forged = slots_of(&lines);
    forged.push(slots_of(&door_bytes(kept, &folder))[1].clone());
    std::fs::write(&path, with_slots(&lines, &forged)).unwrap();
    let refused = Door::read(&path).unwrap().unlock("one's own words").map(|_| ());
    assert!(matches!(refused, Err(DoorError::Forged)), "{refused:?}");
    let refused = Door::read(&path).unwrap().begin_rotation(&new).map(|_| ());
    assert!(matches!(refused, Err(DoorError::Forged)), "{refused:?}");
}

const HEAD: usize = 16 + 2 + 8 + 16 + 12 + 16;
const SLOT: usize = 16 + 1 + 32 + 24 + 48 + 112 + 1 + 112;

fn door_bytes(mut door: Door, folder: &TempDir) -> Vec<u8> {
    std::fs::read(crate::made::file_with(&mut door, folder, "kept")).unwrap()
}

fn slots_of(file: &[u8]) -> Vec<Vec<u8>> {
    let number = usize::from(u16::from_be_bytes([file[HEAD], file[HEAD + 1]]));
    file[HEAD + 2..].chunks(SLOT).take(number).map(<[u8]>::to_vec).collect()
}

/// A file whose two copies have these slots, with sums that agree: what somebody could write who has no key.
fn with_slots(file: &[u8], slots: &[Vec<u8>]) -> Vec<u8> {
    use sha2::Digest;
    let mut copy = file[..HEAD].to_vec();
    copy.extend(u16::try_from(slots.len()).unwrap().to_be_bytes());
    slots.iter().for_each(|slot| copy.extend(slot));
    let sum = sha2::Sha256::digest(&copy);
    copy.extend(&sum[..]);
    let mut file = file.to_vec();
    for at in crate::made::COPIES {
        file[at..at + copy.len()].copy_from_slice(&copy);
    }
    file
}
