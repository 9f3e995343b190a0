//! Exchange files that are damaged, of another sort, or made to do harm: nothing of them is taken.

use std::path::{Path, PathBuf};

use evengap_case::Case;
use evengap_notebook::{ExchangeError, Keep, NewPaper, Notebook, NotebookError, Passphrase};
use rusqlite::Connection;
use serde_json::json;

use crate::bench::{at, case, id, named, past_the_door, sign};
use crate::exchange::{Ring, dump, read, save};
use crate::tampering::node_of_first;

/// A file with a draft, a signed entry with addendum and paper, and a settled conflict.
fn written(ring: &mut Ring) -> PathBuf {
    let (mut theatre, mut clinic) = (ring.notebook("theatre"), ring.notebook("clinic"));
    save(&mut theatre, &named(1, "Mavis", "Threlkeld"), "09:00");
    save(&mut theatre, &named(2, "Ivo", "Sandringford"), "09:00");
    ring.send(&theatre, &mut clinic);
    save(&mut theatre, &named(1, "Mavis", "Theatre"), "10:00");
    save(&mut clinic, &named(1, "Mavis", "Clinic"), "10:00");
    ring.send(&theatre, &mut clinic);
    clinic.settle(clinic.conflicts().unwrap()[0].sequence, Keep::Ours, at("11:00")).unwrap();
    let ivo = named(2, "Ivo", "Sandringford");
    let paper = NewPaper {
        kind: "operative-note".into(),
        language: "en".into(),
        page: "a4".into(),
        template_name: "Ours".into(),
        template_version: 1,
        unfinished: vec![],
        warnings: vec![],
        bytes: b"a paper".to_vec(),
    };
    sign(&mut clinic, &ivo, &[paper], at("11:00")).unwrap();
    clinic.add_addendum(&ivo, "words", 1, at("12:00")).unwrap();
    ring.file(&clinic)
}

/// Reads a file into a notebook that knows some of it, and expects that nothing was changed.
#[track_caller]
fn refused(ring: &Ring, file: &Path, why: &str) -> NotebookError {
    let path = file.with_extension("receiver");
    let _ = std::fs::remove_file(&path);
    let mut notebook: Notebook = ring.notebook(path.file_name().unwrap().to_str().unwrap());
    save(&mut notebook, &named(2, "Another", "Draft"), "08:00");
    let before = dump(&notebook);
    let Err(error) = read(&mut notebook, file) else { panic!("{why}: it was taken") };
    assert_eq!(dump(&notebook), before, "{why}: nothing was changed");
    error
}

#[test]
fn nothing_made_up_is_taken() {
    let mut ring = Ring::new();
    let file = written(&mut ring);
    let copy = |poke: &dyn Fn(&Connection)| {
        let hostile = file.with_extension("hostile");
        std::fs::copy(&file, &hostile).unwrap();
        poke(&past_the_door(&hostile));
        hostile
    };
    for sql in [
        "UPDATE step SET written_at = '2026-06-30T09:01' WHERE sequence = 1",
        "UPDATE step SET written_at = 'yesterday'",
        "UPDATE step SET addendum_text = 'other words' WHERE addendum_text IS NOT NULL",
        "UPDATE step SET addendum_text = NULL",
        "UPDATE step SET number = number + 1",
        "UPDATE step SET number = -1",
        "UPDATE step SET kind = 'signed' WHERE kind = 'draft'",
        "UPDATE step SET kind = 'sealed'",
        "UPDATE step SET parent = NULL, back = NULL",
        "UPDATE step SET parent = node",
        "UPDATE step SET other_parent = NULL",
        "UPDATE step SET other_parent = zeroblob(32) WHERE sequence = 1",
        "UPDATE step SET node = zeroblob(32) WHERE sequence = 1",
        "UPDATE step SET node = zeroblob(31) WHERE sequence = 1",
        "UPDATE step SET node = (SELECT node FROM step WHERE sequence = 1)",
        "UPDATE step SET case_id = '00000000-0000-0000-0000-000000000009'",
        "UPDATE step SET case_id = 'x'",
        "UPDATE step SET mark = '00000000-0000-0000-0000-000000000009'",
        "UPDATE step SET back = '[]'",
        "UPDATE step SET back = 'not a patch' WHERE back IS NOT NULL",
        "DELETE FROM step WHERE sequence = 1",
        "DELETE FROM step",
        "UPDATE person SET name = 'Somebody Else'",
        "UPDATE person SET mark = upper(mark)",
        "DELETE FROM person",
        "UPDATE tip SET body = replace(body, 'Mavis', 'Maud')",
        "UPDATE tip SET body = '{}'",
        "UPDATE tip SET body = '['",
        "UPDATE tip SET stands = 0",
        "UPDATE tip SET stands = 1",
        "UPDATE tip SET kept = 'both' WHERE kept IS NOT NULL",
        "UPDATE tip SET settled_at = 'soon' WHERE settled_at IS NOT NULL",
        "UPDATE tip SET settled_by = NULL",
        "UPDATE tip SET settled_by = 'nobody' WHERE settled_by IS NOT NULL",
        "DELETE FROM tip WHERE stands = 1",
        "DELETE FROM tip WHERE stands = 0",
        "UPDATE paper SET bytes = x'00'",
        "UPDATE paper SET sha256 = zeroblob(32)",
        "UPDATE paper SET node = (SELECT node FROM step WHERE kind = 'draft' LIMIT 1)",
        "UPDATE paper SET unfinished = 'words'",
        "UPDATE paper SET made_at = 'soon'",
        "UPDATE paper SET case_id = '00000000-0000-0000-0000-000000000009'",
        "DELETE FROM about",
        "DROP TABLE paper",
        "CREATE TABLE more (x)",
        "CREATE TRIGGER more AFTER INSERT ON step BEGIN SELECT 1; END",
        "DROP TABLE tip; CREATE VIEW tip AS SELECT 1",
        "PRAGMA application_id = 1",
    ] {
        let hostile = copy(&|file| file.execute_batch(sql).unwrap());
        refused(&ring, &hostile, sql);
    }
    let fine = copy(&|_| {});
    let mut notebook = ring.notebook("fine");
    assert_eq!(read(&mut notebook, &fine).unwrap().cases.len(), 2, "the same file without any of that is taken");
    assert_eq!(notebook.verify().unwrap().problems, [] as [&str; 0], "whole");
}

