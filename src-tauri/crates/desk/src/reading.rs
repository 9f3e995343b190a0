//! How hard a letter is to read, for the person who writes its template.

use evengap_papers::Paper;
use evengap_reckon::Source;
use evengap_reckon::readability::{RECKONING, Readability, is_long, words};
use serde::Serialize;
use ts_rs::TS;

/// Grades that a letter to a patient should not exceed: common practice in patient information, no source.
const LIMITS: ReadingLimits = ReadingLimits { flesch_kincaid_grade: 6.0, smog_grade: 8.0 };

/// Sentences that are shown; more would hide the worst among the bad.
const SHOWN: usize = 5;

/// How hard a text is to read, in school years of the United States.
#[derive(Debug, Clone, PartialEq, Serialize, TS)]
pub struct Reading {
    /// Flesch-Kincaid.
    pub flesch_kincaid_grade: f64,
    /// SMOG.
    pub smog_grade: f64,
    /// What both should not exceed.
    pub limits: ReadingLimits,
    /// Words of running text.
    pub words: u32,
    /// Sentences; a list item is one at least.
    pub sentences: u32,
    /// The sentences that cost most, the costliest first.
    pub costly: Vec<CostlySentence>,
    /// How the grades are computed.
    pub formulas: Vec<ReadingFormula>,
}

/// The grades that a letter to a patient should not exceed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, TS)]
pub struct ReadingLimits {
    /// Flesch-Kincaid.
    pub flesch_kincaid_grade: f64,
    /// SMOG.
    pub smog_grade: f64,
}

/// A sentence that makes a text harder.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct CostlySentence {
    /// The sentence.
    pub text: String,
    /// Its words.
    pub words: u32,
    /// Those of three or more syllables.
    pub hard_words: Vec<String>,
}

/// How a grade is computed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct ReadingFormula {
    /// Name of the grade.
    pub name: String,
    /// In the letters of its author.
    pub formula: String,
    /// Where it was published.
    pub source: String,
}

/// Gives the figures of a paper that has any.
pub(crate) fn of(paper: &Paper) -> Option<Reading> {
    figures(&paper.reading()?)
}

fn figures(found: &Readability) -> Option<Reading> {
    let whole = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
    let costly = found.sentences.iter().filter(|sentence| sentence.cost > 0.0).take(SHOWN);
    Some(Reading {
        flesch_kincaid_grade: two_places(found.counts.flesch_kincaid_grade()?),
        smog_grade: two_places(found.counts.smog_grade()?),
        limits: LIMITS,
        words: whole(found.counts.words),
        sentences: whole(found.counts.sentences),
        costly: costly
            .map(|sentence| CostlySentence {
                text: sentence.text.clone(),
                words: whole(sentence.counts.words),
                hard_words: words(&sentence.text)
                    .filter(|word| is_long(word))
                    .map(|word| word.trim_matches(|letter: char| !letter.is_alphanumeric()).to_owned())
                    .collect(),
            })
            .collect(),
        formulas: formulas(),
    })
}

/// Takes the two formulas, and what their letters mean, out of the reckoning's own.
fn formulas() -> Vec<ReadingFormula> {
    let parts: Vec<&str> = RECKONING.formula.split("; ").collect();
    let letters = parts.last().copied().unwrap_or_default();
    let formula = |name: &str, author: &str| {
        let grade = parts.iter().find_map(|part| part.strip_prefix(name)?.strip_prefix(" = ")).unwrap_or_default();
        let source = RECKONING.sources.iter().find(|source| source.title.starts_with(author));
        ReadingFormula {
            name: name.to_owned(),
            formula: format!("{grade}; {letters}"),
            source: source.map(Source::to_string).unwrap_or_default(),
        }
    };
    vec![formula("Flesch-Kincaid grade", "Kincaid"), formula("SMOG grade", "McLaughlin")]
}

/// Two decimals: a grade of 6.04 is over a limit of 6 and must not print as 6.0.
fn two_places(grade: f64) -> f64 {
    (grade * 100.0).round() / 100.0
}
