//! Papers of many cases at once.

use std::path::Path;

use evengap_desk::{
    BatchAsked, BatchProgress, BatchReport, BatchTo, Desk, ErrorCode, PageSize, PaperKind, PaperLanguage,
};
use tempfile::TempDir;

use crate::bench::{at, entry, folder, id, refused, save};

/// A desk with every demonstration case, and their identifiers.
fn desk_with_all(folder: &TempDir) -> (Desk, Vec<String>) {
    let mut desk = Desk::new();
    desk.notebook_open_demonstration(folder.path(), at("08:00")).unwrap();
    let ids = desk.demo_cases().unwrap().into_iter().map(|(_, case)| case.id.to_string()).collect();
    (desk, ids)
}

fn letters(ids: &[String], to: BatchTo) -> BatchAsked {
    BatchAsked {
        ids: ids.to_vec(),
        kinds: vec![PaperKind::DischargeLetter],
        language: PaperLanguage::En,
        page: PageSize::A4,
        to,
        replace: false,
    }
}

fn into(folder: &Path) -> BatchTo {
    BatchTo::Folder(folder.to_string_lossy().into_owned())
}

fn run(desk: &mut Desk, asked: BatchAsked) -> BatchReport {
    desk.papers_batch(asked, at("08:00"), |_| true).unwrap()
}

#[test]
fn every_case_into_a_folder() {
    let folder = folder();
    let (mut desk, ids) = desk_with_all(&folder);
    let to = folder.path().join("made/as needed");
    let mut told = Vec::new();
    let kinds = vec![PaperKind::DischargeLetter, PaperKind::ComponentRecord];
    let asked = BatchAsked { kinds, ..letters(&ids, into(&to)) };
    let report = desk
        .papers_batch(asked, at("08:00"), |BatchProgress { done, total }| {
            told.push((done, total));
            true
        })
        .unwrap();
    assert_eq!((&report.failed[..], report.cancelled), (&[][..], false), "all of them");
    assert_eq!(report.written.len(), ids.len() * 2, "two papers each");
    let total = u32::try_from(ids.len()).unwrap();
    assert_eq!(told, (0..=total).map(|done| (done, total)).collect::<Vec<_>>(), "told after each case");
    let files: std::collections::BTreeSet<_> = report.written.iter().map(|paper| &paper.path).collect();
    assert_eq!(files.len(), report.written.len(), "each paper has a file of its own");
    for file in files {
        assert!(std::fs::read(file).unwrap().starts_with(b"%PDF-"), "{file} is one");
    }
}

#[test]
fn every_case_into_one_file() {
    let folder = folder();
    let (mut desk, ids) = desk_with_all(&folder);
    let file = folder.path().join("letters.pdf").to_string_lossy().into_owned();
    let report = run(&mut desk, letters(&ids, BatchTo::File(file.clone())));
    assert_eq!((report.written.len(), report.failed.len()), (ids.len(), 0), "all of them");
    assert!(report.written.iter().all(|paper| paper.path == file), "all in the one file");
    let bytes = std::fs::read(&file).unwrap();
    assert!(bytes.starts_with(b"%PDF-"));
    let sentence = refused(
        desk.papers_batch(letters(&ids, BatchTo::File(file.clone())), at("09:00"), |_| panic!("it went on")),
        ErrorCode::Exists,
    );
    assert_eq!(sentence, format!("{file} exists already. Replace it, or choose another name."), "before the work");
    let replaced = run(&mut desk, BatchAsked { replace: true, ..letters(&ids[..1], BatchTo::File(file.clone())) });
    assert_eq!(replaced.written.len(), 1);
    assert!(std::fs::read(&file).unwrap().len() < bytes.len(), "told to, it replaces");
}

#[test]
fn stopped_after_three() {
    let folder = folder();
    let (mut desk, ids) = desk_with_all(&folder);
    let stop = |BatchProgress { done, .. }: BatchProgress| done < 3;
    let report = desk.papers_batch(letters(&ids, into(&folder.path().join("out"))), at("08:00"), stop).unwrap();
    assert_eq!((report.written.len(), report.cancelled), (3, true), "what was written stays");
    assert_eq!(std::fs::read_dir(folder.path().join("out")).unwrap().count(), 3, "and no half file");
    let file = folder.path().join("letters.pdf");
    let asked = letters(&ids, BatchTo::File(file.to_string_lossy().into_owned()));
    let report = desk.papers_batch(asked, at("08:00"), stop).unwrap();
    assert_eq!((report.written.len(), report.cancelled, file.exists()), (0, true, false), "one file is whole or not");
}

