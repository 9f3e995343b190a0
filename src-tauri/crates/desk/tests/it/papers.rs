//! Papers on the screen and in files.

use std::path::Path;

use evengap_desk::{
    Addendum, AddendumAsked, Desk, ErrorCode, PageSize, PaperAsked, PaperFormat, PaperKind, PaperLanguage,
};
use serde_json::json;

use crate::bench::{PASSPHRASE, at, desk_in, entry, folder, refused};

fn asked(kind: PaperKind) -> PaperAsked {
    let asked = PaperAsked::new(entry(1, "Threlkeld"), kind);
    let Ok(before) = evengap_case::read_value(asked.case.clone()) else { panic!("the entry of these tests is one") };
    let addendum = Addendum {
        number: 1,
        text: "The lot was read again.".into(),
        by: "Ms Orla Quill".into(),
        at: at("07:00"),
        before: before.case,
    };
    match kind {
        PaperKind::Addendum => PaperAsked { addendum: Some(AddendumAsked::Given(Box::new(addendum))), ..asked },
        _ => asked,
    }
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
    let mut desk = Desk::new();
    for kind in PaperKind::ALL {
        for (format, begins) in [
            (PaperFormat::Pdf, "%PDF-"),
            (PaperFormat::Markdown, "**"),
            (PaperFormat::Text, ""),
            (PaperFormat::Html, "<!"),
        ] {
            let mut print = || desk.paper_print(asked(kind), format, at("08:00")).unwrap().bytes;
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
    let mut desk = Desk::new();
    let to = folder.path().join("note.txt");
    let mut export = |replace: bool| {
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
    let mut desk = Desk::new();
    let mut export =
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
        let asked = PaperAsked::new(entry(1, family), PaperKind::OperativeNote);
        let path = desk.paper_suggest_path(folder.path(), &asked, PaperFormat::Pdf).unwrap();
        assert_eq!(path, folder.path().join(expected), "{why}");
    };
    check("Threlkeld", "Threlkeld 2026-03-04 left operative-note.pdf", "person, day, side, paper");
    check("Nguyễn", "Nguyễn 2026-03-04 left operative-note.pdf", "letters of every script may stay");
    check("../../etc: <a|b>", "etc a b 2026-03-04 left operative-note.pdf", "signs that no file name can hold");
    check(" \t", "2026-03-04 left operative-note.pdf", "without a name");
    std::fs::write(folder.path().join("Threlkeld 2026-03-04 left operative-note.pdf"), "").unwrap();
    check("Threlkeld", "Threlkeld 2026-03-04 left operative-note-2.pdf", "always a free one");
    let check = |asked: PaperAsked, expected: &str, why: &str| {
        let path = desk.paper_suggest_path(folder.path(), &asked, PaperFormat::Pdf).unwrap();
        assert_eq!(path, folder.path().join(expected), "{why}");
    };
    let letter = PaperAsked { language: PaperLanguage::De, ..asked(PaperKind::DischargeLetter) };
    check(letter, "Threlkeld 2026-03-04 left discharge-letter de.pdf", "a language that is not the usual one");
    let card = PaperAsked { page: PageSize::Wallet, ..asked(PaperKind::ComponentRecord) };
    check(card, "Threlkeld 2026-03-04 left component-record wallet.pdf", "a sheet that is not the usual one");
    let second = PaperAsked { addendum: Some(AddendumAsked::Stored(2)), ..asked(PaperKind::Addendum) };
    check(second, "Threlkeld 2026-03-04 left addendum 2.pdf", "the number of the addendum");
}

#[test]
fn a_paper_that_does_not_exist_so_is_refused() {
    let check = |asked: PaperAsked, expected: &str| {
        let sentence = refused(Desk::new().paper_preview(asked, at("08:00")), ErrorCode::Refused);
        assert_eq!(sentence, expected);
    };
    check(
        PaperAsked { language: PaperLanguage::Es, ..asked(PaperKind::OperativeNote) },
        "The operative note cannot be written in Español; it is written in English.",
    );
    check(
        PaperAsked { page: PageSize::Wallet, ..asked(PaperKind::DischargeLetter) },
        "The discharge letter does not fit a wallet card; only the component record does. Choose A4 or Letter.",
    );
    check(
        PaperAsked::new(entry(1, "Threlkeld"), PaperKind::Addendum),
        "There is no such addendum. Only a signed entry has addenda; add one before printing it.",
    );
}

#[test]
fn a_letter_for_the_patient_says_how_it_reads() {
    let read = |kind, language| {
        let asked = PaperAsked { language, ..asked(kind) };
        Desk::new().paper_preview(asked, at("08:00")).unwrap().reading
    };
    let english = read(PaperKind::DischargeLetter, PaperLanguage::En).unwrap();
    assert!(english.words > 100 && english.sentences > 10, "the whole letter is counted: {english:?}");
    assert_eq!((english.limits.flesch_kincaid_grade, english.limits.smog_grade), (6.0, 8.0), "with its limits");
    assert!(!english.costly.is_empty(), "with the sentences that cost most");
    let mut hard = english.costly.iter().flat_map(|sentence| &sentence.hard_words);
    assert!(hard.all(|word| !word.ends_with(['.', ',', ')'])), "and their hard words, as words: {english:?}");
    assert!(english.formulas.iter().all(|formula| formula.source.contains("(published)")), "and where it comes from");
    let letters = "W words, S sentences, Y syllables, P words of 3 or more syllables";
    let formulas: Vec<_> = english.formulas.iter().map(|formula| formula.formula.as_str()).collect();
    let expected =
        ["0.39 W/S + 11.8 Y/W − 15.59", "3.1291 + 1.0430 √(P × 30/S)"].map(|grade| format!("{grade}; {letters}"));
    assert_eq!(formulas, expected, "each grade with its own formula and what its letters mean");
    assert_eq!(read(PaperKind::DischargeLetter, PaperLanguage::De), None, "the formulas are made for English");
    assert_eq!(read(PaperKind::OperativeNote, PaperLanguage::En), None, "a note is not for the patient");
}

#[test]
fn hard_words_are_shown_without_their_signs() {
    let mut asked = asked(PaperKind::DischargeLetter);
    let typed = "(Consultant, \u{201c}orthopaedic\u{201d} physiotherapist's registration\u{2026}) unforgettable!";
    asked.case["aftercare"] = json!({ "instructions": typed });
    let reading = Desk::new().paper_preview(asked, at("08:00")).unwrap().reading.unwrap();
    let sentence = reading.costly.iter().find(|sentence| sentence.text.contains("Consultant")).unwrap();
    let expected = ["Consultant", "orthopaedic", "physiotherapist's", "registration", "unforgettable"];
    assert_eq!(sentence.hard_words, expected, "of the sentence {:?}", sentence.text);
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

#[test]
fn no_paper_takes_the_place_of_a_notebook() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    let check = |desk: &mut Desk, name: &str, said: &str| {
        let to = folder.path().join(name);
        let before = std::fs::read(&to).ok();
        let outcome = desk.paper_export(asked(PaperKind::OperativeNote), PaperFormat::Pdf, &to, true, at("08:00"));
        let Err(error) = outcome else { panic!("{name} was written") };
        assert!(error.message.contains(said), "{name}: {}", error.message);
        assert_eq!(std::fs::read(&to).ok(), before, "{name} is as it was");
    };
    for name in ["knees.evengap", "knees.evengap-journal", "other.evengap", "note"] {
        check(&mut desk, name, "a paper's file ends in one of");
    }
    check(&mut desk, "note.txt", "choose a name that ends in .pdf");
    desk.notebook_create(&folder.path().join("odd.pdf"), PASSPHRASE, "Ms Orla Quill", at("08:00")).unwrap();
    check(&mut desk, "odd.pdf", "this is the open notebook");
    let around = format!("../{}/odd.pdf", folder.path().file_name().unwrap().to_string_lossy());
    check(&mut desk, &around, "this is the open notebook");
    let asked = evengap_desk::BatchAsked {
        ids: vec![],
        kinds: vec![PaperKind::OperativeNote],
        language: Default::default(),
        page: Default::default(),
        to: evengap_desk::BatchTo::File(folder.path().join("odd.pdf").to_string_lossy().into_owned()),
        replace: true,
    };
    let sentence = refused(desk.papers_batch(asked, at("08:00"), |_| true), ErrorCode::Refused);
    assert!(sentence.contains("this is the open notebook"), "one PDF for all: {sentence}");
    assert!(desk.case_show("Tuesday").is_err() && desk.cases_find("").unwrap().is_empty(), "the notebook can be read");
}
