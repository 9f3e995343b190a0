//! Each page of each PDF, read back with poppler.

use evengap_papers::{Fonts, Kind, Occasion, Page, render};
use evengap_tests::{FONTS, demos, occasion, paper, pdftotext, unwrapped};

#[test]
fn every_page_carries_identity_marks_and_page_number() {
    for (name, case) in demos() {
        for kind in Kind::ALL {
            for page in [Page::A4, Page::Letter] {
                let paper = render(&case, kind, &Occasion { page, ..occasion() }).unwrap();
                let pdf = paper.pdf(&FONTS).unwrap();
                let text = pdftotext(&pdf.bytes);
                let pages: Vec<_> = text.split_terminator('\u{c}').map(unwrapped).collect();
                assert_eq!(pages.len(), pdf.pages, "{name}: the writer knows how many pages it wrote");
                for (at, text) in pages.iter().enumerate() {
                    let number = format!("Page {} of {}", at + 1, pages.len());
                    let patient = unwrapped(&paper.document.head[0].value);
                    for words in [
                        patient.as_str(),
                        &number,
                        "Side",
                        "Demonstration: invented patient",
                        "DRAFT, NOT SIGNED",
                        kind.name(),
                    ] {
                        assert!(text.contains(words), "{name}, {}: page {} lacks “{words}”", kind.name(), at + 1);
                    }
                }
            }
        }
    }
}

#[test]
fn no_character_of_a_demo_is_lost() {
    for (name, case) in demos() {
        for kind in Kind::ALL {
            let pdf = paper(&case, kind).pdf(&FONTS).unwrap();
            assert!(pdf.warnings.is_empty(), "{name}, {}: {:?}", kind.name(), pdf.warnings);
        }
    }
}

#[test]
fn the_same_entry_gives_the_same_bytes() {
    let fresh = Fonts::built_in().unwrap();
    for (name, case) in demos() {
        for kind in Kind::ALL {
            let first = paper(&case, kind).pdf(&FONTS).unwrap().bytes;
            let second = paper(&case, kind).pdf(&fresh).unwrap().bytes;
            assert!(first == second, "{name}, {}: two writings differ", kind.name());
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

#[test]
fn cautions_stand_in_every_letter() {
    for (name, case) in demos() {
        let text = unwrapped(&paper(&case, Kind::DischargeLetter).text());
        for caution in [
            "Call an ambulance at once: telephone 112",
            "short of breath",
            "your chest hurts",
            "cough up blood",
            "Call us the same day",
            "calf is swollen, warm and sore",
            "the wound leaks",
            "redness round the wound spreads",
            "the pain gets worse",
            "fever is above 38 °C",
            "Do not take antibiotics for your wound before your knee team has seen it.",
            "Your own team's instructions come first.",
        ] {
            assert!(text.contains(caution), "{name}: the letter must say “{caution}”");
        }
    }
}
