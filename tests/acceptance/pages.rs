//! Each page of each PDF, read back with poppler: whose it is, that nothing is lost, leaves the margins
//! or lies on something else, and that no heading ends a page.

use evengap_case::Case;
use evengap_papers::{Fonts, Kind, Occasion, Page, Paper, Standing, render};
use evengap_tests::{FONTS, demo, demos, occasion, paper, unwrapped, with_addendum};

use crate::boxes;

/// The sheets that a paper is printed on.
fn sheets(kind: Kind) -> &'static [Page] {
    match kind {
        Kind::ComponentRecord => &[Page::A4, Page::Letter, Page::Wallet],
        _ => &[Page::A4, Page::Letter],
    }
}

/// Writes every paper of an entry in every language, for every sheet, with what it is.
fn papers(name: &str, case: &Case) -> Vec<(String, Paper)> {
    let mut papers = Vec::new();
    for kind in Kind::ALL {
        for language in kind.languages() {
            let (case, occasion) = match kind {
                Kind::Addendum => with_addendum(name, case),
                _ => (case.clone(), Occasion { language: *language, ..occasion() }),
            };
            for page in sheets(kind) {
                let what = format!("{name}, {}, {}, {page:?}", kind.name(), language.code());
                papers.push((what, render(&case, kind, &Occasion { page: *page, ..occasion.clone() }).unwrap()));
            }
        }
    }
    papers
}

/// Sets every paper and checks each of its pages.
fn check(papers: &[(String, Paper)]) {
    for (what, paper) in papers {
        boxes::check(&paper.document, &paper.pdf(&FONTS).unwrap(), what);
    }
}

#[test]
fn every_page_of_every_paper_is_whole_and_says_whose_it_is() {
    let demos = demos();
    std::thread::scope(|scope| {
        for (name, case) in &demos {
            scope.spawn(move || check(&papers(name, case)));
        }
    });
}

#[test]
fn the_head_and_foot_of_each_paper_hold_what_they_must() {
    for (name, case) in demos() {
        for (what, paper) in papers(&name, &case) {
            let document = &paper.document;
            let labels: Vec<&str> = document.head.iter().map(|fact| fact.label.as_str()).collect();
            assert_eq!(labels.len(), 4, "{what}: name, birth date, hospital number and side: {labels:?}");
            assert!(document.demonstration, "{what}: the patient is invented");
            for wanted in [paper.kind.name(), "Maren Oakshott", "2026", "14:05"] {
                assert!(document.foot.contains(wanted), "{what}: the foot {:?} lacks {wanted:?}", document.foot);
            }
        }
    }
}

#[test]
fn a_signed_paper_keeps_its_pages_without_the_mark() {
    let standing =
        Standing::Signed { by: "Maren Oakshott".into(), at: "2026-11-20T14:00".parse().unwrap(), fingerprint: None };
    for kind in Kind::ALL {
        let occasion = Occasion { standing: standing.clone(), ..occasion() };
        let paper = render(&demo("whole-knee-cemented"), kind, &occasion).unwrap();
        assert_eq!(paper.document.mark, None, "{}: a signed paper is no draft", kind.name());
        check(&[(format!("signed {}", kind.name()), paper)]);
    }
}

/// An entry whose answers are far larger than life.
fn large(name: &str) -> Case {
    let mut case = demo(name);
    case.patient.given_name = Some("Maximiliane-Þórarna Wilhelmina ".repeat(6).trim().to_owned());
    case.patient.family_name = Some("Ōtsuka-Łukasiewicz-Παπαδοπούλου ".repeat(4).trim().to_owned());
    case.patient.hospital_number = Some("LH-204417-".repeat(9));
    let words: Vec<String> = (0..3000).map(|n| format!("w{n:04}")).collect();
    case.approach.findings = Some(words.join(" "));
    let components = case.components.clone();
    case.components = components.iter().cycle().take(40).cloned().collect();
    for (n, component) in case.components.iter_mut().enumerate() {
        component.serial = Some(format!("SERIAL-{n:02}-{}", "0123456789".repeat(1 + n % 4)));
        // The label would say another serial number, and the paper that it is not finished.
        component.scan.raw = None;
    }
    case.components[7].name = Some("Unbroken".repeat(7));
    case
}

#[test]
fn an_entry_larger_than_life_is_laid_out_whole() {
    let case = large("whole-knee-cemented");
    check(&papers("whole-knee-cemented", &case));
    let note = paper(&case, Kind::OperativeNote);
    let text = boxes::squeezed(&note.text());
    assert!((0..3000).all(|n| text.contains(&format!("w{n:04}"))), "all 3,000 words of the findings are in the note");
    assert!((0..40).all(|n| text.contains(&format!("SERIAL-{n:02}-"))), "all 40 components are in the note");
}

#[test]
fn an_entry_with_nothing_in_it_is_laid_out() {
    let mut case = demo("half-filled-draft");
    case = Case { id: case.id, ..Case::default() };
    for kind in Kind::ALL {
        for language in kind.languages().iter().copied() {
            for page in sheets(kind) {
                let paper = render(&case, kind, &Occasion { page: *page, language, ..occasion() }).unwrap();
                check(&[(format!("empty {}, {}, {page:?}", kind.name(), language.code()), paper)]);
            }
        }
    }
}

#[test]
fn no_character_of_a_demo_is_lost() {
    for (name, case) in demos() {
        for (what, paper) in papers(&name, &case) {
            let pdf = paper.pdf(&FONTS).unwrap();
            assert!(pdf.warnings.is_empty(), "{what}: {:?}", pdf.warnings);
        }
    }
}

#[test]
fn the_same_entry_gives_the_same_bytes() {
    let fresh = Fonts::built_in().unwrap();
    for (name, case) in demos() {
        for ((what, first), (_, second)) in papers(&name, &case).iter().zip(papers(&name, &case)) {
            let (first, second) = (first.pdf(&FONTS).unwrap().bytes, second.pdf(&fresh).unwrap().bytes);
            assert!(first == second, "{what}: two writings differ");
        }
    }
}

#[test]
fn a_letter_without_a_telephone_number_says_that_it_is_not_finished() {
    for (name, mut case) in demos() {
        case.discharge.contact_phone = None;
        case.discharge.emergency_phone = None;
        let letter = paper(&case, Kind::DischargeLetter);
        let reason = "No telephone number is recorded that the patient can call.";
        assert!(letter.unfinished.iter().any(|why| why == reason), "{name}: the letter must know why");
        let text = unwrapped(&letter.text());
        assert!(text.contains("This letter is not finished. Do not hand it out."), "{name}: the letter must say so");
        assert!(text.contains(reason), "{name}: the letter must say why");
    }
}