#[test]
fn a_patch_that_blows_up() {
    let mut ring = Ring::new();
    let file = written(&mut ring);
    let doubled = json!([{ "op": "copy", "from": "", "path": "/zeta" }]).to_string();
    past_the_door(&file).execute("UPDATE step SET back = ?1 WHERE back IS NOT NULL", [doubled]).unwrap();
    let error = refused(&ring, &file, "copies could make endless much of little").to_string();
    assert!(error.contains("has a version from which nothing leads back"), "before it is tried: {error}");
}

/// An entry with lists within lists: so many levels, with the one of the entry itself.
fn nested(levels: usize) -> Case {
    let deep = format!("{}1{}", "[".repeat(levels - 1), "]".repeat(levels - 1));
    case(1, json!({ "zeta": serde_json::from_str::<serde_json::Value>(&deep).unwrap() }))
}

#[test]
fn what_is_saved_can_be_exchanged_however_deep() {
    let mut ring = Ring::new();
    let (mut theatre, mut clinic) = (ring.notebook("theatre"), ring.notebook("clinic"));
    save(&mut theatre, &nested(2), "09:00");
    save(&mut theatre, &nested(100), "09:01");
    save(&mut theatre, &nested(99), "09:02");
    sign(&mut theatre, &nested(99), &[], at("10:00")).unwrap();
    theatre.add_addendum(&nested(100), "words", 1, at("11:00")).unwrap();
    ring.send(&theatre, &mut clinic);
    assert_eq!(clinic.show(id(1)).unwrap().case, nested(100), "as deep as can be");
    assert_eq!(clinic.history(id(1)).unwrap().len(), 5, "with everything before it");

    let before = dump(&theatre);
    let said = "Something in the entry 00000000-0000-0000-0000-000000000001 is nested more than 100 levels deep, which \
                could not be read again. Nothing was written; look for lists within lists under the keys that Evengap \
                does not know, and make them flatter.";
    let error = theatre.add_addendum(&nested(101), "words", 2, at("12:00")).unwrap_err();
    assert_eq!(error.to_string(), said, "no addendum is");
    assert_eq!(dump(&theatre), before, "and nothing was added");
    let mut ward = ring.notebook("ward");
    let refusals = [
        ward.save(&nested(101), None, at("12:00")).unwrap_err(),
        ward.add(nested(101), id(1), at("12:00")).unwrap_err(),
    ];
    assert_eq!(refusals.map(|error| error.to_string()), [said, said], "no draft either");
    assert_eq!(ward.count().unwrap(), 0, "nothing was saved");
    let head = save(&mut ward, &nested(2), "12:01");
    let error = ward.sign(&nested(2), &nested(101), head, &[], at("12:02")).unwrap_err();
    assert_eq!(error.to_string(), said, "nor does one become so when it is signed");
}

