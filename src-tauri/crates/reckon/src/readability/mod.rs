//! How hard a text is to read: Flesch, Flesch-Kincaid and SMOG, and the sentences that cost most.
//!
//! Made for English prose. It counts; it knows nothing of meaning, and an easy score is no proof of a clear letter.

mod sentences;
mod syllables;

pub use sentences::{sentences, words};
pub use syllables::syllables;

use serde_json::{Value, json};

use crate::given::{Given, Read, said};
use crate::{Answer, Input, Limits, Reckoning, Refusal, Source};

/// A word of this many syllables is a long one for SMOG.
const LONG_SYLLABLES: usize = 3;
/// SMOG was made from samples of this many sentences.
const SMOG_SENTENCES: usize = 30;
/// Sentences that are shown as the costliest.
const COSTLIEST: usize = 3;

/// Readability of a text.
pub const RECKONING: Reckoning = Reckoning {
    name: "readability",
    title: "Readability",
    formula: "Flesch reading ease = 206.835 − 1.015 W/S − 84.6 Y/W; Flesch-Kincaid grade = 0.39 W/S + 11.8 Y/W − 15.59; \
              SMOG grade = 3.1291 + 1.0430 √(P × 30/S); W words, S sentences, Y syllables, P words of 3 or more syllables",
    inputs: &[Input::required("text", "", "English text; paragraphs and list items on lines of their own")],
    sources: &[
        Source::published("Flesch, A new readability yardstick", 1948, "J Appl Psychol 32:221"),
        Source::published(
            "Kincaid et al., Derivation of new readability formulas for Navy enlisted personnel",
            1975,
            "Naval Technical Training Research Branch Report 8-75",
        ),
        Source::published("McLaughlin, SMOG grading: a new readability formula", 1969, "J Reading 12:639"),
    ],
    answer,
};

/// Tells whether a word is a long one for SMOG.
pub fn is_long(word: &str) -> bool {
    syllables(word) >= LONG_SYLLABLES
}

/// What is counted in a text.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Counts {
    /// Sentences; a list item is one at least.
    pub sentences: usize,
    /// Words.
    pub words: usize,
    /// Syllables.
    pub syllables: usize,
    /// Words of three or more syllables.
    pub long_words: usize,
}

impl Counts {
    /// Counts one sentence.
    pub fn of_sentence(sentence: &str) -> Self {
        let mut counts = Self { sentences: 1, ..Self::default() };
        for word in words(sentence) {
            let syllables = syllables(word);
            counts.words += 1;
            counts.syllables += syllables;
            counts.long_words += usize::from(syllables >= LONG_SYLLABLES);
        }
        counts
    }

    fn without(self, other: Self) -> Self {
        Self {
            sentences: self.sentences - other.sentences,
            words: self.words - other.words,
            syllables: self.syllables - other.syllables,
            long_words: self.long_words - other.long_words,
        }
    }

    fn with(self, other: Self) -> Self {
        Self {
            sentences: self.sentences + other.sentences,
            words: self.words + other.words,
            syllables: self.syllables + other.syllables,
            long_words: self.long_words + other.long_words,
        }
    }

    /// Flesch reading ease; 100 is easy, 0 is hard. Nothing without a word.
    pub fn flesch_reading_ease(self) -> Option<f64> {
        let (per_sentence, per_word) = self.rates()?;
        Some(206.835 - 1.015 * per_sentence - 84.6 * per_word)
    }

    /// Flesch-Kincaid grade, in school years of the United States. Nothing without a word.
    pub fn flesch_kincaid_grade(self) -> Option<f64> {
        let (per_sentence, per_word) = self.rates()?;
        Some(0.39 * per_sentence + 11.8 * per_word - 15.59)
    }

    /// SMOG grade, in school years of the United States. Nothing without a sentence.
    pub fn smog_grade(self) -> Option<f64> {
        let long = self.long_words as f64;
        (self.sentences > 0).then(|| 3.1291 + 1.0430 * (long * 30.0 / self.sentences as f64).sqrt())
    }

    fn rates(self) -> Option<(f64, f64)> {
        let (sentences, words) = (self.sentences as f64, self.words as f64);
        (self.sentences > 0 && self.words > 0).then(|| (words / sentences, self.syllables as f64 / words))
    }
}

