//! The built-in cases, as a notebook and as papers.

use std::collections::BTreeSet;
use std::path::Path;

use evengap_desk::{Desk, PaperAsked, PaperFormat, PaperKind, State};

use crate::bench::{at, folder, save};

#[test]
fn the_list_is_the_folder() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../demo-cases");
    let files: BTreeSet<String> = std::fs::read_dir(folder)
        .unwrap()
        .filter_map(|entry| entry.unwrap().file_name().to_str()?.strip_suffix(".json").map(str::to_owned))
        .collect();
    let cases = Desk::new().demo_cases().unwrap();
    let addenda: Vec<&str> = Desk::new().demo_addenda().unwrap().into_iter().map(|(name, _)| name).collect();
    assert_eq!(addenda, cases.iter().map(|(name, _)| *name).collect::<Vec<_>>(), "and an addendum to each");
    let listed: BTreeSet<String> = cases.iter().map(|(name, _)| (*name).to_owned()).collect();
    assert_eq!(listed, files, "every file of demo-cases is built in");
    let ids: BTreeSet<_> = cases.iter().map(|(_, case)| case.id).collect();
    assert_eq!(ids.len(), files.len(), "each with an identifier of its own");
}

#[test]
fn it_opens_and_opens_again() {
    let folder = folder();
    let data = folder.path().join("made").join("as needed");
    let mut desk = Desk::new();
    let state = desk.notebook_open_demonstration(&data, at("08:00")).unwrap();
    let all = u32::try_from(desk.demo_cases().unwrap().len()).unwrap();
    assert_eq!((state.demonstration, state.cases), (true, all), "marked, with every case");

    let (_, mut case) = desk.demo_cases().unwrap().swap_remove(0);
    case.patient.family_name = Some("Quibblethorpe".into());
    save(&mut desk, case.to_value(), at("08:10")).unwrap();
    desk.notebook_close().unwrap();
    let state = desk.notebook_open_demonstration(&data, at("09:00")).unwrap();
    assert_eq!((state.demonstration, state.cases), (true, all), "the same notebook");
    assert_eq!(desk.cases_find("quibblethorpe").unwrap().len(), 1, "with what somebody changed in it");
}

#[test]
fn signed_entries_can_be_looked_at() {
    let folder = folder();
    let mut desk = Desk::new();
    desk.notebook_open_demonstration(folder.path(), at("08:00")).unwrap();
    let signed = |desk: &Desk| {
        let lines = desk.cases_find("").unwrap().into_iter().filter(|line| line.state == State::Signed);
        lines.map(|line| (desk.case_addenda(&line.id).unwrap().len(), line.id)).collect::<Vec<_>>()
    };
    let first = signed(&desk);
    let addenda: Vec<_> = first.iter().map(|(addenda, _)| *addenda).collect();
    assert!(addenda.contains(&0) && addenda.contains(&1), "with and without addendum: {addenda:?}");
    let shown = desk.case_show(&first[0].1).unwrap();
    let asked = || PaperAsked::new(shown.case.to_value(), PaperKind::OperativeNote);
    let note = desk.paper_print(asked(), PaperFormat::Pdf, at("09:00")).unwrap().bytes;
    desk.notebook_open_demonstration(folder.path(), at("10:00")).unwrap();
    assert_eq!(signed(&desk), first, "opening it again adds nothing");
    let again = desk.paper_print(asked(), PaperFormat::Pdf, at("11:00")).unwrap().bytes;
    assert!(again == note, "the note is the one that was kept");
}

#[test]
fn no_patient_can_be_read_in_its_file() {
    let folder = folder();
    let mut desk = Desk::new();
    let state = desk.notebook_open_demonstration(folder.path(), at("08:00")).unwrap();
    let bytes = std::fs::read(state.path).unwrap();
    for (name, case) in desk.demo_cases().unwrap() {
        for secret in [case.patient.family_name, case.patient.hospital_number].into_iter().flatten() {
            let found = bytes.windows(secret.len()).any(|window| window == secret.as_bytes());
            assert!(!found, "{name}: “{secret}” stands in the file");
        }
    }
}

#[test]
fn its_papers_say_what_they_are() {
    let folder = folder();
    let mut desk = Desk::new();
    desk.notebook_open_demonstration(folder.path(), at("08:00")).unwrap();
    let (_, case) = desk.demo_cases().unwrap().swap_remove(0);
    let asked = PaperAsked::new(case.to_value(), PaperKind::OperativeNote);
    let preview = desk.paper_preview(asked.clone(), at("08:00")).unwrap();
    assert!(preview.html.contains("invented patient"), "a paper from the demonstration cannot hide it");
    let preview = Desk::new().paper_preview(asked, at("08:00")).unwrap();
    assert!(!preview.html.contains("invented patient"), "another paper does not claim it");
}

#[test]
fn every_paper_in_every_form() {
    let folder = folder();
    let mut desk = Desk::new();
    let written = desk.demo_write(folder.path(), at("08:00")).unwrap();
    // Seven papers with the letter's two other languages, in four forms, and the component record as a card.
    assert_eq!(written.len(), desk.demo_cases().unwrap().len() * (7 * 4 + 1), "every paper of each case");
    let names: BTreeSet<_> = written.iter().map(|paper| &paper.path).collect();
    assert_eq!(names.len(), written.len(), "each in a file of its own");
    for paper in &written {
        let bytes = std::fs::read(&paper.path).unwrap();
        let addendum = paper.path.contains("addendum");
        // The draft could not be signed, so there is nothing that its addendum adds to.
        let open = paper.path.contains("half-filled-draft");
        assert!(!addendum || paper.unfinished.is_empty() != open, "{}: {:?}", paper.path, paper.unfinished);
        assert!(bytes.len() > 500, "{} holds something", paper.path);
        if paper.path.ends_with(".txt") {
            let says = match paper.path.rsplit('.').nth(1) {
                Some("de") => "erfundene Person",
                Some("es") => "persona inventada",
                _ => "invented patient",
            };
            assert!(String::from_utf8(bytes).unwrap().contains(says), "{} says so", paper.path);
        }
    }
}
