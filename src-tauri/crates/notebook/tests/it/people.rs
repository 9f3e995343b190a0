//! People of a notebook: adding, changing, removing, passphrases and the recovery sheet.

use evengap_notebook::{Notebook, NotebookError, Passphrase, PersonLine, Role};
use uuid::Uuid;

use crate::bench::{Bench, WORDS, at, named, save};

pub const REGISTRAR: &str = "eleven grey herons";
pub const KEEPER: &str = "the key hangs by the door";

pub fn words(typed: &str) -> Passphrase {
    Passphrase::new(typed).unwrap()
}

/// A notebook with a registrar and another keeper besides; gives their marks.
pub fn three(bench: &Bench) -> (Notebook, Uuid, Uuid) {
    let mut notebook = bench.notebook([named(1, "Mavis", "Threlkeld")]);
    let registrar = notebook.add_person("Dr Wim Aske", Role::Registrar, false, &words(REGISTRAR), at("08:10")).unwrap();
    let keeper = notebook.add_person("Pia Lund", Role::Keeper, false, &words(KEEPER), at("08:11")).unwrap();
    (notebook, registrar, keeper)
}

fn line(notebook: &Notebook, name: &str) -> PersonLine {
    notebook.people().unwrap().into_iter().find(|line| line.name == name).unwrap()
}

#[test]
fn each_opens_as_themselves() {
    let bench = Bench::new();
    let (mut notebook, ..) = three(&bench);
    let clinic =
        notebook.add_person(" Ward 7 ", Role::Clinic, true, &words("seven beds, one window"), at("08:12")).unwrap();
    drop(notebook);
    for (typed, name, role, keeper) in [
        (WORDS, "Ms Orla Quill", Role::Surgeon, true),
        (REGISTRAR, "Dr Wim Aske", Role::Registrar, false),
        (KEEPER, "Pia Lund", Role::Keeper, true),
        ("seven beds, one window", "Ward 7", Role::Clinic, true),
    ] {
        let opened = bench.open(typed).unwrap();
        let person = opened.person();
        assert_eq!((person.name.as_str(), person.role, person.keeper), (name, role, keeper), "{name}");
        assert!(line(&opened, name).you, "{name} is marked in the list");
        assert_eq!(opened.count().unwrap(), 1, "{name} opens the same pages");
    }
    assert_eq!(bench.open(REGISTRAR).unwrap().people().unwrap()[3].mark, clinic, "everybody is listed for everybody");
}

#[test]
fn what_a_registrar_writes_is_theirs() {
    let bench = Bench::new();
    drop(three(&bench));
    let mut opened = bench.open(REGISTRAR).unwrap();
    save(&mut opened, &named(2, "Ivo", "Sandringford"), at("09:00")).unwrap();
    assert_eq!(opened.show(named(2, "", "").id).unwrap().by, "Dr Wim Aske", "the author is whoever opened it");
}

#[test]
fn who_cannot_be_added() {
    let bench = Bench::new();
    let (mut notebook, ..) = three(&bench);
    let before = bench.everything();
    let mut check = |name: &str, typed: &str, sentence: &str| {
        let error = notebook.add_person(name, Role::Clinic, false, &words(typed), at("08:20")).unwrap_err();
        assert_eq!(error.to_string(), sentence, "{name}, {typed}");
    };
    check("  ", "long enough, that one", "The name is empty; give the person's name.");
    check(
        "Ward 7",
        "eleven sign",
        "The passphrase is too short; choose at least 12 characters, such as four or five words.",
    );
    check("Ward 7", REGISTRAR, "This passphrase cannot be used in this notebook; choose another.");
    check(
        "Pia Lund",
        "long enough, that one",
        "There is already somebody called Pia Lund in this notebook; add something that tells the two apart.",
    );
    assert!(before == bench.everything(), "nothing was written");
}

#[test]
fn a_short_passphrase_of_before_still_opens() {
    assert!(words("short").check_chosen().is_err(), "it is not taken for a new one");
    assert!(words("twelve signs").check_chosen().is_ok(), "twelve are enough");
    assert!(words("zwölf öäüßéè").check_chosen().is_ok(), "signs are counted, not bytes");
    assert!(words("elf öäüßéèñ").check_chosen().is_err(), "eleven are not, however many bytes they have");
}

