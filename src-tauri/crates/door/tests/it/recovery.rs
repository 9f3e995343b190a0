//! The code of the printed sheet, as people copy it.

use evengap_door::{CodeSlip, Cost, Door, RecoveryCode, SlotKind, recovery_code};
use uuid::Uuid;

/// A code of the tests, in the groups of its sheet.
fn groups() -> Vec<String> {
    recovery_code().unwrap().groups()
}

#[track_caller]
fn check_same(typed: &str, groups: &[String]) {
    let read = RecoveryCode::read(typed).expect(typed);
    assert_eq!(read.groups(), groups, "{typed:?}");
}

#[test]
fn it_has_eight_groups_of_four_without_look_alikes() {
    for _ in 0..200 {
        let groups = groups();
        assert_eq!(groups.len(), 8);
        for group in &groups {
            assert_eq!(group.len(), 4, "{group}");
            assert!(group.chars().all(|sign| sign.is_ascii_digit() || sign.is_ascii_uppercase()), "{group}");
            assert!(!group.contains(['I', 'L', 'O', 'U']), "{group}");
        }
    }
    assert_ne!(groups(), groups(), "no two are the same");
}

#[test]
fn however_it_is_typed_it_is_read() {
    for _ in 0..50 {
        let groups = groups();
        check_same(&groups.join(" "), &groups);
        check_same(&groups.join("-"), &groups);
        check_same(&groups.concat(), &groups);
        check_same(&groups.join(" – ").to_lowercase(), &groups);
        check_same(&format!("\t{}\r\n", groups.join("\n")), &groups);
        check_same(&groups.join(" ").replace('0', "o").replace('1', "l"), &groups);
        check_same(&groups.join("  ").replace('0', "O").replace('1', "I"), &groups);
    }
}

#[test]
fn any_one_wrong_sign_is_noticed() {
    // So many that three signs of a hash alone would miss some: the sum misses none.
    for code in (0..100).map(|_| groups().concat()) {
        for at in 0..code.len() {
            for sign in "0123456789ABCDEFGHJKMNPQRSTVWXYZ".chars() {
                let mut typed: Vec<char> = code.chars().collect();
                if std::mem::replace(&mut typed[at], sign) != sign {
                    let typed: String = typed.into_iter().collect();
                    assert_eq!(RecoveryCode::read(&typed).err(), Some(CodeSlip::Check), "{sign} at {at} of {code}");
                }
            }
        }
    }
}

#[test]
fn neighbours_that_changed_places_are_noticed() {
    // A sum would not see it; three signs of a hash miss one in 32,768.
    let mut missed = 0;
    for _ in 0..50 {
        let code = groups().concat();
        for at in 0..code.len() - 1 {
            let mut typed: Vec<char> = code.chars().collect();
            typed.swap(at, at + 1);
            let typed: String = typed.into_iter().collect();
            missed += usize::from(typed != code && RecoveryCode::read(&typed).is_ok());
        }
    }
    assert!(missed <= 3, "{missed} of 1,550");
}

#[track_caller]
fn check_slip(typed: &str, expected: CodeSlip, sentence: &str) {
    let slip = RecoveryCode::read(typed).expect_err("it is no code");
    assert_eq!(slip, expected, "{typed:?}");
    assert!(slip.to_string().contains(sentence), "{slip}");
}

#[test]
fn a_slip_is_told() {
    check_slip("", CodeSlip::Length(0), "this one has 0");
    check_slip(&groups().concat()[1..], CodeSlip::Length(31), "this one has 31");
    check_slip(&groups().concat().repeat(40), CodeSlip::Length(1_280), "this one has 1280");
    check_slip("ABCD EFGH U", CodeSlip::Sign('U'), "no \"U\"");
    check_slip("ABCD ß", CodeSlip::Sign('ß'), "no \"ß\"");
}

#[test]
fn a_code_that_was_meant_is_told_from_a_passphrase() {
    let groups = groups();
    assert!(RecoveryCode::is_meant(&groups.join(" ")));
    assert!(RecoveryCode::is_meant(&groups.join("-")[1..]), "with one sign lost");
    for words in ["", "a quiet room with two windows", "correct horse", "x", &"x".repeat(200)] {
        assert!(!RecoveryCode::is_meant(words), "{words:?}");
    }
}

#[test]
fn it_opens_its_slot() {
    let (mut door, key) = Door::new(Cost::LEAST).unwrap();
    let code = recovery_code().unwrap();
    door.add(&key, Uuid::from_u128(3), SlotKind::Recovery, code.as_passphrase()).unwrap();
    let typed = RecoveryCode::read(&code.groups().join("-").to_lowercase()).unwrap();
    let opened = door.unlock(typed.as_passphrase()).unwrap().unwrap();
    assert_eq!((opened.kind, opened.key), (SlotKind::Recovery, key));
    assert_eq!(format!("{code:?}"), "RecoveryCode(not shown)");
}
