//! How hard the discharge letter in English is to read: by our own count, and by two readers from outside, whose figures
//! `checks/make_reading_checks.py` took from the golden letters.

use evengap_papers::{Kind, Language};
use evengap_reckon::readability::Counts;
use evengap_tests::{demo, demos, paper, paper_in, project};
use serde_json::Value;

/// Hardest grades of a letter to a patient; the letters of the demo cases stay below, with what was typed into them.
const FLESCH_KINCAID_LIMIT: f64 = 6.0;
const SMOG_LIMIT: f64 = 8.0;

/// The readers from outside, and how far apart the Flesch-Kincaid and the SMOG grade may be.
const READERS: [(&str, f64, f64); 2] = [
    // Hyphenation gives "stitches" and "medicines" one syllable: on a letter of 600 words that loses 20 to 40 syllables
    // and 5 to 11 long words, which is this much of a grade.
    ("textstat", 1.0, 1.2),
    // A dictionary of spoken words: what is left are names and the cutting of sentences.
    ("said", 0.25, 0.5),
];

#[test]
fn every_letter_stays_below_the_limits() {
    for (name, case) in demos() {
        let counts = paper(&case, Kind::DischargeLetter).reading().unwrap().counts;
        let (flesch_kincaid, smog) = (counts.flesch_kincaid_grade().unwrap(), counts.smog_grade().unwrap());
        assert!(flesch_kincaid <= FLESCH_KINCAID_LIMIT, "{name}: Flesch-Kincaid grade {flesch_kincaid:.2}");
        assert!(smog <= SMOG_LIMIT, "{name}: SMOG grade {smog:.2}");
    }
}

#[test]
fn readers_from_outside_find_the_same() {
    let outside = outside();
    let letters = outside["letters"].as_array().unwrap();
    assert_eq!(letters.len(), demos().len(), "every demo letter was read: run make_reading_checks.py");
    for letter in letters {
        let name = letter["letter"].as_str().unwrap();
        let own = paper(&demo(name), Kind::DischargeLetter).reading().unwrap().counts;
        let (own_flesch_kincaid, own_smog) = (own.flesch_kincaid_grade().unwrap(), own.smog_grade().unwrap());
        for (reader, flesch_kincaid_apart, smog_apart) in READERS {
            let read = &letter[reader];
            let [flesch_kincaid, smog] =
                ["flesch_kincaid_grade", "smog_grade"].map(|grade| read[grade].as_f64().unwrap());
            assert!(flesch_kincaid <= FLESCH_KINCAID_LIMIT && smog <= SMOG_LIMIT, "{name}, {reader}: {read}");
            // What counts as a word is not in question; another number means that the letter has changed since.
            let words = read["words"].as_f64().unwrap();
            assert!(
                (own.words as f64 / words - 1.0).abs() < 0.01,
                "{name}: {} words, but {words} when it was read: run make_reading_checks.py",
                own.words
            );
            let apart = (own_flesch_kincaid - flesch_kincaid).abs();
            assert!(apart < flesch_kincaid_apart, "{name}, {reader}: {apart:.2} grades apart: {own:?}, {read}");
            let apart = (own_smog - smog).abs();
            assert!(apart < smog_apart, "{name}, {reader}: {apart:.2} SMOG grades apart: {own:?}, {read}");
        }
    }
}

#[test]
fn the_formulas_are_those_of_the_reader_from_outside() {
    for letter in outside()["letters"].as_array().unwrap() {
        let read = &letter["textstat"];
        let count = |name: &str| read[name].as_u64().unwrap() as usize;
        let counts = Counts {
            words: count("words"),
            sentences: count("sentences"),
            syllables: count("syllables"),
            long_words: count("long_words"),
        };
        for (grade, name) in
            [(counts.flesch_kincaid_grade(), "flesch_kincaid_grade"), (counts.smog_grade(), "smog_grade")]
        {
            let expected = read[name].as_f64().unwrap();
            assert!((grade.unwrap() - expected).abs() < 1e-9, "{name} of {letter}: {grade:?}");
        }
    }
}

#[test]
fn what_was_typed_counts_as_well() {
    let mut case = demo("whole-knee-cemented");
    let before = paper(&case, Kind::DischargeLetter).reading().unwrap();
    let hard = "Postoperative physiotherapy necessitates considerable determination.";
    case.aftercare.instructions = Some(format!("# {hard}"));
    let after = paper(&case, Kind::DischargeLetter).reading().unwrap();
    assert!(after.counts.long_words > before.counts.long_words, "{:?}, then {:?}", before.counts, after.counts);
    assert_eq!(after.sentences[0].text, hard, "the hardest sentence leads, whoever wrote it");
}

#[test]
fn headings_tables_and_drawings_are_no_running_text() {
    let text = paper(&demo("both-knees-left"), Kind::DischargeLetter).running_text();
    assert!(text.contains("Take it each day and do not miss a dose."), "paragraphs: {text}");
    assert!(text.contains("- if you cough up blood\n"), "items of the boxed cautions: {text}");
    for words in ["Leaving hospital after", "40 mg under the skin", "seen from the front"] {
        assert!(!text.contains(words), "“{words}” is no running text");
    }
}

#[test]
fn only_the_letter_in_english_is_measured() {
    let case = demo("whole-knee-cemented");
    for kind in Kind::ALL {
        for language in kind.languages() {
            let measured = paper_in(&case, kind, *language).reading().is_some();
            let expected = kind == Kind::DischargeLetter && *language == Language::En;
            assert_eq!(measured, expected, "{}, {}: the formulas are for English", kind.name(), language.code());
        }
    }
}

fn outside() -> Value {
    let file = project().join("tests/acceptance/checks/reading.json");
    serde_json::from_str(&std::fs::read_to_string(file).unwrap()).unwrap()
}