#[test]
fn somebody_keeps_it_always() {
    let bench = Bench::new();
    let (mut notebook, registrar, keeper) = three(&bench);
    let me = notebook.person().mark;
    let error = notebook.remove_person(me, at("09:00")).unwrap_err();
    assert!(matches!(error, NotebookError::Yourself), "nobody removes themselves: {error}");
    notebook.change_person(me, Role::Surgeon, false).unwrap();
    assert!(!notebook.person().keeper, "the session knows it at once");
    let last = "Pia Lund is the only keeper of this notebook; make somebody else a keeper first.";
    assert_eq!(notebook.remove_person(keeper, at("09:00")).unwrap_err().to_string(), last, "removed");
    assert_eq!(notebook.change_person(keeper, Role::Clinic, false).unwrap_err().to_string(), last, "changed");
    notebook.new_recovery(at("09:01")).unwrap();
    assert_eq!(notebook.remove_person(keeper, at("09:02")).unwrap_err().to_string(), last, "a sheet is no keeper");
    notebook.change_person(registrar, Role::Registrar, true).unwrap();
    notebook.remove_person(keeper, at("09:03")).unwrap();
    let error = notebook.remove_person(keeper, at("09:04")).unwrap_err();
    assert!(matches!(error, NotebookError::UnknownPerson), "and only once: {error}");
    drop(notebook);
    assert!(bench.open(REGISTRAR).unwrap().person().keeper, "the new keeper is one after opening too");
}

#[test]
fn whoever_is_removed_is_shut_out() {
    let bench = Bench::new();
    let (mut notebook, registrar, _) = three(&bench);
    let old_copy = std::fs::read(bench.file()).unwrap();
    notebook.remove_person(registrar, at("09:00")).unwrap();
    save(&mut notebook, &named(2, "Ivo", "Sandringford"), at("09:01")).unwrap();
    let gone = line(&notebook, "Dr Wim Aske");
    assert_eq!((gone.removed_at.as_deref(), gone.can_open), (Some("2026-06-30T09:00"), false), "the list says so");
    drop(notebook);
    let error = bench.open(REGISTRAR).err().unwrap();
    assert!(matches!(error, NotebookError::WrongPassphrase(_)), "the passphrase is nobody's: {error}");
    for still in [WORDS, KEEPER] {
        assert_eq!(bench.open(still).unwrap().count().unwrap(), 2, "{still} still opens");
    }
    // With the copy from before and the passphrase there is a key, but not of these pages.
    let copy = Bench::new();
    std::fs::write(copy.file(), old_copy).unwrap();
    let key = evengap_door::Door::read(&copy.file()).unwrap().unlock(REGISTRAR).unwrap().unwrap().key;
    let count = |file: &std::path::Path| -> rusqlite::Result<i64> {
        let flags = rusqlite::OpenFlags::SQLITE_OPEN_READ_ONLY;
        evengap_door::connect(file, flags, &key)?.query_row("SELECT count(*) FROM entry", [], |row| row.get(0))
    };
    assert_eq!(count(&copy.file()).unwrap(), 1, "it opens the copy, for ever");
    assert!(count(&bench.file()).is_err(), "and not what was written since");
}

#[test]
fn an_open_window_learns_of_the_new_key() {
    let bench = Bench::new();
    let (mut notebook, registrar, _) = three(&bench);
    let mut other = bench.open(REGISTRAR).unwrap();
    notebook.remove_person(registrar, at("09:00")).unwrap();
    let error = other.save(&named(2, "Ivo", "Sandringford"), None, at("09:01"));
    assert!(matches!(error, Err(NotebookError::KeyChanged(_))), "the removed person's window saves nothing: {error:?}");
    assert!(matches!(other.list(), Err(NotebookError::KeyChanged(_))), "and reads nothing");
    save(&mut notebook, &named(3, "Ivo", "Sandringford"), at("09:02")).unwrap();
    assert_eq!(notebook.count().unwrap(), 2, "the keeper's goes on");
}

