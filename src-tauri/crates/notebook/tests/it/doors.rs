//! Making and opening: what is let in, and what is refused and left as it was.

use std::fs;

use evengap_door::{Door, LENGTH, SlotKind};
use evengap_notebook::{Cost, Notebook, NotebookError, Passphrase};
use rusqlite::{Connection, OpenFlags};

use crate::bench::{Bench, WORDS, at, create, named, older, passphrase, past_the_door, save};

/// Bytes before the first page.
const DOOR: usize = LENGTH as usize;

/// Opens the bench's file and expects a refusal that leaves every file of the folder as it was.
fn check_refused(bench: &Bench, words: &str, sentence: &str, why: &str) {
    let before = bench.everything();
    let written = fs::metadata(bench.file()).ok().map(|about| about.modified().unwrap());
    let Err(error) = Notebook::open(&bench.file(), &Passphrase::new(words).unwrap(), at("12:00")) else {
        panic!("{why}: it was opened");
    };
    let expected = sentence.replace("FILE", &bench.file().display().to_string());
    assert_eq!(error.to_string(), expected, "{why}: the sentence");
    assert!(before == bench.everything(), "{why}: a refused file keeps its bytes and gets no companions");
    assert_eq!(written, fs::metadata(bench.file()).ok().map(|about| about.modified().unwrap()), "{why}: never written");
}

const WRONG: &str =
    "The passphrase does not open this notebook. Type it again; small and capital letters and blanks count.";
const WRONG_OR_DAMAGED: &str = "The passphrase does not open this notebook. Type it again; if it is certainly right, FILE is damaged at \
                     its beginning or is no notebook, which cannot be told apart without the key.";

#[test]
fn a_new_notebook_opens_again() {
    let bench = Bench::new();
    let made = bench.notebook([named(1, "Mavis", "Threlkeld")]);
    assert_eq!(made.writer(), "Ms Orla Quill", "the writer is known at once");
    drop(made);
    let opened = Notebook::open(&bench.file(), &passphrase(), at("12:00")).unwrap();
    assert_eq!(opened.writer(), "Ms Orla Quill", "the writer is kept in the file");
    assert_eq!(opened.count().unwrap(), 1, "so is the case");
    assert!(!opened.is_demonstration(), "a notebook is real unless it was marked");
    assert_eq!(bench.everything().len(), 1, "the notebook is one file");
}

#[test]
fn the_mark_of_the_demonstration_stays() {
    let bench = Bench::new();
    let mut made = bench.notebook([]);
    made.mark_demonstration().unwrap();
    assert!(made.is_demonstration(), "marked at once");
    drop(made);
    assert!(
        Notebook::open(&bench.file(), &passphrase(), at("12:00")).unwrap().is_demonstration(),
        "and after opening again"
    );
}

#[test]
fn a_passphrase_typed_on_another_keyboard_opens_it() {
    let bench = Bench::new();
    drop(bench.notebook([]));
    let decomposed = Passphrase::new(&WORDS.replace('ö', "o\u{308}")).unwrap();
    assert!(Notebook::open(&bench.file(), &decomposed, at("12:00")).is_ok(), "an accent may come composed or apart");
}

#[test]
fn a_passphrase_says_nothing_about_itself() {
    assert_eq!(format!("{:?}", passphrase()), "Passphrase(not shown)", "not even in a log");
    let refused = |words: &str| Passphrase::new(words).unwrap_err().to_string();
    assert_eq!(refused(""), "The passphrase is empty; type one.", "empty");
    assert!(refused("two\nlines").starts_with("The passphrase holds a control character"), "line break");
    assert!(refused("nul\0").starts_with("The passphrase holds a control character"), "NUL");
}

#[test]
fn a_new_notebook_never_replaces_a_file() {
    let bench = Bench::new();
    fs::write(bench.file(), "my thesis").unwrap();
    let error = create(&bench.file()).err().unwrap();
    assert!(matches!(error, NotebookError::Exists(_)), "the file is in the way: {error}");
    assert_eq!(fs::read_to_string(bench.file()).unwrap(), "my thesis", "and stays");
}

#[test]
fn a_new_notebook_that_cannot_be_leaves_no_file() {
    let bench = Bench::new();
    let nowhere = bench.path("no such folder").join("knees.evengap");
    let error = create(&nowhere).err().unwrap();
    let folder = nowhere.parent().unwrap().display().to_string();
    assert_eq!(error.to_string(), format!("The folder {folder} does not exist. Make it first, or choose another."));
    let error = Notebook::create(&bench.file(), &passphrase(), "  ", Cost::LEAST, at("08:00")).err().unwrap();
    assert!(matches!(error, NotebookError::NoWriter), "a notebook needs a writer: {error}");
    assert_eq!(bench.everything(), [], "nothing was left behind");
}

