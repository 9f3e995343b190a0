//! Notebooks of older programs, made here by the migrations that those had, in the layout that those had.

use std::fs;
use std::path::PathBuf;

use evengap_case::Case;
use evengap_door::faults::Verdict;
use evengap_notebook::{Notebook, NotebookError, PaperKey, State, restore};
use sha2::{Digest, Sha256};

use crate::bench::{Bench, WORDS, at, id, older, passphrase, past_the_door, sign};
use crate::projections::{cases, dump};
use crate::refusing::refusing;

/// The migrations, in the order in which programs learned them; none of them ever changes.
const MIGRATIONS: [&str; 3] = [
    include_str!("../../migrations/0001_entries.sql"),
    include_str!("../../migrations/0002_projections.sql"),
    include_str!("../../migrations/0003_signed_papers.sql"),
];

/// Writes a notebook as the program of that version did: its tables, a writer, and drafts; from version 3 on a signed
/// entry with an addendum and a kept paper besides.
pub fn notebook_of(version: usize, cases: &[Case]) -> Bench {
    let bench = Bench::new();
    let beside = older(&bench.file());
    for migration in &MIGRATIONS[..version] {
        beside.execute_batch(migration).unwrap();
    }
    beside.pragma_update(None, "application_id", 0x4576_4770).unwrap();
    beside.pragma_update(None, "user_version", i64::try_from(version).unwrap()).unwrap();
    beside
        .execute("INSERT INTO person (id, name, added_at) VALUES (1, 'Ms Orla Quill', '2025-01-01T08:00')", [])
        .unwrap();
    beside.execute("INSERT INTO meta VALUES ('setting.page', 'letter')", []).unwrap();
    for case in cases {
        let given = (case.id.to_string(), case.to_value().to_string());
        let insert = "INSERT INTO entry (case_id, number, kind, author, written_at, schema, body)
                      VALUES (?1, 1, 'draft', 1, '2026-06-30T08:00', 1, ?2)";
        beside.execute(insert, given).unwrap();
    }
    if version == 3 {
        let signed = id(5).to_string();
        beside.execute("UPDATE entry SET kind = 'signed' WHERE case_id = ?1", [&signed]).unwrap();
        let addendum = "INSERT INTO entry (case_id, number, kind, author, written_at, schema, body, addendum_text)
                        SELECT case_id, 2, 'addendum', 1, '2026-06-30T08:30', 1, body, 'Seen again.'
                        FROM entry WHERE case_id = ?1";
        beside.execute(addendum, [&signed]).unwrap();
        let paper = "INSERT INTO kept_paper (case_id, entry_number, kind, language, page, template_name,
                         template_version, unfinished, warnings, author, made_at, sha256, bytes)
                     VALUES (?1, 1, 'operative-note', 'en', 'a4', 'built in', 1, '[]', '[]', 1, '2026-06-30T08:01', ?2, ?3)";
        beside.execute(paper, (&signed, Sha256::digest(b"paper").as_slice(), b"paper")).unwrap();
    }
    bench
}

fn kept_of(bench: &Bench) -> PathBuf {
    bench.path("knees (older layout).evengap")
}

