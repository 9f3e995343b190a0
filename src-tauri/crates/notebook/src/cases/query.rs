//! Turns what a person types into a full-text expression in which nothing typed is syntax.

use crate::NotebookError;
use crate::projections::folding::{folded, squeezed};

/// Words beyond these no longer narrow the search; the engine's expressions have a depth limit.
const MOST_WORDS: usize = 40;

const MONTHS: [&str; 12] = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
];

/// What is to be looked for.
pub(super) enum Query {
    /// Nothing was typed.
    Everything,
    /// Something was typed that no case can hold.
    Nothing,
    /// An FTS5 expression.
    Match(String),
}

/// Gives every word that begins so, where all of them are known.
pub(super) type Words<'a> = dyn Fn(&str) -> Result<Option<Vec<String>>, NotebookError> + 'a;

/// Makes the expression: every word a prefix, all of them needed.
pub(super) fn query(text: &str, known: &Words<'_>) -> Result<Query, NotebookError> {
    if text.trim().is_empty() {
        return Ok(Query::Everything);
    }
    let text = folded(text);
    let words: Vec<&str> =
        text.split_whitespace().filter(|word| word.contains(char::is_alphanumeric)).take(MOST_WORDS).collect();
    let mut needed = Vec::new();
    let mut rest = words.as_slice();
    while let [first, after @ ..] = rest {
        if let (Some(month), [year, further @ ..]) = (month(first), after)
            && is_year(year)
        {
            needed.push(month_of_year(month, first, year, known)?);
            rest = further;
        } else {
            needed.push(word(first, known)?);
            rest = after;
        }
    }
    Ok(if needed.is_empty() { Query::Nothing } else { Query::Match(needed.join(" AND ")) })
}

/// One word: its parts beside each other, the last one a prefix; or the same without its signs.
fn word(word: &str, known: &Words<'_>) -> Result<String, NotebookError> {
    let (typed, joined) = (prefix(word, known)?, squeezed(word));
    if joined == word { Ok(typed) } else { Ok(format!("({typed} OR {})", prefix(&joined, known)?)) }
}

/// A month and a year stand beside each other, unless the month is also somebody's name.
fn month_of_year(month: &str, typed: &str, year: &str, known: &Words<'_>) -> Result<String, NotebookError> {
    let (phrase, typed) = (prefix(&format!("{month} {year}"), known)?, prefix(typed, known)?);
    Ok(format!("({phrase} OR (names : {typed} AND {}))", prefix(year, known)?))
}

/// A phrase whose last word may go on: every such word where they are known, or a prefix.
fn prefix(words: &str, known: &Words<'_>) -> Result<String, NotebookError> {
    let last = words.rfind(|letter: char| !letter.is_ascii_lowercase()).map_or(0, |at| at + sign_length(words, at));
    let (before, last) = words.split_at(last);
    // What a letter beyond a to z or a digit stands before does not begin a word.
    let begins = before.chars().next_back().is_none_or(|sign| sign.is_ascii() && !sign.is_ascii_alphanumeric());
    match if begins { known(last)? } else { None } {
        Some(known) => {
            let phrases: Vec<_> = known.iter().map(|word| quoted(&format!("{before}{word}"))).collect();
            Ok(format!("({})", phrases.join(" OR ")))
        }
        None => Ok(format!("{}*", quoted(words))),
    }
}

fn sign_length(words: &str, at: usize) -> usize {
    words[at..].chars().next().map_or(0, char::len_utf8)
}

fn quoted(words: &str) -> String {
    format!("\"{}\"", words.replace('"', "\"\""))
}

/// The month that a word of at least three letters begins.
fn month(word: &str) -> Option<&'static str> {
    MONTHS.into_iter().find(|month| word.len() >= 3 && month.starts_with(word))
}

fn is_year(word: &str) -> bool {
    word.len() == 4 && word.bytes().all(|byte| byte.is_ascii_digit())
}
