//! People and files that mean harm, or are merely odd.

use std::fs;
use std::path::Path;

use evengap_door::Door;
use evengap_notebook::{Cost, Notebook, NotebookError, Passphrase, Role, restore};
use rusqlite::{Connection, OpenFlags};

use crate::bench::{Bench, WORDS, at, named, older, passphrase, past_the_door};
use crate::people::{REGISTRAR, three};

fn said(connection: &Connection, pragma: &str) -> String {
    connection.pragma_query_value(None, pragma, |row| row.get(0)).unwrap()
}

/// Notebooks of other years were written with these; another choice would not open them, or protect less.
#[test]
fn the_cipher_is_the_one_that_the_manual_names() {
    let bench = Bench::new();
    drop(bench.notebook([]));
    let pages = past_the_door(&bench.file());
    assert!(said(&pages, "cipher_version").starts_with("4."), "the fourth form of SQLCipher's pages");
    assert_eq!(said(&pages, "cipher_page_size"), "4096", "bytes of a page");
    assert_eq!(said(&pages, "cipher_use_hmac"), "1", "every page has a seal");
    assert_eq!(said(&pages, "cipher_hmac_algorithm"), "HMAC_SHA512", "of this sort");
    assert_eq!(said(&pages, "cipher_plaintext_header_size"), "0", "and no part of one is left readable");
    let compiled: Vec<String> = pages
        .prepare("PRAGMA compile_options")
        .unwrap()
        .query_map([], |row| row.get(0))
        .unwrap()
        .collect::<Result<_, _>>()
        .unwrap();
    assert!(compiled.iter().any(|option| option == "TEMP_STORE=2"), "sorting never goes to the disk: {compiled:?}");
}

#[test]
fn a_name_must_fit_on_a_line() {
    let bench = Bench::new();
    let mut notebook = bench.notebook([]);
    let long = "A".repeat(201);
    for name in ["Ward 7\nMs Orla Quill", "Ward\t7", &long] {
        let words = Passphrase::new("long enough, that one").unwrap();
        let error = notebook.add_person(name, Role::Clinic, false, &words, at("08:20")).unwrap_err();
        assert!(matches!(error, NotebookError::UnfitName(200)), "{name:?}: {error}");
        let new = Notebook::create(&bench.path("new.evengap"), &passphrase(), name, Cost::LEAST, at("08:20"));
        assert!(matches!(new.map(drop), Err(NotebookError::UnfitName(_))), "{name:?}: nor as a writer");
    }
    assert_eq!(bench.everything().len(), 1, "nothing was made");
}

#[test]
fn a_passphrase_is_more_than_one_sign() {
    for typed in ["            ", "aaaaaaaaaaaaaaaa", "abcabcabcabcabc", "121212121212"] {
        let chosen = Passphrase::new(typed).unwrap().check_chosen();
        assert!(matches!(chosen, Err(NotebookError::Passphrase(_))), "{typed:?}");
    }
    assert!(passphrase().check_chosen().is_ok(), "words are");
}

/// A file of the layout before doors, with one writer.
fn older_file(path: &Path) {
    let pages = older(path);
    for migration in [
        include_str!("../../migrations/0001_entries.sql"),
        include_str!("../../migrations/0002_projections.sql"),
        include_str!("../../migrations/0003_signed_papers.sql"),
    ] {
        pages.execute_batch(migration).unwrap();
    }
    pages.pragma_update(None, "application_id", 0x4576_4770).unwrap();
    pages.pragma_update(None, "user_version", 3).unwrap();
    let person = "INSERT INTO person (id, name, added_at) VALUES (1, 'Ms Orla Quill', '2025-01-01T08:00')";
    pages.execute(person, []).unwrap();
}

#[test]
#[cfg(unix)]
fn a_link_to_an_older_notebook_is_followed() {
    let (bench, away) = (Bench::new(), Bench::new());
    older_file(&away.file());
    let before = fs::read(away.file()).unwrap();
    std::os::unix::fs::symlink(away.file(), bench.file()).unwrap();
    let notebook = bench.open(WORDS).unwrap();
    let kept = away.path("knees (older layout).evengap");
    assert_eq!(
        notebook.kept_as(),
        Some(kept.canonicalize().unwrap().as_path()),
        "beside the file, not beside the link"
    );
    drop(notebook);
    assert!(!kept.is_symlink() && fs::read(&kept).unwrap() == before, "the old file itself is kept");
    assert!(bench.file().is_symlink(), "the link is still one");
    assert_eq!(bench.open(WORDS).unwrap().kept_as(), None, "and leads to the new file");
}

