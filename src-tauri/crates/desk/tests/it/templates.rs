//! Own templates: saved only when good, in force at once, never a reason to lose a paper.

use evengap_desk::{Desk, ErrorCode, PageSize, PaperAsked, PaperFormat, PaperKind, PaperLanguage};
use evengap_notebook::{Notebook, Passphrase};

use crate::bench::{PASSPHRASE, at, desk_in, entry, finished, folder, refused, save};

const NOTE: PaperKind = PaperKind::OperativeNote;
const EN: PaperLanguage = PaperLanguage::En;
const GOOD: &str = "# Our own words\n\nThis is about {{ derived.patient_name }}.\n";
const BROKEN: &str = "# Our own words\n\nThis is about {{ patient.gven_name }}.\n";

fn html(desk: &Desk) -> String {
    desk.paper_preview(PaperAsked::new(entry(1, "Threlkeld"), NOTE), at("08:00")).unwrap().html
}

#[test]
fn every_paper_has_a_template() {
    let lines = Desk::new().templates().unwrap();
    let papers: usize = PaperKind::ALL.iter().map(|kind| kind.languages().len()).sum();
    assert_eq!(lines.len(), papers, "one for each paper and language");
    assert!(lines.iter().all(|line| !line.own && line.saved_at.is_none()), "without a notebook they are built in");
    let shown = Desk::new().template_show(PaperKind::DischargeLetter, PaperLanguage::De).unwrap();
    assert_eq!((shown.own, shown.name.as_str()), (false, "discharge-letter.de"));
    assert_eq!(shown.source, shown.built_in, "the text that comes with the program");
    refused(Desk::new().template_show(NOTE, PaperLanguage::De), ErrorCode::Refused);
}

#[test]
fn a_saved_template_is_in_force() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    let saved = desk.template_save(NOTE, EN, " Ours ", GOOD, at("09:00")).unwrap();
    assert_eq!((saved.own, saved.name.as_str(), saved.version), (true, "Ours", 1));
    assert!(html(&desk).contains("Our own words"), "papers are made with it");
    let preview = desk.paper_preview(PaperAsked::new(entry(1, "Threlkeld"), NOTE), at("08:00")).unwrap();
    assert_eq!((preview.template.as_str(), preview.warnings.len()), ("Ours, version 1", 0), "and say so");
    let line = desk.templates().unwrap().into_iter().find(|line| line.kind == NOTE).unwrap();
    assert_eq!((line.own, line.by.as_deref()), (true, Some("Ms Orla Quill")), "the list names who saved it");
    let letter = PaperAsked::new(entry(1, "Threlkeld"), PaperKind::ClinicianLetter);
    let other = desk.paper_preview(letter, at("08:00")).unwrap().html;
    assert!(!other.contains("Our own words"), "other papers are not concerned");
}

#[test]
fn a_broken_template_is_refused_with_its_place() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    desk.template_save(NOTE, EN, "Ours", GOOD, at("09:00")).unwrap();
    let error = desk.template_save(NOTE, EN, "Ours", BROKEN, at("10:00")).unwrap_err();
    assert_eq!(error.code, ErrorCode::Refused, "{}", error.message);
    let place = &error.places[0];
    assert_eq!(place.path, "3:26", "line and column: {}", place.message);
    assert!(place.message.contains("patient.given_name"), "the nearest name: {}", place.message);
    assert!(error.message.starts_with("The template was not saved; the one in force stays."), "{}", error.message);
    assert!(html(&desk).contains("Our own words"), "the last good one stays in force");
    assert_eq!(desk.template_history(NOTE, EN).unwrap().len(), 1, "and nothing was kept");
    for name in ["", " ", "\u{200B}\u{2060}", "two\nlines", &"x".repeat(61)] {
        let sentence = refused(desk.template_save(NOTE, EN, name, GOOD, at("10:00")), ErrorCode::Refused);
        assert!(sentence.starts_with("Name of the template:"), "{name:?}: {sentence}");
    }
    for name in ["operative-note", " Operative-Note ", "discharge-letter.de", "cautions"] {
        let sentence = refused(desk.template_save(NOTE, EN, name, GOOD, at("10:00")), ErrorCode::Refused);
        assert!(sentence.contains("is the name of a template that comes with the program"), "{name:?}: {sentence}");
        assert!(sentence.ends_with("Choose another name."), "and what to do: {sentence}");
    }
    refused(Desk::new().template_save(NOTE, EN, "Ours", GOOD, at("10:00")), ErrorCode::NotOpen);
}

