//! No name stands in plain text anywhere: not in the notebook, its journal, a backup, nor in any folder of the session.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use evengap_desk::{Cost, Desk, PaperAsked, PaperFormat};
use evengap_door::faults::{self, Act, Faults, FileKind, Op, Verdict};
use evengap_papers::Kind;
use tempfile::TempDir;

use crate::shelf::{WORDS, now};

const FOLDER: &str = "EVENGAP_SCANNED_FOLDER";

/// Ends the process in the middle of a save, so that its journal stays.
struct Abort {
    writes: usize,
}

impl Faults for Abort {
    fn before(&mut self, op: &Op<'_>) -> Verdict {
        if op.file == FileKind::Notebook && matches!(op.act, Act::Write { .. }) {
            self.writes += 1;
            if self.writes == 3 {
                std::process::abort();
            }
        }
        Verdict::Go
    }
}

/// Not a test: the session, in a process of its own with folders of its own, which ends in the middle of a save.
#[test]
#[ignore = "the process that the other test begins"]
fn the_session() {
    let folder = PathBuf::from(std::env::var_os(FOLDER).expect("begun by the other test"));
    let mut desk = Desk::with_cost(Cost::LEAST);
    desk.notebook_create(&folder.join("knees.evengap"), WORDS, "Ms Maren Oakshott", now()).unwrap();
    let mut last = None;
    for (name, case) in evengap_tests::demos() {
        let saved = desk.case_save(case.to_value(), None, now()).unwrap();
        for kind in Kind::ALL.into_iter().filter(|kind| *kind != Kind::Addendum) {
            let _ = desk.paper_preview(PaperAsked::new(case.to_value(), kind), now());
        }
        if name == "whole-knee-cemented" {
            // Kept inside of the notebook.
            let _ = desk.case_sign(case.to_value(), &[], now());
            let _ = desk.paper_print(PaperAsked::new(case.to_value(), Kind::OperativeNote), PaperFormat::Pdf, now());
        }
        last = Some((case, saved.version));
        let family = last.as_ref().and_then(|(case, _)| case.patient.family_name.clone()).unwrap_or_default();
        let _ = desk.cases_find(&family).unwrap();
        let _ = desk.cases_find_newest(&family.chars().take(1).collect::<String>(), 10).unwrap();
    }
    desk.notebook_back_up(Some(&folder.join("copy.evengap")), false, now(), |_| true).unwrap();
    let (mut case, version) = last.unwrap();
    // Enough of the entries changes that pages are written before the commit.
    case.choice.reason = Some("Bone on bone. ".repeat(2_000));
    faults::install(Some(Box::new(Abort { writes: 0 })));
    let _ = desk.case_save(case.to_value(), Some(&version), now());
    unreachable!("the process ends in the middle of this save");
}

#[test]
fn no_name_stands_in_plain_text() {
    let root = TempDir::new().unwrap();
    let folder = |name: &str| {
        let path = root.path().join(name);
        std::fs::create_dir_all(&path).unwrap();
        path
    };
    let notebooks = folder("notebooks");
    let mut session = Command::new(std::env::current_exe().unwrap());
    session
        .args(["--exact", "strings::the_session", "--ignored"])
        .env(FOLDER, &notebooks)
        .env("HOME", folder("home"))
        .current_dir(folder("here"))
        .stdout(Stdio::null())
        .stderr(Stdio::null());
    for name in [
        "TMPDIR",
        "SQLITE_TMPDIR",
        "XDG_DATA_HOME",
        "XDG_CONFIG_HOME",
        "XDG_CACHE_HOME",
        "XDG_STATE_HOME",
        "XDG_RUNTIME_DIR",
    ] {
        session.env(name, folder(name));
    }
    let ended = session.status().unwrap();
    assert!(!ended.success(), "the session ends in the middle of a save");
    assert!(notebooks.join("knees.evengap-journal").exists(), "and its journal is there to be looked at");

    assert!(notebooks.join("copy.evengap").exists(), "so is its backup");

    let words = names();
    let files = all_files(root.path());
    let mut bytes_seen = 0;
    for path in &files {
        let bytes = std::fs::read(path).unwrap();
        bytes_seen += bytes.len();
        for (word, needle) in &words {
            let is_there = bytes.windows(needle.len()).any(|window| window == needle.as_slice());
            assert!(!is_there, "“{word}” stands in {} in plain text", path.display());
        }
    }
    // The same scan finds what is there to be found.
    let demo = std::fs::read(evengap_tests::project().join("demo-cases/whole-knee-cemented.json")).unwrap();
    assert!(words.iter().any(|(_, needle)| demo.windows(needle.len()).any(|window| window == needle.as_slice())));
    println!(
        "plain text: {} words in 3 encodings, {} files with {bytes_seen} bytes, 0 found",
        words.len() / 3,
        files.len()
    );
}

/// Names and numbers of the demo people, in UTF-8 and in both orders of UTF-16.
fn names() -> Vec<(String, Vec<u8>)> {
    let mut words = vec!["Oakshott".to_owned(), WORDS.to_owned(), "evengap-case/1".to_owned()];
    for (_, case) in evengap_tests::demos() {
        let patient = &case.patient;
        words.extend(
            [&patient.family_name, &patient.given_name, &patient.hospital_number].into_iter().flatten().cloned(),
        );
    }
    words.retain(|word| word.chars().count() >= 4);
    let encoded = |word: &String| {
        let wide = |order: fn(u16) -> [u8; 2]| word.encode_utf16().flat_map(order).collect::<Vec<u8>>();
        [word.clone().into_bytes(), wide(u16::to_le_bytes), wide(u16::to_be_bytes)].map(|needle| (word.clone(), needle))
    };
    words.iter().flat_map(encoded).collect()
}

fn all_files(folder: &Path) -> Vec<PathBuf> {
    let mut files = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() { files.extend(all_files(&path)) } else { files.push(path) }
    }
    files
}
