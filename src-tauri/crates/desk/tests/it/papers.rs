//! Papers on the screen and in files.

use std::path::Path;

use evengap_desk::{Desk, ErrorCode, PageSize, PaperAsked, PaperFormat, PaperKind};
use serde_json::json;

use crate::bench::{at, desk_in, entry, folder, refused};

fn asked(kind: PaperKind) -> PaperAsked {
    PaperAsked { case: entry(1, "Threlkeld"), kind, page: PageSize::A4, author: None, demonstration: false }
}

#[test]
fn a_preview_needs_no_saved_entry() {
    let folder = folder();
    let desk = desk_in(&folder);
    let preview = desk.paper_preview(asked(PaperKind::OperativeNote), at("08:00")).unwrap();
    assert!(preview.html.contains("Threlkeld"), "the answers are on the paper: {}", preview.html);
    assert!(preview.html.contains("Ms Orla Quill"), "the notebook's writer is its author");
    assert!(!preview.html.contains("<html"), "a fragment, not a page");
    let letter = desk.paper_preview(asked(PaperKind::DischargeLetter), at("08:00")).unwrap();
    assert!(!letter.unfinished.is_empty(), "a letter without a telephone number says why it is unfinished");
}

#[test]
fn every_form_of_every_paper() {
    let desk = Desk::new();
    for kind in PaperKind::ALL {
        for (format, begins) in [
            (PaperFormat::Pdf, "%PDF-"),
            (PaperFormat::Markdown, "**"),
            (PaperFormat::Text, ""),
            (PaperFormat::Html, "<!"),
        ] {
            let print = || desk.paper_print(asked(kind), format, at("08:00")).unwrap().bytes;
            let printed = print();
            assert!(printed.starts_with(begins.as_bytes()), "{kind:?} as {format:?} begins as it should");
            assert!(printed.len() > 500, "{kind:?} as {format:?} holds something");
            assert!(printed == print(), "{kind:?} as {format:?} comes out the same twice");
        }
    }
}

#[test]
fn an_author_may_be_named() {
    let mut named = asked(PaperKind::OperativeNote);
    named.author = Some("Mr Idris Penhale".into());
    let preview = Desk::new().paper_preview(named, at("08:00")).unwrap();
    assert!(preview.html.contains("Mr Idris Penhale"), "without a notebook too");
    let preview = Desk::new().paper_preview(asked(PaperKind::OperativeNote), at("08:00")).unwrap();
    assert!(preview.html.contains("author not named"), "a paper without author says so");
}

#[test]
fn an_export_never_replaces_unless_told() {
    let folder = folder();
    let desk = Desk::new();
    let to = folder.path().join("note.txt");
    let export = |replace: bool| {
        desk.paper_export(asked(PaperKind::OperativeNote), PaperFormat::Text, &to, replace, at("08:00"))
    };
    assert_eq!(export(false).unwrap().path, to.display().to_string(), "the first time it is written");
    std::fs::write(&to, "my own words").unwrap();
    let sentence = refused(export(false), ErrorCode::Exists);
    assert_eq!(sentence, format!("{} exists already. Replace it, or choose another name.", to.display()));
    assert_eq!(std::fs::read_to_string(&to).unwrap(), "my own words", "nothing was written");
    export(true).unwrap();
    assert!(std::fs::read_to_string(&to).unwrap().contains("Threlkeld"), "told to, it replaces");
    assert_eq!(names_in(folder.path()), ["note.txt"], "no half file is left beside it");
}

#[test]
fn an_export_that_cannot_be_names_the_place() {
    let folder = folder();
    let desk = Desk::new();
    let export =
        |to: &Path| desk.paper_export(asked(PaperKind::OperativeNote), PaperFormat::Pdf, to, false, at("08:00"));
    let nowhere = folder.path().join("none").join("note.pdf");
    let shown = folder.path().join("none").display().to_string();
    let sentence = refused(export(&nowhere), ErrorCode::Failed);
    assert_eq!(sentence, format!("The folder {shown} does not exist. Make it first, or choose another."), "missing");
    let sentence = refused(export(folder.path()), ErrorCode::Failed);
    let shown = folder.path().display();
    assert_eq!(sentence, format!("{shown} is a folder; give the name of a file in it."), "a folder");
    let file = folder.path().join("file");
    std::fs::write(&file, "").unwrap();
    let sentence = refused(export(&file.join("note.pdf")), ErrorCode::Failed);
    assert_eq!(sentence, format!("{} is not a folder. Choose another.", file.display()), "a file as folder");
    let long = folder.path().join("x".repeat(300) + ".pdf");
    refused(export(&long), ErrorCode::Failed);
    assert_eq!(names_in(folder.path()), ["file"], "nothing was left behind");
}

#[test]
fn a_refused_entry_writes_nothing() {
    let folder = folder();
    let mut bad = asked(PaperKind::OperativeNote);
    bad.case["knee"]["side"] = json!("middle");
    let to = folder.path().join("note.pdf");
    refused(Desk::new().paper_export(bad, PaperFormat::Pdf, &to, true, at("08:00")), ErrorCode::Refused);
    assert_eq!(names_in(folder.path()), Vec::<String>::new(), "no file, no half file");
}

#[test]
fn a_suggested_name_says_what_it_is() {
    let folder = folder();
    let desk = Desk::new();
    let check = |family: &str, expected: &str, why: &str| {
        let path = desk
            .paper_suggest_path(folder.path(), entry(1, family), PaperKind::OperativeNote, PaperFormat::Pdf)
            .unwrap();
        assert_eq!(path, folder.path().join(expected), "{why}");
    };
    check("Threlkeld", "Threlkeld 2026-03-04 left operative-note.pdf", "person, day, side, paper");
    check("Nguyễn", "Nguyễn 2026-03-04 left operative-note.pdf", "letters of every script may stay");
    check("../../etc: <a|b>", "etc a b 2026-03-04 left operative-note.pdf", "signs that no file name can hold");
    check(" \t", "2026-03-04 left operative-note.pdf", "without a name");
    std::fs::write(folder.path().join("Threlkeld 2026-03-04 left operative-note.pdf"), "").unwrap();
    check("Threlkeld", "Threlkeld 2026-03-04 left operative-note-2.pdf", "always a free one");
}

#[test]
fn the_ending_of_a_file_tells_its_form() {
    assert_eq!(PaperFormat::of_file(Path::new("a/b.PDF")).unwrap(), PaperFormat::Pdf, "capitals do not matter");
    assert_eq!(PaperFormat::of_file(Path::new("a.b.md")).unwrap(), PaperFormat::Markdown, "the last one counts");
    let sentence = refused(PaperFormat::of_file(Path::new("note.doc")), ErrorCode::Failed);
    assert_eq!(sentence, "note.doc: a paper's file ends in one of .pdf, .md, .txt, .html; choose one of them.");
    refused(PaperFormat::of_file(Path::new("pdf")), ErrorCode::Failed);
}

fn names_in(folder: &Path) -> Vec<String> {
    std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect()
}