#[test]
fn passphrases_change() {
    let bench = Bench::new();
    let (mut notebook, registrar, _) = three(&bench);
    let wrong = notebook.change_passphrase(&words(REGISTRAR), &words("a new one, long enough"));
    assert!(matches!(wrong, Err(NotebookError::WrongPassphrase(_))), "somebody else's is not one's own: {wrong:?}");
    let taken = notebook.change_passphrase(&words(WORDS), &words(KEEPER));
    assert!(matches!(taken, Err(NotebookError::PassphraseTaken)), "{taken:?}");
    let short = notebook.change_passphrase(&words(WORDS), &words("short"));
    assert!(matches!(short, Err(NotebookError::Passphrase(_))), "{short:?}");
    notebook.change_passphrase(&words(WORDS), &words("a new one, long enough")).unwrap();
    notebook.set_passphrase(registrar, &words("given by the keeper")).unwrap();
    let unknown = notebook.set_passphrase(Uuid::from_u128(7), &words("given by the keeper"));
    assert!(matches!(unknown, Err(NotebookError::UnknownPerson)), "{unknown:?}");
    drop(notebook);
    for old in [WORDS, REGISTRAR] {
        assert!(matches!(bench.open(old).err(), Some(NotebookError::WrongPassphrase(_))), "{old} is no more");
    }
    assert_eq!(bench.open("a new one, long enough").unwrap().writer(), "Ms Orla Quill", "mine");
    assert_eq!(bench.open("given by the keeper").unwrap().writer(), "Dr Wim Aske", "theirs");
}

#[test]
fn a_wrong_passphrase_touches_nothing() {
    let bench = Bench::new();
    drop(three(&bench));
    let before = bench.everything();
    for n in 0..50 {
        assert!(bench.open(&format!("{WORDS}{n}")).is_err(), "try {n}");
    }
    assert!(before == bench.everything(), "not one byte");
}

#[test]
fn the_recovery_sheet_opens_when_nobody_else_can() {
    let bench = Bench::new();
    let (mut notebook, registrar, _) = three(&bench);
    assert_eq!(notebook.recovery_made_at().unwrap(), None, "there is no sheet at first");
    let code = notebook.new_recovery(at("09:00")).unwrap();
    assert_eq!(notebook.recovery_made_at().unwrap().as_deref(), Some("2026-06-30T09:00"), "and then there is");
    drop(notebook);
    let typed = code.groups().join("-").to_lowercase();
    let mut opened = bench.open(&typed).unwrap();
    assert_eq!((opened.writer(), opened.person().role), ("Recovery sheet", Role::Keeper), "it opens as a keeper");
    assert!(line(&opened, "Recovery sheet").recovery, "and the list tells it from people");
    assert!(opened.opened_by_recovery().unwrap(), "and so does the notebook");
    let error = opened.change_passphrase(&words(&typed), &words("a new one, long enough")).unwrap_err();
    assert!(matches!(error, NotebookError::RecoveryHasNoPassphrase), "{error}");
    opened.set_passphrase(registrar, &words("given by the sheet")).unwrap();
    drop(opened);
    let mut notebook = bench.open("given by the sheet").unwrap();
    let second = notebook.new_recovery(at("10:00")).unwrap();
    drop(notebook);
    let old = bench.open(&typed).err().unwrap();
    assert!(
        matches!(old, NotebookError::OldRecoverySheet(_)),
        "the old sheet stopped, and the sentence says so: {old}"
    );
    assert_eq!(bench.open(&second.groups().join(" ")).unwrap().writer(), "Recovery sheet", "the new one works");
    assert_eq!(bench.open(WORDS).unwrap().count().unwrap(), 1, "and so does everybody else");
    let mut slip = second.groups();
    slip[3] = if slip[3].starts_with('7') { "8888".into() } else { "7777".into() };
    let error = bench.open(&slip.join(" ")).err().unwrap().to_string();
    assert!(error.starts_with("This looks like the code of a recovery sheet, but "), "a slip is said: {error}");
}