#[track_caller]
fn check(version: usize) {
    let bench = notebook_of(version, &cases());
    let before = fs::read(bench.file()).unwrap();
    let mut notebook = Notebook::open(&bench.file(), &passphrase(), at("12:00")).unwrap();
    assert_eq!(notebook.kept_as(), Some(kept_of(&bench).as_path()), "version {version}: it says where the old one is");
    assert!(fs::read(kept_of(&bench)).unwrap() == before, "which is as it was");
    assert_eq!(bench.everything().len(), 2, "and nothing else is left");
    assert_eq!(notebook.find("threlkeld").unwrap().len(), 1, "lists and search work at once");
    assert_eq!(notebook.count().unwrap(), 3, "every case is there");
    assert_eq!(notebook.setting("page").unwrap().as_deref(), Some("letter"), "so are settings");
    assert!(notebook.person().keeper, "whoever wrote in it keeps it");
    let opened: i64 = past_the_door(&bench.file()).pragma_query_value(None, "user_version", |row| row.get(0)).unwrap();
    assert_eq!(opened, 4, "and it says so");
    if version < 3 {
        let new = Bench::new();
        drop(new.notebook(cases()));
        let rows = |bench: &Bench| dump(&past_the_door(&bench.file()));
        assert_eq!(rows(&bench), rows(&new), "version {version}: lists as if it had been made by this program");
    } else {
        let shown = notebook.show(id(5)).unwrap();
        assert_eq!((shown.state, shown.number), (State::Signed, 2), "what was signed is signed");
        assert_eq!(shown.addendum_text.as_deref(), Some("Seen again."), "and added to");
        let key = PaperKey { id: id(5), number: 1, kind: "operative-note", language: "en", page: "a4" };
        assert_eq!(notebook.kept_paper(key).unwrap().unwrap().bytes, b"paper", "its paper is kept byte for byte");
    }

    let shown = notebook.show(id(3)).unwrap();
    assert_eq!((shown.state, shown.number, shown.signed), (State::Draft, 1, None), "its drafts are drafts");
    sign(&mut notebook, &shown.case, &[], at("09:00")).unwrap();
    notebook.add_addendum(&shown.case, "Seen again.", shown.number, at("10:00")).unwrap();
    assert_eq!(notebook.addenda(id(3)).unwrap().len(), 1, "which can be signed and added to");
    notebook.template_save(("addendum", "en"), "Ours", "words", at("10:01")).unwrap();
    assert!(notebook.template_in_force("addendum", "en").unwrap().is_some(), "and it takes templates");
    drop(notebook);
    let again = bench.open(WORDS).unwrap();
    assert_eq!((again.kept_as(), again.count().unwrap()), (None, 3), "the next opening converts nothing");
    drop(again);

    let copy = kept_of(&bench);
    let new = bench.path("restored.evengap");
    let report = restore(&copy, &passphrase(), &new, at("18:00")).unwrap();
    assert_eq!((report.cases, report.people, report.converted), (3, 1, true), "an old copy can be restored");
    let signed = u32::from(version == 3);
    assert_eq!((report.signed, report.addenda, report.papers), (signed, signed, signed), "with all that is in it");
    assert!(fs::read(&copy).unwrap() == before, "and stays what it is");
    assert_eq!(bench.everything().len(), 3, "the notebook, the copy, the restored one");
}

#[test]
fn without_projections() {
    check(1);
}

#[test]
fn without_signatures() {
    check(2);
}

#[test]
fn without_people() {
    check(3);
}

#[test]
fn a_wrong_passphrase_converts_nothing() {
    let bench = notebook_of(3, &cases());
    let before = bench.everything();
    let error = bench.open("not this one, surely").err();
    assert!(matches!(error, Some(NotebookError::WrongPassphraseOrDamaged(_))), "{error:?}");
    assert!(before == bench.everything(), "the file keeps its bytes, and gets no companions");
}

#[test]
fn a_disk_that_refuses_leaves_the_old_file() {
    let whole = usize::MAX;
    let ran = |allowed: usize, verdict: Verdict| {
        let bench = notebook_of(3, &cases());
        let (opened, used) = refusing(&bench, allowed, verdict, || bench.open(WORDS).map(drop));
        (bench, opened, used)
    };
    let (_, opened, writes) = ran(whole, Verdict::Go);
    opened.unwrap();
    assert!(writes > 10, "a conversion writes {writes} times");
    // Stretching a passphrase takes its time, so not every place is tried in every run.
    for verdict in [Verdict::Full, Verdict::IoError] {
        for allowed in (1..writes).step_by((writes / 3).max(1)) {
            let (bench, opened, _) = ran(allowed, verdict);
            if let Err(error) = &opened {
                let plain = matches!(error, NotebookError::Full(_) | NotebookError::Disk(_) | NotebookError::Io { .. });
                assert!(plain, "after {allowed} writes: {error}");
            }
            let notebook = bench.open(WORDS).unwrap();
            assert_eq!(
                notebook.count().unwrap(),
                3,
                "{verdict:?} after {allowed} writes: it opens with all that was in it"
            );
            let unfinished =
                bench.everything().iter().filter(|(path, _)| path.to_string_lossy().contains("unfinished")).count();
            assert_eq!(unfinished, 0, "and nothing half made is left");
        }
    }
}
