//! What each of the papers must hold beside the operative note and the patient's letter.

use evengap_case::sections::Fate;
use evengap_case::{changes, read_value};
use evengap_papers::{Kind, Occasion, Page, Standing, render};
use evengap_tests::{FONTS, demo, demos, occasion, paper, unwrapped, with_addendum};
use serde_json::json;

#[test]
fn the_clinician_letter_of_a_finished_entry_is_one_page() {
    for (name, case) in demos() {
        for page in [Page::A4, Page::Letter] {
            let letter = render(&case, Kind::ClinicianLetter, &Occasion { page, ..occasion() }).unwrap();
            let draft = name == "half-filled-draft";
            assert_eq!(letter.unfinished.is_empty(), !draft, "{name}: unfinished {:?}", letter.unfinished);
            assert_eq!(letter.pdf(&FONTS).unwrap().pages, 1, "{name}: {page:?}");
            let standing = Standing::Signed {
                by: "Ms Maren Oakshott".into(),
                at: "2026-11-03T17:30".parse().unwrap(),
                fingerprint: None,
            };
            let signed = render(&case, Kind::ClinicianLetter, &Occasion { page, standing, ..occasion() }).unwrap();
            assert_eq!(signed.pdf(&FONTS).unwrap().pages, 1, "{name}: signed, {page:?}");
        }
    }
}

/// Joint Commission RC.02.04.01 EP 3, and what a family doctor goes on with.
#[test]
fn the_clinician_letter_says_what_a_discharge_summary_says() {
    let text = unwrapped(&paper(&demo("whole-knee-cemented"), Kind::ClinicianLetter).text());
    for (what, words) in [
        ("reason for hospitalization", "Primary osteoarthritis of the left knee (ICD-10 M17.1)."),
        ("procedure", "Left total knee replacement on 10 March 2026"),
        ("significant findings", "medial and patellofemoral, as before the operation"),
        ("events and what came of them", "Outcome: Pressure back to 120 mmHg within four minutes"),
        ("discharge condition", "Walks 40 metres and climbs stairs with two sticks."),
        ("destination", "Going to: Home, with her daughter."),
        ("result at discharge", "Haemoglobin 112 g/l (before 132 g/l)"),
        ("allergy", "Latex (itching rash of the hands)."),
        ("medicine with its last day", "Paracetamol: 1 g four times a day; last day 7 April 2026"),
        ("medicine without end", "Levothyroxine: 75 micrograms each morning, as before; no end recorded"),
        ("blood thinner with its last day", "Rivaroxaban 10 mg by mouth once a day; last day 23 March 2026."),
        ("patient and family instructions", "Driving: Do not drive for at least six weeks."),
        ("follow-up", "21 April 2026: Clinic visit at six weeks (Ms Maren Oakshott)"),
        ("component", "Fellgate cruciate-retaining femur, FG-FCR-5L, lot T228401"),
        ("who to call", "telephone 01632 960 114; day and night 01632 960 180."),
        ("attending's signature", "Ms Maren Oakshott: ____"),
    ] {
        assert!(text.contains(words), "{what}: the letter must say “{words}”");
    }
}

#[test]
fn a_letter_that_lacks_a_required_component_says_which() {
    let mut case = demo("whole-knee-cemented");
    case.discharge.condition = None;
    let letter = paper(&case, Kind::ClinicianLetter);
    let reason = "The condition at discharge is not recorded.";
    assert_eq!(letter.unfinished, [reason], "the letter knows what it lacks");
    let text = unwrapped(&letter.text());
    assert!(text.contains("This letter is not finished. Do not send it.") && text.contains(reason), "and says so");
}

#[test]
fn a_record_shows_what_is_in_the_knee_and_nothing_else_as_implanted() {
    for (name, case) in demos() {
        for page in [Page::A4, Page::Wallet] {
            let record = render(&case, Kind::ComponentRecord, &Occasion { page, ..occasion() }).unwrap();
            let text = unwrapped(&record.text());
            let (implanted, removed) = text.split_once("Removed at this operation").unwrap_or((&text, ""));
            for component in &case.components {
                let Some(lot) = component.lot.as_deref() else { continue };
                let is_in = component.fate == Some(Fate::Implanted);
                assert_eq!(implanted.contains(lot), is_in, "{name}, {page:?}: lot {lot}");
                let was_removed = component.fate == Some(Fate::Removed) && page == Page::A4;
                assert_eq!(removed.contains(lot), was_removed, "{name}, {page:?}: lot {lot} among the removed");
            }
        }
    }
}

