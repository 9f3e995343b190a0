//! What an entry was signed in spite of: the whole way from the demo case to its papers.

use evengap_case::Case;
use evengap_papers::{Kind, Occasion, Paper, Standing, render};
use evengap_tests::{FINGERPRINT, FONTS, demo, occasion, pdftotext, unwrapped};

/// The demo with a screw that had expired.
const EXPIRED: &str = "fracture-during-operation";
const FINDING: &str = "expired on 2026-07-31, before the operation on 2026-08-20.";

fn signed(case: &Case, kind: Kind) -> Paper {
    let (by, at) = ("Mr Tobias Fenwright".into(), "2026-08-20T17:06".parse().unwrap());
    let standing = Standing::Signed { by, at, fingerprint: Some(FINGERPRINT.to_owned()) };
    render(case, kind, &Occasion { standing, ..occasion() }).unwrap_or_else(|error| panic!("{error}"))
}

fn words(paper: &Paper) -> String {
    unwrapped(&pdftotext(&paper.pdf(&FONTS).unwrap().bytes))
}

#[test]
fn the_note_prints_finding_reason_author_time_and_fingerprint() {
    let note = words(&signed(&demo(EXPIRED), Kind::OperativeNote));
    for said in [
        "Signed in spite of these findings",
        FINDING,
        "Reason, given by Mr Tobias Fenwright on 20 August 2026 at 17:05: Seen only when the label was typed in",
        "Rule: component expired; about: Components, no. 7, Expires on.",
        "Signed by Mr Tobias Fenwright on 20 August 2026 at 17:06.",
        "Fingerprint of this version: 3f9a 01bc 77d2 8e10.",
    ] {
        assert_eq!(note.matches(said).count(), 1, "“{said}” once in {note}");
    }
}

#[test]
fn an_overridden_finding_keeps_no_paper_back_and_stands_on_no_letter() {
    let case = demo(EXPIRED);
    let open = Case { overrides: Vec::new(), ..case.clone() };
    for kind in [Kind::DischargeLetter, Kind::ClinicianLetter, Kind::ComponentRecord] {
        let paper = signed(&case, kind);
        assert_eq!(paper.unfinished, [""; 0], "{}: signed in spite of it", kind.name());
        assert!(!words(&paper).contains("in spite of"), "{} speaks of the knee, not of the signature", kind.name());
        // The patient's letter does not print components.
        let expected = usize::from(kind != Kind::DischargeLetter);
        let reasons = signed(&open, kind).unfinished;
        assert_eq!(
            reasons.iter().filter(|one| one.contains(FINDING)).count(),
            expected,
            "{}: {reasons:?}",
            kind.name()
        );
    }
}

#[test]
fn unconfirmed_answers_keep_every_paper_back_that_prints_them() {
    let mut case = demo("whole-knee-cemented");
    case.filled = vec![evengap_case::SectionName::Aftercare];
    case.confirmed.retain(|name| *name != evengap_case::SectionName::Aftercare);
    let said = "Usual answers were filled into “aftercare”; nobody has confirmed them.";
    for (kind, expected) in [(Kind::DischargeLetter, 1), (Kind::ClinicianLetter, 1), (Kind::ComponentRecord, 0)] {
        let reasons = signed(&case, kind).unfinished;
        assert_eq!(reasons.iter().filter(|one| *one == said).count(), expected, "{}: {reasons:?}", kind.name());
    }
    let note = words(&signed(&case, Kind::OperativeNote));
    assert!(note.contains("nobody has confirmed them: aftercare."), "the note says so as well");
}
