//! Backups and restoring.

use std::fs;
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};

use evengap_door::faults::Verdict;
use evengap_notebook::{NotebookError, RestoreReport, restore};

use crate::bench::{Bench, WORDS, at, id, named, passphrase, save, sign};
use crate::people::{KEEPER, REGISTRAR, three, words};
use crate::refusing::refusing;

fn restored(from: &Path, to: &Path) -> Result<RestoreReport, NotebookError> {
    restore(from, &passphrase(), to, at("18:00"))
}

#[test]
fn a_backup_is_a_notebook() {
    let bench = Bench::new();
    let (mut notebook, ..) = three(&bench);
    sign(&mut notebook, &named(1, "Mavis", "Threlkeld"), &[], at("09:00")).unwrap();
    save(&mut notebook, &named(2, "Ivo", "Sandringford"), at("09:30")).unwrap();
    let to = bench.path("copy.evengap");
    let mut seen = Vec::new();
    let report = notebook
        .back_up()
        .run(&to, false, |done, total| {
            seen.push((done, total));
            true
        })
        .unwrap();
    assert_eq!((report.cases, report.signed, report.path.as_path()), (2, 1, to.as_path()), "what is in it");
    assert_eq!(report.bytes, fs::metadata(&to).unwrap().len(), "and how long it is");
    assert!(
        seen.last().is_some_and(|(done, total)| done == total && *total > 0),
        "progress comes to its end: {seen:?}"
    );
    assert_eq!(bench.everything().len(), 2, "nothing else is left in the folder");

    let error = notebook.back_up().run(&to, false, |_, _| true).unwrap_err();
    assert!(matches!(error, NotebookError::Exists(_)), "an older backup is not replaced unasked: {error}");
    save(&mut notebook, &named(3, "Ada", "Moss"), at("10:00")).unwrap();
    assert_eq!(notebook.back_up().run(&to, true, |_, _| true).unwrap().cases, 3, "but is when asked");
    let error = notebook.back_up().run(&bench.file(), true, |_, _| true).unwrap_err();
    assert!(matches!(error, NotebookError::OntoItself(_)), "never the notebook itself: {error}");
    drop(notebook);

    let error = restored(&to, &bench.file()).unwrap_err();
    assert!(matches!(error, NotebookError::Exists(_)), "restoring never overwrites: {error}");
    let new = bench.path("again.evengap");
    let before = fs::read(&to).unwrap();
    let report = restored(&to, &new).unwrap();
    let told = (report.cases, report.drafts, report.signed, report.addenda, report.papers, report.people);
    assert_eq!(told, (3, 2, 1, 0, 0, 3), "what was restored");
    assert_eq!(
        (report.newest.as_deref(), report.converted),
        (Some("2026-06-30T10:00"), false),
        "and when it was saved"
    );
    assert_eq!((report.verified.problems.len(), report.verified.entries), (0, 3), "and all of it was looked at");
    assert_eq!(fs::read(&to).unwrap(), before, "the backup stays as it was");
    for typed in [WORDS, REGISTRAR, KEEPER] {
        let opened = evengap_notebook::Notebook::open(&new, &words(typed), at("18:01")).unwrap();
        assert_eq!(opened.count().unwrap(), 3, "everybody opens the restored notebook");
    }
}

#[test]
fn what_cannot_be_restored_leaves_nothing() {
    let bench = Bench::new();
    drop(bench.notebook([named(1, "Mavis", "Threlkeld")]));
    let new = bench.path("again.evengap");
    let error = restore(&bench.file(), &words("not this one, surely"), &new, at("18:00")).unwrap_err();
    assert!(matches!(error, NotebookError::WrongPassphrase(_)), "a wrong passphrase: {error}");
    let mut bytes = fs::read(bench.file()).unwrap();
    let middle = bytes.len() - 2000;
    bytes[middle] ^= 1;
    fs::write(bench.file(), &bytes).unwrap();
    let error = restored(&bench.file(), &new).unwrap_err().to_string();
    let named = bench.file().display().to_string();
    assert!(error.starts_with(&format!("{named} is damaged")), "damage is said of the backup: {error}");
    let error = restored(&bench.path("none.evengap"), &new).unwrap_err();
    assert!(matches!(error, NotebookError::Missing(_)), "no backup there: {error}");
    assert_eq!(bench.everything().len(), 1, "no half notebook is left");
}