/// Regulation (EU) 2017/745, Article 18(1)(a): name, serial and lot number, UDI, model, name of the maker.
#[test]
fn a_record_says_what_of_article_18_is_not_recorded() {
    let mut value = demo("whole-knee-cemented").to_value();
    value["components"] = json!([{ "role": "femur", "fate": "implanted", "scan": { "scheme": "typed" } }]);
    let record = paper(&read_value(value).unwrap().case, Kind::ComponentRecord);
    let text = record.markdown();
    for words in [
        "No code:&#10;typed by hand",
        "Name: not recorded",
        "Maker: not recorded",
        "Reference: not recorded",
        "Lot or serial: not recorded",
        "Device identifier: not recorded",
    ] {
        assert!(text.contains(words), "the record must say “{words}”: {text}");
    }
}

#[test]
fn an_addendum_prints_its_words_and_every_answer_that_changed() {
    for (name, before) in demos() {
        let (case, occasion) = with_addendum(&name, &before);
        let paper = render(&case, Kind::Addendum, &occasion).unwrap();
        let draft = name == "half-filled-draft";
        let reasons: &[&str] =
            if draft { &["The entry has not been signed; until then change it itself."] } else { &[] };
        assert_eq!(paper.unfinished, reasons, "{name}: only a signed entry has an addendum");
        let text = unwrapped(&paper.text());
        let addendum = occasion.addendum.as_ref().unwrap();
        let typed: String = addendum.text.split_whitespace().collect::<Vec<_>>().join(" ");
        for words in [
            typed.as_str(),
            "Addendum no. 1 to the operative note",
            if draft {
                "Nobody has signed the note."
            } else {
                "The note was signed by Ms Maren Oakshott on 3 November 2026 at 17:30."
            },
            &if draft { format!("{}: ____", addendum.by) } else { format!("Signed by {}", addendum.by) },
        ] {
            assert!(text.contains(words), "{name}: the addendum must say “{words}”");
        }
        let rows: usize = paper
            .document
            .blocks
            .iter()
            .map(|block| match block {
                evengap_papers::blocks::Block::Table(table) => table.rows.len(),
                _ => 0,
            })
            .sum();
        assert_eq!(rows, changes(&before, &case).len(), "{name}: one row for each change");
        assert_eq!(rows == 0, before == case, "{name}: no row is no change");
    }
}

#[test]
fn an_addendum_without_words_or_signature_is_unfinished() {
    let text = unwrapped(&paper(&demo("medial-part"), Kind::Addendum).text());
    for reason in [
        "This addendum is not finished. Do not hand it out.",
        "Nothing has been added to this entry; an addendum needs its words.",
        "The entry has not been signed; until then change it itself.",
    ] {
        assert!(text.contains(reason), "the paper must say “{reason}”");
    }
}

#[test]
fn signed_papers_say_who_signed_and_carry_no_draft_mark() {
    let case = demo("whole-knee-cemented");
    let signed =
        Standing::Signed { by: "Ms Maren Oakshott".into(), at: "2026-03-10T12:05".parse().unwrap(), fingerprint: None };
    for kind in Kind::ALL {
        for page in [Page::A4, Page::Wallet] {
            let occasion = Occasion { standing: signed.clone(), page, ..occasion() };
            let paper = render(&case, kind, &occasion).unwrap();
            let text = unwrapped(&paper.text());
            let words = match kind {
                Kind::OperativeNote => "Signed by Ms Maren Oakshott on 10 March 2026 at 12:05.",
                // Nobody has added anything here; the note is what was signed.
                Kind::Addendum => "The note was signed by Ms Maren Oakshott on 10 March 2026 at 12:05.",
                _ => "Written from the operation record that Ms Maren Oakshott signed on 10 March 2026 at 12:05.",
            };
            assert!(text.contains(words), "{}: a signed paper says “{words}”", kind.name());
            assert_eq!(paper.document.mark, None, "{}: a signed paper carries no draft mark", kind.name());
            // The entry was signed, and with it the note; what is written from it still wants a hand.
            let signed = kind == Kind::OperativeNote;
            assert_eq!(text.contains("____"), !signed, "{}: a line to sign where nobody has", kind.name());
        }
    }
}