#[test]
#[cfg(unix)]
fn a_new_notebook_is_readable_for_its_owner_only() {
    use std::os::unix::fs::PermissionsExt;
    let bench = Bench::new();
    drop(bench.notebook([]));
    let mode = fs::metadata(bench.file()).unwrap().permissions().mode();
    assert_eq!(mode & 0o777, 0o600, "others on the same computer cannot even copy it");
}

#[test]
fn a_wrong_passphrase_is_refused() {
    let bench = Bench::new();
    drop(bench.notebook([named(1, "Mavis", "Threlkeld")]));
    check_refused(&bench, "not this one", WRONG, "wrong passphrase");
    check_refused(&bench, &WORDS.to_uppercase(), WRONG, "capitals matter");
}

#[test]
fn other_files_are_refused() {
    let bench = Bench::new();
    check_refused(&bench, WORDS, "There is no notebook at FILE. Check the name and the folder.", "missing");
    fs::write(bench.file(), "").unwrap();
    check_refused(
        &bench,
        WORDS,
        "FILE is damaged: the file is empty. Nothing was changed; use a copy of it from before.",
        "empty",
    );
    fs::write(bench.file(), "Shopping: milk, bread").unwrap();
    check_refused(
        &bench,
        WORDS,
        "FILE is damaged: its length of 21 bytes is not that of a whole notebook (or it never was one). Nothing was \
         changed; use a copy of it from before.",
        "a text file",
    );
    fs::write(bench.file(), vec![7; 8192]).unwrap();
    check_refused(&bench, WORDS, WRONG_OR_DAMAGED, "noise of the right length cannot be told from a wrong passphrase");
    fs::remove_file(bench.file()).unwrap();
    Connection::open(bench.file()).unwrap().execute_batch("CREATE TABLE milk (bread);").unwrap();
    check_refused(
        &bench,
        WORDS,
        "FILE is not a notebook: it is a database without encryption. Choose a file that Evengap made.",
        "plain SQLite",
    );
    fs::remove_file(bench.file()).unwrap();
    older(&bench.file()).execute_batch("CREATE TABLE milk (bread);").unwrap();
    let anothers = "FILE is not a notebook: it is another program's database. Choose a file that Evengap made.";
    check_refused(&bench, WORDS, anothers, "another program's encrypted database with the same passphrase");
    fs::write(bench.file(), "").unwrap();
    let (mut door, key) = Door::new(Cost::LEAST).unwrap();
    door.add(&key, Default::default(), SlotKind::Person, WORDS).unwrap();
    door.write(&bench.file()).unwrap();
    check_refused(
        &bench,
        WORDS,
        "FILE is not a notebook: it is another program's database. Choose a file that Evengap made.",
        "a door with nothing behind it",
    );
    evengap_door::connect(&bench.file(), OpenFlags::SQLITE_OPEN_READ_WRITE, &key)
        .unwrap()
        .execute_batch("CREATE TABLE milk (bread);")
        .unwrap();
    check_refused(&bench, WORDS, anothers, "another program's database behind a door");
    let folder = Notebook::open(&bench.path(""), &passphrase(), at("12:00")).err().unwrap().to_string();
    assert!(folder.ends_with("is a folder, not a notebook. Choose the .evengap file in it."), "a folder: {folder}");
}