#[test]
fn one_bad_case_never_stops_the_others() {
    let folder = folder();
    let (mut desk, mut ids) = desk_with_all(&folder);
    ids.truncate(4);
    ids.insert(2, id(99).to_string());
    ids.push("Tuesday".into());
    let report = run(&mut desk, letters(&ids, into(&folder.path().join("out"))));
    assert_eq!(report.written.len(), 4, "the others are there");
    let failed: Vec<_> = report.failed.iter().map(|failed| failed.id.as_str()).collect();
    assert_eq!(failed, [id(99).to_string().as_str(), "Tuesday"], "each bad one is named");
    assert!(report.failed[0].message.starts_with("The notebook holds no entry"), "{}", report.failed[0].message);
    assert!(!report.cancelled, "it went to its end");
}

#[test]
fn nothing_is_replaced_in_silence() {
    let folder = folder();
    let mut desk = crate::bench::desk_in(&folder);
    for n in 1..=3 {
        save(&mut desk, entry(n, if n == 3 { "THRELKELD" } else { "Threlkeld" }), at("08:00")).unwrap();
    }
    let ids: Vec<String> = (1..=3).map(|n| id(n).to_string()).collect();
    let out = folder.path().join("out");
    let report = run(&mut desk, letters(&ids, into(&out)));
    let names: Vec<_> = report.written.iter().map(|paper| Path::new(&paper.path).file_name().unwrap()).collect();
    let stem = "2026-03-04 left discharge-letter.pdf";
    let number = |n: u32| format!("{n:032}");
    let expected = [
        format!("Threlkeld {} {stem}", number(1)),
        format!("Threlkeld {} {stem}", number(2)),
        format!("THRELKELD {} {stem}", number(3)),
    ];
    assert_eq!(names, expected.each_ref().map(std::ffi::OsStr::new), "people of one name do not share a file");
    std::fs::write(&report.written[0].path, "my own words").unwrap();
    let again = run(&mut desk, letters(&ids, into(&out)));
    assert_eq!((again.written.len(), again.failed.len()), (0, 3), "files that are there stay");
    assert!(again.failed[0].message.contains("exists already"), "{}", again.failed[0].message);
    assert_eq!(std::fs::read_to_string(&report.written[0].path).unwrap(), "my own words");
    let replaced = run(&mut desk, BatchAsked { replace: true, ..letters(&ids, into(&out)) });
    assert_eq!(replaced.written.len(), 3, "told to, it replaces");
}

#[test]
fn what_cannot_be_is_refused_before_the_work() {
    let folder = folder();
    let (mut desk, ids) = desk_with_all(&folder);
    let out = || into(&folder.path().join("out"));
    let mut check = |asked: BatchAsked, expected: &str| {
        let outcome = desk.papers_batch(asked, at("08:00"), |_| panic!("it went on"));
        let Err(error) = outcome else { panic!("expected: {expected}") };
        assert!(error.message.contains(expected), "{}", error.message);
    };
    let note = vec![PaperKind::DischargeLetter, PaperKind::OperativeNote];
    check(
        BatchAsked { language: PaperLanguage::De, kinds: note, ..letters(&ids, out()) },
        "The operative note cannot be written in Deutsch; it is written in English.",
    );
    check(BatchAsked { page: PageSize::Wallet, ..letters(&ids, out()) }, "does not fit a wallet card");
    check(BatchAsked { kinds: vec![], ..letters(&ids, out()) }, "Choose at least one paper.");
    let text = folder.path().join("letters.txt").to_string_lossy().into_owned();
    check(letters(&ids, BatchTo::File(text)), "several papers in one file are a PDF");
    assert!(!folder.path().join("out").exists(), "nothing was made");
}