#[test]
fn a_file_of_somebody_who_nests_deeper() {
    let mut ring = Ring::new();
    let mut notebook = ring.notebook("deep");
    let head = save(&mut notebook, &nested(2), "09:00");
    let file = ring.file(&notebook);
    let tip = nested(101).to_value().to_string();
    let deep = past_the_door(&file);
    let node = node_of_first(
        &nested(101).to_value(),
        &notebook.person().mark.to_string(),
        "Ms Orla Quill",
        "2026-06-30T09:00",
    );
    deep.execute("UPDATE step SET node = ?1 WHERE node = ?2", (node, head)).unwrap();
    deep.execute("UPDATE tip SET node = ?1, body = ?2", (node, tip)).unwrap();
    drop(deep);
    let error = refused(&ring, &file, "nested deeper than can be read back").to_string();
    assert!(error.contains("is nested too deep"), "{error}");
}

#[test]
fn a_text_that_says_one_thing_twice() {
    let mut ring = Ring::new();
    let file = written(&mut ring);
    let sql = r#"UPDATE tip SET body = replace(body, '"format"', '"id":"another","format":"other","format"')"#;
    past_the_door(&file).execute(sql, []).unwrap();
    let mut notebook = ring.notebook("receiver");
    read(&mut notebook, &file).unwrap();
    assert_eq!(notebook.show(id(1)).unwrap().case, named(1, "Mavis", "Clinic"), "what was looked at is what is stored");
    assert_eq!(notebook.history(id(2)).unwrap().len(), 3, "and can be read again");
    assert_eq!(notebook.verify().unwrap().problems, [] as [&str; 0], "whole");
}

#[test]
fn a_newer_program_and_other_files() {
    let mut ring = Ring::new();
    let file = written(&mut ring);
    let said = |error: NotebookError| error.to_string();

    let newer = file.with_extension("newer");
    std::fs::copy(&file, &newer).unwrap();
    past_the_door(&newer).pragma_update(None, "user_version", 2).unwrap();
    let error = refused(&ring, &newer, "a newer program wrote it");
    assert!(matches!(error, NotebookError::Exchange(ExchangeError::Newer { theirs: 2, ours: 1, .. })), "{error}");

    let notebook = ring.notebook("notebook");
    let error = said(refused(&ring, notebook.path(), "a notebook"));
    assert!(error.contains("is not an exchange file: it is a notebook or something else"), "{error}");
    let text = file.with_extension("text");
    std::fs::write(&text, "words").unwrap();
    assert!(said(refused(&ring, &text, "a text")).contains("it does not begin like one"), "a text");
    let error = said(refused(&ring, &file.with_extension("missing"), "nothing"));
    assert!(error.starts_with("There is no exchange file at"), "{error}");
    assert!(said(refused(&ring, file.parent().unwrap(), "a folder")).contains("it is a folder"), "a folder");

    let mut receiver = ring.notebook("receiver");
    let wrong = Passphrase::new("not the passphrase at all").unwrap();
    let error = receiver.read_exchange(&file, &wrong, at("21:00")).unwrap_err();
    assert!(matches!(error, NotebookError::Exchange(ExchangeError::WrongPassphrase(_))), "{error}");
}

#[test]
fn one_byte_is_not_as_it_was() {
    let mut ring = Ring::new();
    let file = written(&mut ring);
    let whole = std::fs::read(&file).unwrap();
    let broken = file.with_extension("broken");
    let pages = usize::try_from(evengap_door::LENGTH).unwrap()..whole.len();
    for place in pages.step_by(1021) {
        let mut bytes = whole.clone();
        bytes[place] ^= 1;
        std::fs::write(&broken, bytes).unwrap();
        refused(&ring, &broken, &format!("byte {place}"));
    }
    for length in [0, 100, 32 * 1024, whole.len() - 4096, whole.len() - 1] {
        std::fs::write(&broken, &whole[..length]).unwrap();
        refused(&ring, &broken, &format!("cut to {length}"));
    }
}

#[test]
fn nobody_reads_along() {
    let mut ring = Ring::new();
    let file = written(&mut ring);
    let bytes = std::fs::read(&file).unwrap();
    for words in ["Threlkeld", "Sandringford", "Quill", "a paper", "CREATE TABLE", &id(1).to_string()] {
        let found = bytes.windows(words.len()).any(|window| window == words.as_bytes());
        assert!(!found, "{words} stands in the file for everybody to read");
    }
}