#[test]
fn damage_is_noticed_on_opening() {
    let bench = Bench::new();
    drop(bench.notebook((1..200).map(|n| named(n, "Mavis", "Threlkeld"))));
    let whole = fs::read(bench.file()).unwrap();
    let one = "FILE is damaged: one page is not as it was written. Nothing was changed; use a copy of it from before.";
    let pages = (whole.len() - DOOR) / 4096;
    assert!(pages > 20, "{pages} pages: the file is long enough for the places below");

    // One copy of the door makes good for the other; with both damaged it is noticed before anything else.
    let mut broken = whole.clone();
    broken[100] ^= 1;
    fs::write(bench.file(), &broken).unwrap();
    assert_eq!(bench.open(WORDS).unwrap().count().unwrap(), 199, "one bit of the door is outvoted");
    broken[16 * 1024 + 100] ^= 1;
    fs::write(bench.file(), &broken).unwrap();
    let first = "FILE is damaged: its first part, which says who may open it, is not as it was written. Nothing was \
                 changed; use a copy of it from before.";
    check_refused(&bench, WORDS, first, "both copies of the door");

    // First page: salt, header, middle, seal. The door proves that the key is right, so it is damage.
    for place in [0, 15, 16, 100, 2000, 4095] {
        let mut broken = whole.clone();
        broken[DOOR + place] ^= 1;
        fs::write(bench.file(), &broken).unwrap();
        let first = one.replace("one page is", "its first page is");
        check_refused(&bench, WORDS, &first, &format!("one bit of byte {place} of the first page"));
    }
    // Later pages in use: beginning, middle, nonce, seal, the last byte. Free ones may be torn by a power cut.
    fs::write(bench.file(), &whole).unwrap();
    let in_use: Vec<u32> = past_the_door(&bench.file())
        .prepare("SELECT DISTINCT pageno FROM dbstat WHERE pageno > 2 ORDER BY pageno")
        .unwrap()
        .query_map([], |row| row.get(0))
        .unwrap()
        .collect::<Result<_, _>>()
        .unwrap();
    let of = |at: usize| 4096 * usize::try_from(in_use[at]).unwrap();
    let (middle, last) = (in_use.len() / 2, in_use.len() - 1);
    for place in [4096, of(0) - 4079, of(4) - 66, of(middle) - 6, of(last) - 1] {
        let mut broken = whole.clone();
        broken[DOOR + place] ^= 0x40;
        fs::write(bench.file(), &broken).unwrap();
        check_refused(&bench, WORDS, one, &format!("one bit of byte {place}"));
    }
    // Two pages that change places are both wrong, although each seal is genuine.
    let mut swapped = whole.clone();
    swapped[DOOR + 4096..DOOR + 4096 * 3].rotate_left(4096);
    fs::write(bench.file(), &swapped).unwrap();
    check_refused(&bench, WORDS, &one.replace("one page is not as it was", "2 pages are not as they were"), "swapped");

    fs::write(bench.file(), &whole[..whole.len() - 4096]).unwrap();
    let cut = "FILE is damaged: some of its pages do not fit. Nothing was changed; use a copy of it from before.";
    check_refused(&bench, WORDS, cut, "the last page is missing");
    fs::write(bench.file(), &whole[..DOOR + 5000]).unwrap();
    let cut = "FILE is damaged: its length of 37768 bytes is not that of a whole notebook (or it never was one). \
               Nothing was changed; use a copy of it from before.";
    check_refused(&bench, WORDS, cut, "cut off in the middle of a page");

    fs::write(bench.file(), &whole).unwrap();
    assert!(Notebook::open(&bench.file(), &passphrase(), at("12:00")).is_ok(), "the undamaged bytes do open");
}

#[test]
fn a_newer_notebook_is_refused_untouched() {
    let bench = Bench::new();
    drop(bench.notebook([named(1, "Mavis", "Threlkeld")]));
    let newer = past_the_door(&bench.file());
    newer.execute_batch("PRAGMA user_version = 99; CREATE TABLE future (thing);").unwrap();
    drop(newer);
    check_refused(
        &bench,
        WORDS,
        "FILE was written by a newer Evengap (notebook version 99; this program reads up to 4). Nothing was changed; open \
         it with the newer program.",
        "newer version",
    );
}

#[test]
fn a_write_protected_notebook_is_refused() {
    let bench = Bench::new();
    drop(bench.notebook([]));
    let mut rights = fs::metadata(bench.file()).unwrap().permissions();
    rights.set_readonly(true);
    fs::set_permissions(bench.file(), rights).unwrap();
    check_refused(
        &bench,
        WORDS,
        "FILE is write-protected. Allow writing to the file and its folder, or copy it elsewhere.",
        "read-only",
    );
}