#[test]
#[cfg(unix)]
fn nothing_is_written_through_a_link_or_over_the_notebook_by_another_name() {
    let bench = Bench::new();
    drop(bench.notebook([named(1, "Mavis", "Threlkeld")]));
    let [link, hard, dangling, nowhere] =
        ["link.evengap", "hard.evengap", "dangling", "nowhere"].map(|name| bench.path(name));
    std::os::unix::fs::symlink(bench.file(), &link).unwrap();
    std::os::unix::fs::symlink(&nowhere, &dangling).unwrap();
    fs::hard_link(bench.file(), &hard).unwrap();
    let notebook = Notebook::open(&link, &passphrase(), at("09:00")).unwrap();
    let backup = |to: &Path, replace| notebook.back_up().run(to, replace, |_, _| true).unwrap_err();
    for to in [&bench.file(), &link, &hard] {
        assert!(matches!(backup(to, true), NotebookError::OntoItself(_)), "{}", to.display());
        let error = restore(&bench.file(), &passphrase(), to, at("09:00")).unwrap_err();
        assert!(matches!(error, NotebookError::Exists(_)), "{}: {error}", to.display());
    }
    assert!(matches!(backup(&dangling, false), NotebookError::Exists(_)), "a link that leads nowhere is in the way");
    let error = restore(&bench.file(), &passphrase(), &dangling, at("09:00")).unwrap_err();
    assert!(matches!(error, NotebookError::Exists(_)), "for restoring too: {error}");
    assert!(!nowhere.exists(), "and nothing was written to where it leads");
    assert_eq!(notebook.count().unwrap(), 1, "the notebook is as it was");
}

/// Whoever was removed may still have an old copy, and with it the door from before.
#[test]
fn an_old_door_does_not_open_new_pages() {
    let bench = Bench::new();
    let (mut notebook, registrar, _) = three(&bench);
    let length = usize::try_from(evengap_door::LENGTH).unwrap();
    let old_door = fs::read(bench.file()).unwrap()[..length].to_vec();
    notebook.remove_person(registrar, at("09:00")).unwrap();
    drop(notebook);
    let new = fs::read(bench.file()).unwrap();
    // Both copies are the old ones, so that no sequence number tells; or one of them, which an older number gives away.
    let half = length / 2;
    for range in [0..length, 0..half, half..length] {
        let mut mixed = new.clone();
        mixed[range.clone()].copy_from_slice(&old_door[range.clone()]);
        fs::write(bench.file(), &mixed).unwrap();
        assert!(bench.open(REGISTRAR).is_err(), "{range:?}: nobody comes back in");
        assert!(fs::read(bench.file()).unwrap() == mixed, "{range:?}: and nothing is written");
        let stays = bench.open(WORDS).map(drop);
        assert_eq!(
            stays.is_ok(),
            range.len() < length,
            "{range:?}: one whole new copy is enough for who stays: {stays:?}"
        );
    }
    fs::write(bench.file(), &new).unwrap();
    assert_eq!(bench.open(WORDS).unwrap().count().unwrap(), 1, "the pages were never touched");
}

/// A passphrase is changed because somebody may have learned it: with an old copy they know the key of that copy's pages.
#[test]
fn a_new_passphrase_comes_with_a_new_key() {
    let bench = Bench::new();
    let (mut notebook, registrar, _) = three(&bench);
    let [first, second] = ["first copy", "second copy"].map(|name| bench.path(name));
    let opens = |copy: &Path, typed: &str| {
        let key = Door::read(copy).unwrap().unlock(typed).unwrap().unwrap().key;
        let pages = evengap_door::connect(&bench.file(), OpenFlags::SQLITE_OPEN_READ_ONLY, &key).unwrap();
        pages.query_row("SELECT count(*) FROM entry", [], |row| row.get::<_, u32>(0)).is_ok()
    };
    fs::copy(bench.file(), &first).unwrap();
    assert!(opens(&first, WORDS), "before, the key of the copy is that of the notebook");
    notebook.change_passphrase(&passphrase(), &Passphrase::new("a new one, long enough").unwrap()).unwrap();
    assert!(!opens(&first, WORDS), "one's own passphrase");
    fs::copy(bench.file(), &second).unwrap();
    notebook.set_passphrase(registrar, &Passphrase::new("given by the keeper").unwrap()).unwrap();
    assert!(!opens(&second, REGISTRAR), "somebody else's");
    assert_eq!(notebook.count().unwrap(), 1, "the session goes on");
    drop(notebook);
    for typed in ["a new one, long enough", "given by the keeper", crate::people::KEEPER] {
        assert_eq!(bench.open(typed).unwrap().count().unwrap(), 1, "{typed} opens it");
    }
}
