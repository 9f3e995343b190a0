//! A typed value between two pairs of stars is strong, whole and nothing else, in every built-in use.

use evengap_case::Case;
use evengap_papers::blocks::{Block, Inline};
use evengap_papers::{Kind, Language, Occasion, render};
use proptest::prelude::*;

use super::{demo, occasion, written_of};

/// What stands around the stars in the built-in templates.
const AROUND: [(&str, &str); 10] = [
    ("", ""),
    ("Telephone ", "."),
    ("last day ", "; then"),
    ("", " is your blood thinner."),
    ("", ": Tuesday"),
    ("", " (Size 3)"),
    ("| a | b |\n|---|---|\n| ", " | c |"),
    ("- ", ": Tuesday"),
    ("> ", "\n> more"),
    ("# ", ""),
];

/// Signs that Markdown and Unicode make difficult, beside ordinary ones.
fn typed() -> impl Strategy<Value = String> {
    let sign = prop_oneof![
        4 => proptest::char::any(),
        4 => proptest::sample::select(" \t\n\r\u{a0}\u{2003}\u{200b}\u{feff}\u{2028}".chars().collect::<Vec<_>>()),
        8 => proptest::sample::select("*_!.,:;#>|-+=[]()<>&\\`~\"'@${}%0aé–“".chars().collect::<Vec<_>>()),
    ];
    proptest::collection::vec(sign, 1..12).prop_map(|signs| signs.into_iter().collect())
}

/// The strong runs of a paper, each with its words; a line that ends inside one is a blank.
fn strong_runs(blocks: &[Block]) -> Vec<String> {
    fn of(inlines: &[Inline], runs: &mut Vec<String>) {
        let mut open = false;
        for inline in inlines {
            match inline {
                Inline::Text { text, strong: true, .. } if open => runs.last_mut().unwrap().push_str(text),
                Inline::Text { text, strong: true, .. } => {
                    open = true;
                    runs.push(text.clone());
                }
                Inline::Break if open => runs.last_mut().unwrap().push(' '),
                _ => open = false,
            }
        }
    }
    let mut runs = Vec::new();
    for block in blocks {
        match block {
            Block::Heading { inlines, .. } | Block::Paragraph(inlines) => of(inlines, &mut runs),
            Block::Table(table) => {
                table.header.iter().chain(table.rows.iter().flatten()).for_each(|cell| of(cell, &mut runs));
            }
            Block::List { items, .. } => items.iter().for_each(|item| runs.extend(strong_runs(item))),
            Block::Boxed(inner) => runs.extend(strong_runs(inner)),
            Block::Drawing(_) | Block::Rule => {}
        }
    }
    runs
}

/// What of a typed value can be compared: its signs without blanks, control characters and what has no width.
fn signs(text: &str) -> String {
    let has_none = |sign: &char| {
        !sign.is_whitespace()
            && !sign.is_control()
            && !"\u{ad}\u{180e}\u{feff}\u{fffd}".contains(*sign)
            && !('\u{200b}'..='\u{200f}').contains(sign)
            && !('\u{2060}'..='\u{2064}').contains(sign)
    };
    // The separator inside a label scan prints as three letters in brackets.
    text.replace('\u{1d}', "<GS>").chars().filter(has_none).collect()
}

fn with_name(name: &str) -> Case {
    let mut case = demo("whole-knee-cemented").clone();
    case.patient.given_name = Some(name.to_owned());
    case
}

/// Checks one value in one place: one strong run, and all of it.
fn check(typed: &str, (before, after): (&str, &str)) {
    let source = format!("{{% if patient.given_name %}}{before}**{{{{ patient.given_name }}}}**{after}{{% endif %}}");
    let paper = written_of(&with_name(typed), Kind::ComponentRecord, &source).unwrap();
    let blocks = &paper.document.blocks;
    // The box above an unfinished paper has strong words of its own; so has no template's part here.
    let plain = written_of(&with_name(typed), Kind::ComponentRecord, "").unwrap();
    let others = strong_runs(&plain.document.blocks);
    let mut runs = strong_runs(blocks);
    runs.retain(|run| !others.contains(run));
    let expected: Vec<_> = Some(signs(typed)).filter(|_| written(typed)).into_iter().collect();
    assert_eq!(
        runs.iter().map(|run| signs(run)).collect::<Vec<_>>(),
        expected,
        "{typed:?} is one strong run between {before:?} and {after:?}, in {}",
        paper.markdown()
    );
}

/// Tells whether anything but blanks was typed.
fn written(typed: &str) -> bool {
    let unseen = |sign: char| {
        sign.is_whitespace()
            || matches!(sign, '\u{ad}' | '\u{180e}' | '\u{200b}'..='\u{200f}' | '\u{2060}'..='\u{2064}' | '\u{feff}')
    };
    !typed.chars().all(unseen)
}

#[test]
fn blanks_at_the_ends() {
    for typed in ["01632 960 180 ", "\u{a0}01632\u{a0}", "\u{200b} x.\t", " \n", "St. Ann!", "(a)", "*", "**", "a*"] {
        AROUND.iter().for_each(|around| check(typed, *around));
    }
}

#[test]
fn the_telephone_in_the_cautions() {
    for language in [Language::En, Language::De, Language::Es] {
        let mut case = demo("whole-knee-cemented").clone();
        case.discharge.emergency_phone = Some("01632 960 180\u{a0} ".to_owned());
        let mut occasion = Occasion { language, ..occasion() };
        occasion.settings.emergency_number = " 999\u{2003}".to_owned();
        let paper = render(&case, Kind::DischargeLetter, &occasion).unwrap();
        assert!(!paper.text().contains("**"), "no stars stand in the letter in {}", language.words());
        let runs = strong_runs(&paper.document.blocks);
        for number in ["01632 960 180", "999"] {
            assert!(runs.iter().any(|run| run.ends_with(number)), "{number} is strong in {runs:?}");
        }
    }
}

#[test]
fn a_call_for_help_before_words_in_brackets() {
    let source = "{{ patient.given_name }}[words](drawing:axis)";
    let paper = written_of(&with_name("Help!"), Kind::OperativeNote, source).unwrap();
    assert!(
        paper.document.blocks.iter().all(|block| !matches!(block, Block::Drawing(_))),
        "a mark that was typed makes no picture: {}",
        paper.markdown()
    );
    assert!(paper.text().contains("Help!words"), "it prints as typed: {}", paper.text());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_typed_value(typed in typed(), around in proptest::sample::select(&AROUND[..])) {
        check(&typed, around);
    }
}
