//! The power goes: while somebody saves, and while people and passphrases are changed.

use evengap_notebook::{Notebook, NotebookError, Passphrase, Role};
use tempfile::TempDir;

use crate::disk::{cut_often, recorded};
use crate::shelf::{WORDS, check_sound, create, file, id, now, open, round_of, rounds, state};

const CASES: usize = 2;
const KEEPER: &str = "slow heron by the mill";
const REGISTRAR: &str = "seven lanterns on the quay";
const FRESH: &str = "a lane of old pear trees";

#[test]
fn a_power_cut_at_any_instant_loses_no_acknowledged_save() {
    let (saves, cuts) = (rounds(60, 12), rounds(4_000, 150));
    let folder = TempDir::new().unwrap();
    let mut notebook = create(&file(&folder));
    let recording = recorded(&folder, |acknowledged| {
        for round in 1..=saves {
            let n = round % CASES;
            let based_on = notebook.head(id(n)).unwrap();
            notebook.save(&state(n, round), based_on, now()).unwrap();
            acknowledged(round);
        }
    });
    let steps = recording.1.len();
    let journals = cut_often(recording, cuts, 11, |cut, folder, acknowledged| {
        let notebook = open(&file(folder));
        for n in 0..CASES {
            let newest = acknowledged.iter().copied().rfind(|round| round % CASES == n).unwrap_or(0);
            let there = notebook.show(id(n)).map_or(0, |stored| round_of(&stored.case, n));
            assert!(there >= newest, "cut {cut}: save {newest} was acknowledged, {there} is stored");
        }
        check_sound(&notebook);
    });
    println!(
        "power cuts: {cuts} among {steps} steps of {saves} saves; journals found: {journals}; acknowledged saves lost: \
         0; half cases: 0"
    );
}

/// A notebook with a second keeper, a registrar and a case.
fn peopled(folder: &TempDir) -> Notebook {
    let mut notebook = create(&file(folder));
    let words = |words| Passphrase::new(words).unwrap();
    notebook.add_person("Bram Osk", Role::Keeper, true, &words(KEEPER), now()).unwrap();
    notebook.add_person("Dr Edda Wick", Role::Registrar, false, &words(REGISTRAR), now()).unwrap();
    notebook.save(&state(0, 1), None, now()).unwrap();
    notebook
}

/// Tells whether a passphrase opens a file; everything in it must then be whole. It may be refused as a wrong one only.
#[track_caller]
fn opens(folder: &TempDir, words: &str, why: &str) -> bool {
    match Notebook::open(&file(folder), &Passphrase::new(words).unwrap(), now()) {
        Ok(notebook) => {
            assert_eq!(round_of(&notebook.show(id(0)).unwrap().case, 0), 1, "{why}: “{words}”: the case is there");
            check_sound(&notebook);
            true
        }
        Err(NotebookError::WrongPassphrase(_)) => false,
        Err(error) => panic!("{why}: “{words}”: {error}"),
    }
}

/// Tells whether a passphrase opens the file after a cut.
type Opens<'a> = &'a dyn Fn(&str) -> bool;

/// Cuts the power while one act is done. Whoever has nothing to do with it opens the file after every cut, in either
/// order; `allowed` says whether what the words of the act open may be, before it was acknowledged or after.
#[track_caller]
fn check(
    what: &str,
    act: impl FnOnce(&mut Notebook),
    others: &[&str],
    allowed: fn(done: bool, opens: Opens<'_>) -> bool,
) {
    let cuts = rounds(400, 40);
    let folder = TempDir::new().unwrap();
    let mut notebook = peopled(&folder);
    let recording = recorded(&folder, |acknowledged| {
        act(&mut notebook);
        acknowledged(1);
    });
    let steps = recording.1.len();
    assert!(steps > 4, "{what}: {steps} steps were seen");
    let mut finished = 0;
    let journals = cut_often(recording, cuts, 23, |cut, folder, acknowledged| {
        let why = format!("{what}, cut {cut}, acknowledged: {}", !acknowledged.is_empty());
        // Whoever is asked about comes first: nobody has finished anything for them yet.
        let before = allowed(!acknowledged.is_empty(), &|words| opens(folder, words, &why));
        assert!(before, "{why}: whoever the act is about");
        let mut others = others.to_vec();
        if cut % 2 == 1 {
            others.reverse();
        }
        for words in others {
            assert!(opens(folder, words, &why), "{why}: “{words}” opens it as before");
        }
        assert!(allowed(!acknowledged.is_empty(), &|words| opens(folder, words, &why)), "{why}: and afterwards");
        finished += usize::from(!acknowledged.is_empty());
    });
    println!(
        "power cuts: {cuts} among {steps} steps of {what}; journals found: {journals}; after the end: {finished}; \
         people shut out: 0"
    );
}

#[test]
fn a_power_cut_while_somebody_is_removed() {
    let remove = |notebook: &mut Notebook| {
        let mark = notebook.people().unwrap().iter().find(|line| line.role == Role::Registrar).unwrap().mark;
        notebook.remove_person(mark, now()).unwrap();
    };
    check("removing a person", remove, &[WORDS, KEEPER], |done, opens| !(opens(REGISTRAR) && done));
}

#[test]
fn a_power_cut_while_somebody_is_added() {
    let add = |notebook: &mut Notebook| {
        let words = Passphrase::new(FRESH).unwrap();
        notebook.add_person("Ivo Sandford", Role::Clinic, false, &words, now()).unwrap();
    };
    check("adding a person", add, &[WORDS, KEEPER, REGISTRAR], |done, opens| opens(FRESH) || !done);
}

#[test]
fn a_power_cut_while_a_passphrase_is_changed() {
    let change = |notebook: &mut Notebook| {
        notebook.change_passphrase(&Passphrase::new(WORDS).unwrap(), &Passphrase::new(FRESH).unwrap()).unwrap();
    };
    // One of the two always, and only one.
    check("changing a passphrase", change, &[KEEPER, REGISTRAR], |done, opens| {
        let (old, new) = (opens(WORDS), opens(FRESH));
        old != new && (new || !done)
    });
}
