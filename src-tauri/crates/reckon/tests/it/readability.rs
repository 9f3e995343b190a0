//! Readability: what counts as a sentence, a word and a syllable, and which sentences cost most.

use evengap_reckon::readability::{Counts, sentences, syllables};
use serde_json::json;

use crate::{check_needs, check_refused, result, run};

/// The text must fall into exactly these sentences.
fn check_sentences(text: &str, expected: &[&str], reason: &str) {
    assert_eq!(sentences(text).0, expected, "{reason}");
}

#[test]
fn abbreviations_end_no_sentence() {
    check_sentences(
        "You saw Dr. Quill and Mr. J. R. Vane on 3 Mar. at 8.30 a.m. in room no. 5, approx. 2 hours late. Call us, e.g. by day.",
        &[
            "You saw Dr. Quill and Mr. J. R. Vane on 3 Mar. at 8.30 a.m. in room no. 5, approx. 2 hours late.",
            "Call us, e.g. by day.",
        ],
        "titles, initials, months, clock times and Latin",
    );
    check_sentences(
        "Come at 8 a.m. Bring your letter.",
        &["Come at 8 a.m.", "Bring your letter."],
        "a capital begins anew",
    );
}

#[test]
fn decimals_and_addresses_end_no_sentence() {
    check_sentences(
        "Take 1.25 g of it. Your fever is above 38.5 °C? See www.example.org for more. Version 2.0.1 is out!",
        &[
            "Take 1.25 g of it.",
            "Your fever is above 38.5 °C?",
            "See www.example.org for more.",
            "Version 2.0.1 is out!",
        ],
        "stops within a number or an address",
    );
}

#[test]
fn each_list_item_is_a_sentence() {
    check_sentences(
        "Call us:\n\n- if the wound leaks\n- if one calf is swollen, warm\n  and sore\n\n1. Walk. Rest.\n2) Bend\n(c) Stretch",
        &[
            "Call us:",
            "if the wound leaks",
            "if one calf is swollen, warm and sore",
            "Walk.",
            "Rest.",
            "Bend",
            "Stretch",
        ],
        "marks are no sentences, wrapped items are one, items without a stop do not run together",
    );
}

#[test]
fn headings_tables_and_rules_are_left_out() {
    let text = "# Going home\n\nMedicines\n=========\n\nKeep it dry.\n\n| a | b |\n|---|---|\n\n+-----+\n| Call us. |\n+-----+\n> Rest.\n\nDrug    Last day\n----    --------\nAspirin   7 May";
    let (found, left_out) = sentences(text);
    assert_eq!(found, ["Keep it dry.", "Call us.", "Rest."], "prose in a box and in a quotation stays");
    assert_eq!(left_out, 10, "two headings in three lines, two lines of a table, two of a box, three in columns");
}

#[test]
fn syllables_of_words_in_letters() {
    for (words, expected) in [
        ("knee wound stayed eyes used whole league stairs NHS 40 °C e.g. 12.5", 1),
        ("doctor being going drying layers quiet table handled didn't centre movement sometimes", 2),
        ("patella arthritis medial area previous telephone exercise carefully theatre", 3),
        ("creatinine orthopaedic anaesthetist haemoglobin anxiety rheumatism immediate", 4),
        ("antibiotic enoxaparin coagulated polyethylene immediately", 5),
        ("physiotherapy osteoarthritis", 6),
    ] {
        for word in words.split_whitespace() {
            assert_eq!(syllables(word), expected, "{word}");
        }
    }
}

#[test]
fn printed_counts_give_printed_grades() {
    // A public exercise prints the counts of a Latin filler text and the grades 12.50 and 12.03 that follow.
    let counts = Counts { words: 59, sentences: 7, syllables: 124, long_words: 17 };
    let close = |got: Option<f64>, expected: f64| got.is_some_and(|got| (got - expected).abs() < 0.005);
    assert!(close(counts.flesch_kincaid_grade(), 12.50), "Flesch-Kincaid: {:?}", counts.flesch_kincaid_grade());
    assert!(close(counts.smog_grade(), 12.03), "SMOG: {:?}", counts.smog_grade());
}

#[test]
fn text_without_words_is_not_computable() {
    let sentence = "needs text with at least one word of running text";
    for text in ["", "  \n ", "# Heading", "--- ... !"] {
        check_needs("readability", json!({ "text": text }), sentence);
    }
    check_needs("readability", json!({}), "needs text");
    check_refused("readability", json!({ "text": 7 }), "text: a text is needed here, not 7.");
}

#[test]
fn the_costliest_sentences_come_first() {
    let costly = "Postoperative physiotherapy necessitates considerable determination.";
    let text = format!("Keep it dry. {costly} Rest with your leg up. Call us if it leaks. Walk each day.");
    let answer = run("readability", json!({ "text": text }));
    let costliest = result(&answer, "costliest_sentences");
    assert_eq!(costliest.as_array().map(Vec::len), Some(3), "three are shown: {costliest}");
    assert_eq!(costliest[0]["sentence"], costly, "the hardest leads: {costliest}");
    let cost = |index: usize| costliest[index]["cost"].as_f64().unwrap();
    assert!(cost(0) > cost(1) && cost(1) >= cost(2), "in order of cost: {costliest}");
    assert!(answer["notes"].to_string().contains("approximate"), "five sentences are few for SMOG: {answer}");
}

proptest::proptest! {
    #[test]
    fn any_text_is_read(text in r"([A-Za-z'’\-éü.,!?:;()|#>*\d \n\t—Жλ東]{0,8}[ \n]){0,40}") {
        let counts = evengap_reckon::readability::reckon(&text).map(|found| found.counts).unwrap_or_default();
        let plain: usize = sentences(&text).0.iter().map(|sentence| Counts::of_sentence(sentence).words).sum();
        proptest::prop_assert_eq!(counts.words, plain, "every word stands in one sentence");
        proptest::prop_assert!(counts.syllables >= counts.words, "a word has a syllable at least: {:?}", counts);
        proptest::prop_assert!(counts.long_words <= counts.words && counts.sentences <= counts.words, "{:?}", counts);
    }
}