#[test]
fn an_interrupted_write_is_undone_on_opening() {
    let bench = Bench::new();
    let notebook = bench.notebook([named(1, "Mavis", "Threlkeld")]);
    drop(notebook);
    // A copy taken in the middle of a transaction whose pages already reached the file.
    let writing = past_the_door(&bench.file());
    writing.execute_batch("PRAGMA cache_size = 1; PRAGMA cache_spill = 1; BEGIN; DELETE FROM entry;").unwrap();
    writing
        .execute_batch(
            "WITH RECURSIVE n (n) AS (SELECT 1 UNION ALL SELECT n + 1 FROM n WHERE n < 2000)
             INSERT INTO meta SELECT 'filler ' || n, hex(zeroblob(500)) FROM n;",
        )
        .unwrap();
    let crashed = Bench::new();
    for (path, bytes) in bench.everything() {
        fs::write(crashed.path(path.file_name().unwrap().to_str().unwrap()), bytes).unwrap();
    }
    assert_eq!(crashed.everything().len(), 2, "the journal was there at the moment of the crash");
    let opened = Notebook::open(&crashed.file(), &passphrase(), at("12:00")).unwrap();
    assert_eq!(opened.count().unwrap(), 1, "what was committed before is there");
    assert_eq!(opened.list().unwrap()[0].name, "Threlkeld, Mavis", "and as it was");
    assert_eq!(crashed.everything().len(), 1, "the journal has done its work");
}

#[test]
fn two_programs_may_hold_it_one_writes_at_a_time() {
    let bench = Bench::new();
    let mut one = bench.notebook([]);
    let mut two = Notebook::open(&bench.file(), &passphrase(), at("12:00")).unwrap();
    one.save(&named(1, "Mavis", "Threlkeld"), None, at("08:01")).unwrap();
    two.save(&named(2, "Ivo", "Sandringford"), None, at("08:02")).unwrap();
    assert_eq!(one.count().unwrap(), 2, "each sees what the other committed");
}

#[test]
fn two_notebooks_are_open_at_once() {
    let (one, two) = (Bench::new(), Bench::new());
    let (mut first, mut second) = (one.notebook([]), two.notebook([]));
    save(&mut first, &named(1, "Mavis", "Threlkeld"), at("08:01")).unwrap();
    save(&mut second, &named(1, "Ivo", "Sandringford"), at("08:02")).unwrap();
    assert_eq!(first.list().unwrap()[0].name, "Threlkeld, Mavis", "neither knows of the other");
    assert_eq!(second.list().unwrap()[0].name, "Sandringford, Ivo", "although both use the same file system of SQLite");
}

/// What a save says after something was done to the open file.
#[track_caller]
fn check_gone(act: impl FnOnce(&Bench), why: &str) {
    let bench = Bench::new();
    let mut notebook = bench.notebook([named(1, "Mavis", "Threlkeld")]);
    act(&bench);
    let error = save(&mut notebook, &named(1, "Mavis", "Moss"), at("09:00")).unwrap_err();
    assert!(matches!(error, NotebookError::Gone(_)), "{why}: {error}");
}

#[test]
#[cfg(unix)]
fn a_file_that_was_yanked_away_takes_no_save() {
    check_gone(|bench| fs::remove_file(bench.file()).unwrap(), "deleted");
    check_gone(|bench| fs::rename(bench.file(), bench.path("elsewhere.evengap")).unwrap(), "moved");
    check_gone(
        |bench| {
            fs::rename(bench.file(), bench.path("mine.evengap")).unwrap();
            fs::copy(bench.path("mine.evengap"), bench.file()).unwrap();
        },
        "replaced by a copy",
    );
}

#[test]
fn a_large_file_is_checked_page_by_page() {
    let bench = Bench::new();
    drop(bench.notebook([named(1, "Mavis", "Threlkeld")]));
    let filling = past_the_door(&bench.file());
    filling
        .execute_batch(
            "PRAGMA synchronous = OFF; CREATE TABLE filler (value BLOB); INSERT INTO filler VALUES (zeroblob(34 * 1024 * 1024));",
        )
        .unwrap();
    drop(filling);
    let length = fs::metadata(bench.file()).unwrap().len();
    assert!(length > 33 * 1024 * 1024, "{length} bytes are more than are checked at once");
    let mut whole = fs::read(bench.file()).unwrap();
    whole[DOOR + 4096 * 4000 + 7] ^= 1;
    fs::write(bench.file(), &whole).unwrap();
    let notebook = bench.open(WORDS).unwrap();
    assert_eq!(notebook.count().unwrap(), 1, "what is not damaged can be read");
    let beside = past_the_door(&bench.file());
    let read = beside.query_row("SELECT value FROM filler", [], |row| row.get::<_, Vec<u8>>(0));
    assert!(read.is_err(), "what is damaged cannot");
    let error = notebook.back_up().run(&bench.path("copy.evengap"), false, |_, _| true).unwrap_err();
    assert!(matches!(error, NotebookError::Damaged { .. }), "no backup is made of it: {error}");
    assert!(!bench.path("copy.evengap").exists(), "not even a half one");
}
