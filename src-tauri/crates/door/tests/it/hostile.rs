//! Doors that somebody made to hurt: they are refused in a sentence, quickly and without much memory.

use evengap_door::{Cost, Door, DoorError, FileKey, LENGTH, RecoveryCode};
use proptest::prelude::*;
use sha2::Digest;
use tempfile::TempDir;

use crate::made::{COPIES, door, file_with};

/// Where cost and the number of slots stand in a copy.
const COST: usize = 16 + 2 + 8 + 16;
const NUMBER: usize = COST + 12 + 16;

/// Reads a door whose both copies are these bytes, and opens it.
fn opened(copy: &[u8]) -> Result<Option<FileKey>, DoorError> {
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("hostile");
    let mut file = vec![0; LENGTH as usize];
    for at in COPIES {
        file[at..at + copy.len()].copy_from_slice(copy);
    }
    std::fs::write(&path, file).unwrap();
    Ok(Door::read(&path)?.unlock("one's own words")?.map(|opened| opened.key))
}

/// The bytes of one copy of a real door, without its sum.
fn copy() -> Vec<u8> {
    copy_and_key().0
}

fn copy_and_key() -> (Vec<u8>, FileKey) {
    let folder = TempDir::new().unwrap();
    let (mut door, key) = door();
    let bytes = std::fs::read(file_with(&mut door, &folder, "real")).unwrap();
    let number = usize::from(u16::from_be_bytes([bytes[NUMBER], bytes[NUMBER + 1]]));
    (bytes[..NUMBER + 2 + number * 346].to_vec(), key)
}

/// With a sum that agrees.
fn summed(mut copy: Vec<u8>) -> Vec<u8> {
    let sum = sha2::Sha256::digest(&copy);
    copy.extend(&sum[..]);
    copy
}

#[test]
fn a_real_copy_opens() {
    let (copy, key) = copy_and_key();
    assert_eq!(opened(&summed(copy)).unwrap(), Some(key), "the tests below change a door that opens");
}

#[test]
fn a_cost_that_would_hang_the_program_is_refused() {
    let beyond =
        [(u32::MAX, 1, 1), (1 << 20, 1, 1), (8, u32::MAX, 1), (8, 1, u32::MAX), (0, 0, 0), (7, 1, 1), (8, 0, 1)];
    for (memory_kib, passes, lanes) in beyond {
        let mut copy = copy();
        for (number, at) in [memory_kib, passes, lanes].into_iter().zip((COST..).step_by(4)) {
            copy[at..at + 4].copy_from_slice(&u32::to_be_bytes(number));
        }
        let refused = opened(&summed(copy));
        assert!(matches!(refused, Err(DoorError::TooCostly)), "{memory_kib} {passes} {lanes}: {refused:?}");
    }
}

#[test]
fn the_ordinary_cost_is_the_recommended_one() {
    assert_eq!(Cost::ORDINARY, Cost { memory_kib: 65_536, passes: 3, lanes: 4 }, "RFC 9106, section 4, second choice");
    let (door, _) = Door::new(Cost::ORDINARY).unwrap();
    assert!(door.unlock("some words").unwrap().is_none(), "and this computer can bear it");
}

#[test]
fn a_number_of_slots_that_does_not_fit_is_refused() {
    for number in [0_u16, 1, 2, 4, 43, 44, 45, 46, 1_000, u16::MAX] {
        let mut copy = copy();
        copy[NUMBER..NUMBER + 2].copy_from_slice(&number.to_be_bytes());
        let refused = opened(&summed(copy));
        assert!(matches!(refused, Err(DoorError::Damaged)), "{number}: {refused:?}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(200) })]

    #[test]
    fn random_bytes_are_no_door(bytes in proptest::collection::vec(any::<u8>(), 0..15_000)) {
        prop_assert!(matches!(opened(&bytes), Err(DoorError::NotADoor)));
    }

    #[test]
    fn random_bytes_after_the_magic_are_refused(bytes in proptest::collection::vec(any::<u8>(), 0..4_000)) {
        let begun = [b"evengap notebook\0\x01".as_slice(), &bytes].concat();
        prop_assert!(opened(&begun).is_err());
        // Costs within bounds are no danger, so that only what is out of bounds must be refused at once.
        let _ = opened(&summed(begun));
    }

    #[test]
    fn a_changed_door_with_a_right_sum_never_opens_to_another_key(at in 18_usize..NUMBER + 2 + 3 * 346, to in any::<u8>()) {
        // Memory up to the bound would make this slow; costs have a test of their own.
        prop_assume!(!(COST..COST + 12).contains(&at));
        let (mut changed, key) = copy_and_key();
        changed[at] = to;
        // It may open where the byte is of the sequence number, of another's wrapped secret or not in force.
        if let Ok(Some(opened)) = opened(&summed(changed)) {
            prop_assert_eq!(opened, key);
        }
    }

    #[test]
    fn whatever_is_typed_as_a_code_is_read_or_refused(typed in "\\PC{0,60}") {
        let _ = RecoveryCode::read(&typed);
        let _ = RecoveryCode::is_meant(&typed);
    }
}