/// A sentence and what it costs.
#[derive(Debug, Clone, PartialEq)]
pub struct Sentence {
    /// The sentence.
    pub text: String,
    /// What it counts.
    pub counts: Counts,
    /// Flesch-Kincaid grades by which the text gets easier without it; below zero where it makes the text easier.
    pub cost: f64,
}

/// How hard a text is to read.
#[derive(Debug, Clone, PartialEq)]
pub struct Readability {
    /// What is counted.
    pub counts: Counts,
    /// Every sentence, the costliest first; among equals the earlier first.
    pub sentences: Vec<Sentence>,
    /// Lines that are no running text: headings, tables and rules.
    pub left_out_lines: usize,
}

/// Reads a text; nothing where it has no word.
pub fn reckon(text: &str) -> Option<Readability> {
    let (texts, left_out_lines) = sentences(text);
    let each: Vec<(String, Counts)> =
        texts.into_iter().map(|text| (Counts::of_sentence(&text), text)).map(|(c, t)| (t, c)).collect();
    let counts = each.iter().fold(Counts::default(), |sum, (_, counts)| sum.with(*counts));
    let grade = counts.flesch_kincaid_grade()?;
    let cost = |one: Counts| counts.without(one).flesch_kincaid_grade().map_or(0.0, |without| grade - without);
    let mut sentences: Vec<Sentence> =
        each.into_iter().map(|(text, counts)| Sentence { cost: cost(counts), text, counts }).collect();
    sentences.sort_by(|a, b| b.cost.total_cmp(&a.cost));
    Some(Readability { counts, sentences, left_out_lines })
}

/// Any text, an empty one too.
struct Prose(String);

impl Read for Prose {
    fn read(name: &str, value: &Value) -> Result<Self, Refusal> {
        let text = value.as_str().map(|text| Self(text.to_owned()));
        text.ok_or_else(|| Refusal::of(name, format!("a text is needed here, not {}.", said(value))))
    }
}

fn answer(given: &mut Given<'_>, _: &Limits) -> Result<Answer, Refusal> {
    let Some(Prose(text)) = given.take("text") else {
        return Ok(given.needs());
    };
    let mut answer = Answer::of(&RECKONING);
    let Some(found) = reckon(&text) else {
        answer.not_computable = Some("needs text with at least one word of running text".into());
        return Ok(answer);
    };
    let counts = found.counts;
    answer.number_or("flesch_reading_ease", counts.flesch_reading_ease(), "points, 100 is easy", &["text"]);
    answer.number_or("flesch_kincaid_grade", counts.flesch_kincaid_grade(), "school years", &["text"]);
    answer.number_or("smog_grade", counts.smog_grade(), "school years", &["text"]);
    answer.push("sentences", counts.sentences.into(), "");
    answer.push("words", counts.words.into(), "");
    answer.push("syllables", counts.syllables.into(), "");
    answer.push("long_words", counts.long_words.into(), "");
    let costliest: Vec<Value> = found.sentences.iter().take(COSTLIEST).map(costly).collect();
    answer.push("costliest_sentences", Value::Array(costliest), "");
    if counts.sentences < SMOG_SENTENCES {
        answer.note("SMOG was made from 30 sentences; under 30 it is approximate.");
    }
    if found.left_out_lines > 0 {
        answer.note(format!("Lines left out as no running text (headings, tables, rules): {}.", found.left_out_lines));
    }
    answer.note("A list item counts as a sentence. Figures, signs and abbreviations count as one syllable each.");
    answer.note(
        "Syllables are counted from English spelling, which misses about one word in a hundred; names more often.",
    );
    answer.note(
        "A sentence's cost is the fall of the Flesch-Kincaid grade without it. Numbers are rounded to four decimals.",
    );
    Ok(answer)
}

fn costly(sentence: &Sentence) -> Value {
    let cost = (sentence.cost * 10_000.0).round() / 10_000.0;
    json!({ "sentence": sentence.text, "words": sentence.counts.words, "syllables": sentence.counts.syllables, "cost": cost })
}