#[test]
fn a_backup_that_is_stopped_leaves_nothing() {
    let bench = Bench::new();
    let notebook = bench.notebook((1..50).map(|n| named(n, "Mavis", "Threlkeld")));
    let to = bench.path("copy.evengap");
    let error = notebook.back_up().run(&to, false, |_, _| false).unwrap_err();
    assert!(matches!(error, NotebookError::Stopped(_)), "{error}");
    assert_eq!(bench.everything().len(), 1, "nothing is left");
    fs::write(&to, "an older backup").unwrap();
    notebook.back_up().run(&to, true, |_, _| false).unwrap_err();
    assert_eq!(fs::read_to_string(&to).unwrap(), "an older backup", "and one from before stays");
    let error = notebook.back_up().run(&bench.path("no such folder/copy.evengap"), false, |_, _| true).unwrap_err();
    assert!(matches!(error, NotebookError::NoFolder(_)), "{error}");
}

#[test]
fn backups_while_somebody_saves() {
    let bench = Bench::new();
    let mut notebook = bench.notebook((1..400).map(|n| named(n, "Mavis", "Threlkeld")));
    let job = notebook.back_up();
    let done = AtomicBool::new(false);
    let to = bench.path("copy.evengap");
    std::thread::scope(|scope| {
        let backups = scope.spawn(|| {
            let made: Vec<u32> = (0..3).map(|_| job.run(&to, true, |_, _| true).unwrap().cases).collect();
            done.store(true, Ordering::Relaxed);
            made
        });
        let mut n = 400;
        while !done.load(Ordering::Relaxed) {
            save(&mut notebook, &named(n, "Ivo", "Sandringford"), at("09:00")).unwrap();
            n += 1;
        }
        let made = backups.join().unwrap();
        assert!(made.iter().all(|cases| (399..u32::try_from(n).unwrap()).contains(cases)), "whole each time: {made:?}");
    });
    assert!(notebook.count().unwrap() >= 399, "and every save went in");
    assert_eq!(restored(&to, &bench.path("again.evengap")).unwrap().signed, 0, "the last one can be restored");
    assert_eq!(notebook.show(id(1)).unwrap().by, "Ms Orla Quill", "the notebook goes on");
}

#[test]
fn a_job_from_before_a_removal_has_no_key() {
    let bench = Bench::new();
    let (mut notebook, registrar, _) = three(&bench);
    let job = notebook.back_up();
    notebook.remove_person(registrar, at("09:00")).unwrap();
    let error = job.run(&bench.path("copy.evengap"), false, |_, _| true).unwrap_err();
    assert!(matches!(error, NotebookError::KeyChanged(_)), "{error}");
    assert_eq!(bench.everything().len(), 1, "and nothing was left");
    notebook.back_up().run(&bench.path("copy.evengap"), false, |_, _| true).unwrap();
}

#[test]
fn a_journal_that_waits_there_is_in_the_way() {
    let bench = Bench::new();
    let notebook = bench.notebook([named(1, "Mavis", "Threlkeld")]);
    fs::write(bench.path("copy.evengap-journal"), "of a file that was moved away").unwrap();
    let error = notebook.back_up().run(&bench.path("copy.evengap"), false, |_, _| true).unwrap_err();
    assert!(error.to_string().contains("copy.evengap-journal exists already"), "it is not of these pages: {error}");
    assert_eq!(bench.everything().len(), 2, "and both stay away");
}

#[test]
fn a_disk_that_refuses_a_backup_is_told() {
    let bench = Bench::new();
    let notebook = bench.notebook((1..50).map(|n| named(n, "Mavis", "Threlkeld")));
    let to = bench.path("copy.evengap");
    let run = |number: usize, verdict: Verdict| {
        refusing(&bench, number, verdict, || notebook.back_up().run(&to, false, |_, _| true))
    };
    let (made, writes) = run(usize::MAX, Verdict::Go);
    made.unwrap();
    fs::remove_file(&to).unwrap();
    let before = bench.everything();
    for number in 1..=writes {
        let error = run(number, Verdict::Full).0.unwrap_err();
        assert!(matches!(error, NotebookError::Full(_)), "write {number} of {writes}: {error}");
        assert!(
            before == bench.everything(),
            "write {number} of {writes}: nothing is left, and the notebook is as it was"
        );
    }
}