#[test]
fn history_and_back_again() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    desk.template_save(NOTE, EN, "Ours", GOOD, at("09:00")).unwrap();
    desk.template_save(NOTE, EN, "Ours", &GOOD.replace("own", "other"), at("10:00")).unwrap();
    let in_force = |desk: &Desk| {
        let history = desk.template_history(NOTE, EN).unwrap();
        history.iter().map(|version| (version.version, version.in_force)).collect::<Vec<_>>()
    };
    assert_eq!(in_force(&desk), [(2, true), (1, false)], "the newest first");
    let shown = desk.template_restore(NOTE, EN, Some(1), at("11:00")).unwrap();
    assert_eq!((shown.version, shown.source.as_str()), (1, GOOD), "the first one again");
    assert!(html(&desk).contains("Our own words"), "on papers as well");
    let shown = desk.template_restore(NOTE, EN, None, at("12:00")).unwrap();
    assert_eq!((shown.own, &shown.source), (false, &shown.built_in), "the built-in one again");
    assert!(!html(&desk).contains("Our own words"), "on papers as well");
    assert_eq!(in_force(&desk), [(2, false), (1, false)], "nothing was lost");
    let sentence = refused(desk.template_restore(NOTE, EN, Some(9), at("13:00")), ErrorCode::Failed);
    assert_eq!(sentence, "There is no version 9 of an own template for the paper operative-note (en).");
}

#[test]
fn trying_keeps_nothing() {
    let folder = folder();
    let desk = desk_in(&folder);
    let attempt = |kind, source| desk.template_try(entry(1, "Threlkeld"), kind, EN, source, PageSize::A4, at("08:00"));
    let tried = attempt(NOTE, GOOD).unwrap();
    assert!(tried.html.unwrap().contains("This is about Mavis Threlkeld."), "the paper as it would be");
    assert_eq!(tried.flaws, [], "nothing is wrong with it");
    let tried = attempt(NOTE, BROKEN).unwrap();
    assert_eq!((tried.html, tried.flaws.len()), (None, 1), "a broken one gives its flaws");
    assert_eq!((tried.flaws[0].line, tried.flaws[0].column), (3, 26));
    let letter = attempt(PaperKind::DischargeLetter, "Dear {{ derived.patient_name }}.\n\n@cautions\n").unwrap();
    assert!(letter.reading.is_some(), "a letter says how it reads");
    assert!(attempt(PaperKind::Addendum, "{{ derived.patient_name }}").unwrap().html.is_some(), "on any entry");
    assert_eq!(desk.template_history(NOTE, EN).unwrap(), [], "nothing was saved");
}

#[test]
fn names_have_meanings_and_examples() {
    let desk = Desk::new();
    let names = desk.template_names(Some(entry(1, "Threlkeld")), NOTE, at("08:00")).unwrap();
    let family = names.iter().find(|name| name.name == "patient.family_name").unwrap();
    assert_eq!(family.example.as_deref(), Some("Threlkeld"), "what the open entry holds");
    assert!(names.iter().all(|name| !name.meaning.is_empty()), "each says what it means");
    let bare = desk.template_names(None, NOTE, at("08:00")).unwrap();
    assert_eq!(bare.len(), names.len(), "without an entry the same names");
    assert!(bare.iter().all(|name| name.example.is_none()), "without examples");
}

#[test]
fn a_template_that_no_longer_works_costs_no_paper() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    let case = finished();
    save(&mut desk, case.to_value(), at("08:00")).unwrap();
    desk.notebook_close().unwrap();
    // As if an older program had saved it, whose view had another name.
    let file = folder.path().join("knees.evengap");
    let mut notebook = Notebook::open(&file, &Passphrase::new(PASSPHRASE).unwrap(), at("08:00")).unwrap();
    notebook.template_save((NOTE.name(), EN.code()), "Ours", BROKEN, at("09:00")).unwrap();
    drop(notebook);
    desk.notebook_open(&file, PASSPHRASE, at("08:00")).unwrap();

    let asked = || PaperAsked::new(case.to_value(), NOTE);
    let preview = desk.paper_preview(asked(), at("10:00")).unwrap();
    let [warning] = &preview.warnings[..] else { panic!("one warning: {:?}", preview.warnings) };
    assert!(
        warning.starts_with("The own template Ours, version 1 could not be used, so the built-in one was."),
        "{warning}"
    );
    assert!(warning.contains("gven_name"), "it says why: {warning}");
    assert!(
        preview.template.starts_with("operative-note, version "),
        "the paper names the template that it was made with"
    );
    assert!(preview.html.contains("Medial"), "and is there: {}", preview.html);
    desk.case_sign(case.to_value(), &[], at("11:00")).unwrap();
    let printed = desk.paper_print(asked(), PaperFormat::Pdf, at("12:00")).unwrap();
    assert_eq!(printed.warnings, preview.warnings, "also of the paper that is kept");
}