#[test]
fn every_addendum_and_nothing_for_those_without() {
    let folder = folder();
    let mut desk = crate::bench::desk_in(&folder);
    let case = crate::bench::finished();
    save(&mut desk, case.to_value(), at("08:00")).unwrap();
    save(&mut desk, entry(2, "Sandringford"), at("08:00")).unwrap();
    desk.case_sign(case.to_value(), &[], at("09:00")).unwrap();
    for (based_on, clock, text) in [(1, "10:00", "First."), (2, "11:00", "Second.")] {
        desk.case_addendum(case.to_value(), text, based_on, at(clock)).unwrap();
    }
    let ids = [case.id.to_string(), id(2).to_string()];
    let asked = BatchAsked { kinds: vec![PaperKind::Addendum], ..letters(&ids, into(&folder.path().join("out"))) };
    let report = run(&mut desk, asked);
    assert_eq!(report.written.len(), 2, "one paper for each addendum");
    assert!(report.written[1].path.ends_with("addendum 2.pdf"), "{}", report.written[1].path);
    assert_eq!(report.failed.len(), 1, "the other case has none");
    assert!(report.failed[0].message.contains("no addendum"), "{}", report.failed[0].message);
}

#[test]
fn one_file_says_that_it_is_not_what_is_kept_of_signed_entries() {
    let folder = folder();
    let mut desk = crate::bench::desk_in(&folder);
    let case = crate::bench::finished();
    save(&mut desk, case.to_value(), at("08:00")).unwrap();
    let ids = [case.id.to_string()];
    let file = BatchTo::File(folder.path().join("all.pdf").to_string_lossy().into_owned());
    let asked = |to: BatchTo| BatchAsked { replace: true, ..letters(&ids, to) };
    assert_eq!(run(&mut desk, asked(file.clone())).warnings, Vec::<String>::new(), "of drafts nothing is kept");
    desk.case_sign(case.to_value(), &[], at("09:00")).unwrap();
    let report = run(&mut desk, asked(file));
    let [warning] = &report.warnings[..] else { panic!("one warning: {:?}", report.warnings) };
    assert!(warning.starts_with("One PDF for all is set anew"), "{warning}");
    let report = run(&mut desk, asked(into(&folder.path().join("out"))));
    assert_eq!(report.warnings, Vec::<String>::new(), "a folder holds the kept papers");
}

#[test]
fn names_that_a_system_cannot_tell_apart_are_told_apart() {
    let folder = folder();
    let mut desk = crate::bench::desk_in(&folder);
    for (n, family) in [(1, "Müller"), (2, "Mu\u{308}ller"), (3, "MÜLLER")] {
        let mut case = entry(n, family);
        case["patient"]["hospital_number"] = "HN-7".into();
        save(&mut desk, case, at("08:00")).unwrap();
    }
    let ids: Vec<String> = (1..=3).map(|n| id(n).to_string()).collect();
    let report = run(&mut desk, letters(&ids, into(&folder.path().join("out"))));
    let ends: Vec<_> = report.written.iter().map(|paper| paper.path.rsplit_once(" HN-7 ").unwrap().1).collect();
    let stem = "2026-03-04 left discharge-letter";
    assert_eq!(ends, [format!("{stem}.pdf"), format!("{stem}-2.pdf"), format!("{stem}-3.pdf")], "one file each");
}

#[test]
fn another_notebook_stops_it() {
    let folder = folder();
    let mut desk = crate::bench::desk_in(&folder);
    for n in 1..=2 {
        save(&mut desk, entry(n, "Threlkeld"), at("08:00")).unwrap();
    }
    let ids: Vec<String> = (1..=2).map(|n| id(n).to_string()).collect();
    let asked = letters(&ids, into(&folder.path().join("out")));
    let mut batch = evengap_desk::Batch::begin(&desk, asked, at("08:00")).unwrap();
    assert!(batch.step(&mut desk), "the first case");
    let other = folder.path().join("other.evengap");
    desk.notebook_create(&other, crate::bench::PASSPHRASE, "Mr Idris Penhale", at("08:00")).unwrap();
    save(&mut desk, entry(2, "Somebody else"), at("08:00")).unwrap();
    assert!(!batch.step(&mut desk) && !batch.step(&mut desk), "an entry of another notebook is not its next");
    let report = batch.finish(&desk).unwrap();
    assert_eq!((report.written.len(), report.cancelled), (1, true), "it says that it did not come to its end");
    let [warning] = &report.warnings[..] else { panic!("said once: {:?}", report.warnings) };
    assert!(warning.contains("another one opened"), "{warning}");
}
