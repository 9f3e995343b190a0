//! Exchanges with notebooks that an older program made: converted when they are opened, then sent like any other.

use evengap_notebook::{Notebook, Outcome, PaperKey, State};

use crate::bench::{WORDS, at, id, named, sign};
use crate::exchange::{Ring, read, save};
use crate::older::notebook_of;
use crate::projections::cases;

fn outcomes(report: &evengap_notebook::ExchangeReport) -> Vec<Outcome> {
    report.cases.iter().map(|case| case.what).collect()
}

fn note(notebook: &Notebook) -> Option<Vec<u8>> {
    let key = PaperKey { id: id(5), number: 1, kind: "operative-note", language: "en", page: "a4" };
    notebook.kept_paper(key).unwrap().map(|paper| paper.bytes)
}

#[track_caller]
fn check(version: usize) {
    let bench = notebook_of(version, &cases());
    let mut old = bench.open(WORDS).unwrap();
    let mut ring = Ring::new();
    let mut clinic = ring.notebook("clinic");
    let report = ring.send(&old, &mut clinic);
    assert_eq!(outcomes(&report), [Outcome::New; 3], "version {version}: all of it can be sent");
    for case in cases() {
        let ([here, there], what) = ([&old, &clinic].map(|one| one.show(case.id).unwrap()), case.id);
        assert_eq!((here.case, here.state, here.node), (there.case, there.state, there.node), "{what}: the same");
        let lengths = [&old, &clinic].map(|one| one.history(case.id).unwrap().len());
        assert_eq!(lengths[0], lengths[1], "{what}: with the same history");
    }
    if version == 3 {
        let shown = clinic.show(id(5)).unwrap();
        assert_eq!((shown.state, shown.number), (State::Signed, 2), "what was signed is signed, and added to");
        assert_eq!(note(&clinic).as_deref(), Some(&b"paper"[..]), "with its paper, byte for byte");
    }
    assert_eq!(outcomes(&ring.send(&clinic, &mut old)), [Outcome::Same; 3], "sent back, it says nothing new");

    save(&mut clinic, &named(3, "Ivo", "Moss"), "10:00");
    sign(&mut clinic, &named(3, "Ivo", "Moss"), &[], at("10:30")).unwrap();
    let mut expected = [Outcome::Same; 3];
    expected[0] = Outcome::Newer;
    assert_eq!(outcomes(&ring.send(&clinic, &mut old)), expected, "what was written since follows from it");
    assert_eq!(old.show(id(3)).unwrap().state, State::Signed, "and was taken");
    drop(old);
    let old = bench.open(WORDS).unwrap();
    assert_eq!(old.verify().unwrap().problems, [] as [&str; 0], "version {version}: whole after it was opened again");
}

#[test]
fn of_the_first_version() {
    check(1);
}

#[test]
fn of_the_second_version() {
    check(2);
}

#[test]
fn of_the_third_version() {
    check(3);
}

/// One old notebook was copied, and each copy was opened with this program, on two computers.
#[test]
fn two_copies_of_one_older_notebook() {
    let [theatre, clinic] = [notebook_of(3, &cases()), notebook_of(3, &cases())];
    let [mut theatre, mut clinic] = [theatre.open(WORDS), clinic.open(WORDS)].map(Result::unwrap);
    let mut ring = Ring::new();
    let back = ring.file(&clinic);
    assert_eq!(outcomes(&ring.send(&theatre, &mut clinic)), [Outcome::Same; 3], "the same answers are no question");
    assert_eq!(outcomes(&read(&mut theatre, &back).unwrap()), [Outcome::Same; 3], "on neither side");
    assert_eq!((theatre.open_conflicts().unwrap(), clinic.open_conflicts().unwrap()), (0, 0), "nothing is open");
    assert_eq!(note(&clinic).as_deref(), Some(&b"paper"[..]), "the paper is kept once");
    save(&mut clinic, &named(3, "Ivo", "Moss"), "10:00");
    let report = ring.send(&clinic, &mut theatre);
    assert_eq!((report.newer, report.conflicts), (1, 0), "and a draft goes on in one history");
    assert_eq!(theatre.show(id(3)).unwrap().case, named(3, "Ivo", "Moss"), "which is the newer one");
}
