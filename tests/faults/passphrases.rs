//! Wrong passphrases: none opens, and none changes anything.

use evengap_desk::{Desk, ErrorCode};
use evengap_notebook::{Cost, Notebook, NotebookError, Passphrase};
use tempfile::TempDir;

use crate::shelf::{Chance, WORDS, create, file, now, open, read_all, state};

/// A passphrase that is not ours, though it may be near.
fn wrong(chance: &mut Chance) -> String {
    let mut letters: Vec<char> = WORDS.chars().collect();
    let at = chance.below(letters.len());
    match chance.below(6) {
        0 => letters[at] = if letters[at] == 'x' { 'y' } else { 'x' },
        1 => drop(letters.remove(at)),
        2 => letters.insert(at, 'q'),
        3 => letters = WORDS.to_uppercase().chars().collect(),
        4 => letters.extend("\u{200B} ".chars().take(1 + chance.below(2))),
        _ => {
            letters = (0..1 + chance.below(40)).map(|_| char::from_u32(33 + chance.below(90) as u32).unwrap()).collect()
        }
    }
    letters.into_iter().collect()
}

#[test]
fn a_thousand_wrong_ones_change_nothing() {
    let folder = TempDir::new().unwrap();
    let path = file(&folder);
    create(&path).save(&state(0, 1), None, now()).unwrap();
    let (before, seen) = (std::fs::read(&path).unwrap(), read_all(&open(&path)).unwrap());
    let mut chance = Chance::new(17);
    for n in 0..1_000 {
        let words = wrong(&mut chance);
        assert_ne!(words, WORDS, "they are wrong");
        match Notebook::open(&path, &Passphrase::new(&words).unwrap(), now()) {
            Err(NotebookError::WrongPassphrase(_) | NotebookError::RecoverySlip(_)) => {}
            Err(other) => panic!("{n}: “{words}”: {other}"),
            Ok(_) => panic!("{n}: “{words}” opened it"),
        }
    }
    assert_eq!(std::fs::read(&path).unwrap(), before, "not one byte changed");
    assert_eq!(read_all(&open(&path)).unwrap(), seen, "and the right one opens it as before");
    println!("wrong passphrases: 1000; opened: 0; bytes changed: 0");
}

#[test]
fn whoever_goes_on_has_to_wait() {
    let folder = TempDir::new().unwrap();
    let path = file(&folder);
    create(&path).save(&state(0, 1), None, now()).unwrap();
    let before = read_all(&open(&path)).unwrap();
    let mut desk = Desk::with_cost(Cost::LEAST);
    let mut looked_at = 0;
    for _ in 0..1_000 {
        let error = desk.notebook_open(&path, "four geese crossed the road", now()).unwrap_err();
        match error.code {
            ErrorCode::WrongPassphrase => looked_at += 1,
            code => assert_eq!(code, ErrorCode::Wait, "{}", error.message),
        }
    }
    assert_eq!(looked_at, 5, "in one instant five are looked at, and not one more");
    assert_eq!(read_all(&open(&path)).unwrap(), before, "what is in it stays");
    println!("wrong passphrases at the desk in one instant: 1000; looked at: {looked_at}");
}
