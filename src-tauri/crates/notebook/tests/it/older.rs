//! Notebooks of older programs, made here by the migrations that those had.

use evengap_case::Case;
use evengap_notebook::{Notebook, State};

use crate::bench::{Bench, at, id, passphrase, past_the_door};
use crate::projections::{cases, dump};

/// The migrations, in the order in which programs learned them; none of them ever changes.
const MIGRATIONS: [&str; 2] =
    [include_str!("../../migrations/0001_entries.sql"), include_str!("../../migrations/0002_projections.sql")];

/// Writes a notebook as the program of that version did: its tables, a writer, and drafts.
fn notebook_of(version: usize, cases: &[Case]) -> Bench {
    let bench = Bench::new();
    let beside = past_the_door(&bench.file());
    for migration in &MIGRATIONS[..version] {
        beside.execute_batch(migration).unwrap();
    }
    beside.pragma_update(None, "application_id", 0x4576_4770).unwrap();
    beside.pragma_update(None, "user_version", i64::try_from(version).unwrap()).unwrap();
    beside
        .execute("INSERT INTO person (id, name, added_at) VALUES (1, 'Ms Orla Quill', '2025-01-01T08:00')", [])
        .unwrap();
    for case in cases {
        let given = (case.id.to_string(), case.to_value().to_string());
        let insert = "INSERT INTO entry (case_id, number, kind, author, written_at, schema, body)
                      VALUES (?1, 1, 'draft', 1, '2026-06-30T08:00', 1, ?2)";
        beside.execute(insert, given).unwrap();
    }
    bench
}

#[track_caller]
fn check(version: usize) {
    let bench = notebook_of(version, &cases());
    let mut notebook = Notebook::open(&bench.file(), &passphrase()).unwrap();
    assert_eq!(notebook.find("threlkeld").unwrap().len(), 1, "lists and search work at once");
    let new = Bench::new();
    drop(new.notebook(cases()));
    let rows = |bench: &Bench| dump(&past_the_door(&bench.file()));
    assert_eq!(rows(&bench), rows(&new), "version {version}: lists as if it had been made by this program");
    let opened: i64 = past_the_door(&bench.file()).pragma_query_value(None, "user_version", |row| row.get(0)).unwrap();
    assert_eq!(opened, 3, "and it says so");

    let shown = notebook.show(id(3)).unwrap();
    assert_eq!((shown.state, shown.number, shown.signed), (State::Draft, 1, None), "its entries are drafts");
    notebook.sign(&shown.case, &[], at("09:00")).unwrap();
    notebook.add_addendum(&shown.case, "Seen again.", shown.number, at("10:00")).unwrap();
    assert_eq!(notebook.addenda(id(3)).unwrap().len(), 1, "which can be signed and added to");
    notebook.template_save(("addendum", "en"), "Ours", "words", at("10:01")).unwrap();
    assert!(notebook.template_in_force("addendum", "en").unwrap().is_some(), "and it takes templates");
}

#[test]
fn without_projections() {
    check(1);
}

#[test]
fn without_signatures() {
    check(2);
}
