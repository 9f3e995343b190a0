//! Papers of signed entries, kept byte for byte.

use evengap_notebook::{NewPaper, Notebook, PaperKey};

use crate::bench::{Bench, at, id, named, passphrase, past_the_door, sign};

fn paper(kind: &str, bytes: &[u8]) -> NewPaper {
    NewPaper {
        kind: kind.into(),
        language: "en".into(),
        page: "a4".into(),
        template_name: "Ours".into(),
        template_version: 4,
        unfinished: vec!["No telephone number.".into()],
        warnings: vec![],
        bytes: bytes.to_vec(),
    }
}

fn key(number: u32, kind: &'static str) -> PaperKey<'static> {
    PaperKey { id: id(1), number, kind, language: "en", page: "a4" }
}

#[test]
fn signing_keeps_papers_with_the_signature() {
    let bench = Bench::new();
    let case = named(1, "Mavis", "Threlkeld");
    let mut notebook = bench.notebook([case.clone()]);
    assert_eq!(notebook.kept_paper(key(1, "operative-note")).unwrap(), None, "a draft keeps none");
    sign(&mut notebook, &case, &[paper("operative-note", b"%PDF one")], at("17:30")).unwrap();
    drop(notebook);
    let notebook = Notebook::open(&bench.file(), &passphrase(), at("12:00")).unwrap();
    let kept = notebook.kept_paper(key(1, "operative-note")).unwrap().unwrap();
    assert_eq!(kept.bytes, b"%PDF one", "the file");
    assert_eq!((kept.template_name.as_str(), kept.template_version), ("Ours", 4), "its template");
    assert_eq!((kept.by.as_str(), kept.made_at.as_str()), ("Ms Orla Quill", "2026-06-30T17:30"), "who and when");
    assert_eq!((kept.unfinished.len(), kept.warnings.len()), (1, 0), "and what was said about it");
    // printf '%PDF one' | sha256sum
    let sum: String = kept.sha256.iter().map(|byte| format!("{byte:02x}")).collect();
    assert_eq!(
        sum, "dd4d31b708b2c66f787349c75673d184951df3cdffe3a8cf9b9554002244300a",
        "its checksum, as another program computes it"
    );
}

#[test]
fn the_first_one_stays() {
    let bench = Bench::new();
    let case = named(1, "Mavis", "Threlkeld");
    let mut notebook = bench.notebook([case.clone()]);
    sign(&mut notebook, &case, &[], at("17:30")).unwrap();
    let first = notebook.keep_paper(id(1), 1, &paper("discharge-letter", b"one"), at("18:00")).unwrap();
    let again = notebook.keep_paper(id(1), 1, &paper("discharge-letter", b"two"), at("19:00")).unwrap();
    assert_eq!(again, first, "what is kept is given back, not what came later");
    notebook.add_addendum(&case, "words", 1, at("20:00")).unwrap();
    let of_addendum = notebook.keep_paper(id(1), 2, &paper("discharge-letter", b"three"), at("20:01")).unwrap();
    assert_eq!(of_addendum.bytes, b"three", "a new version of the entry has papers of its own");
    assert_eq!(notebook.kept_paper(key(1, "discharge-letter")).unwrap().unwrap().bytes, b"one", "beside the old ones");
    assert!(
        notebook.keep_paper(id(1), 3, &paper("discharge-letter", b"four"), at("20:02")).is_err(),
        "no such version"
    );
}

#[test]
fn it_neither_changes_nor_goes() {
    let bench = Bench::new();
    let case = named(1, "Mavis", "Threlkeld");
    let mut notebook = bench.notebook([case.clone()]);
    sign(&mut notebook, &case, &[paper("operative-note", b"one")], at("17:30")).unwrap();
    let beside = past_the_door(&bench.file());
    for sql in ["UPDATE kept_paper SET bytes = x'00'", "DELETE FROM kept_paper"] {
        let error = beside.execute(sql, []).unwrap_err().to_string();
        assert!(error.starts_with("a kept paper"), "the file itself refuses {sql}: {error}");
    }
    let replace = "INSERT OR REPLACE INTO kept_paper SELECT sequence, case_id, entry_number, kind, language, page, 'x', 1, \
                   unfinished, warnings, author, made_at, sha256, x'00' FROM kept_paper";
    let error = beside.execute(replace, []).unwrap_err().to_string();
    assert_eq!(error, "a kept paper is never replaced", "nor is another put in its place");
    beside.execute_batch("DROP TRIGGER kept_paper_stays; UPDATE kept_paper SET bytes = x'00';").unwrap();
    let error = notebook.kept_paper(key(1, "operative-note")).unwrap_err().to_string();
    assert!(error.contains("is not as it was made"), "changed bytes are never handed out: {error}");
}

#[test]
fn a_signature_that_fails_keeps_nothing() {
    let bench = Bench::new();
    let case = named(1, "Mavis", "Threlkeld");
    let mut notebook = bench.notebook([case.clone()]);
    let other = named(1, "Mavis", "Other");
    assert!(
        sign(&mut notebook, &other, &[paper("operative-note", b"one")], at("17:30")).is_err(),
        "not what is stored"
    );
    assert_eq!(notebook.kept_paper(key(1, "operative-note")).unwrap(), None, "nothing is kept");
    let draft = notebook.keep_paper(id(1), 1, &paper("operative-note", b"one"), at("17:31")).unwrap_err().to_string();
    assert!(draft.contains("is a draft"), "a draft changes, so its papers are never kept: {draft}");
}
