//! Turns what a person types into a full-text expression in which nothing typed is syntax.

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

/// Makes the expression: every word a prefix, all of them needed.
pub(super) fn query(text: &str) -> Query {
    if text.trim().is_empty() {
        return Query::Everything;
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
            needed.push(month_of_year(month, first, year));
            rest = further;
        } else {
            needed.push(word(first));
            rest = after;
        }
    }
    if needed.is_empty() { Query::Nothing } else { Query::Match(needed.join(" AND ")) }
}

/// One word: its parts beside each other, the last one a prefix; or the same without its signs.
fn word(word: &str) -> String {
    let joined = squeezed(word);
    if joined == word { prefix(word) } else { format!("({} OR {})", prefix(word), prefix(&joined)) }
}

/// A month and a year stand beside each other, unless the month is also somebody's name.
fn month_of_year(month: &str, typed: &str, year: &str) -> String {
    let (phrase, typed, year) = (prefix(&format!("{month} {year}")), prefix(typed), prefix(year));
    format!("({phrase} OR (names : {typed} AND {year}))")
}

fn prefix(words: &str) -> String {
    format!("\"{}\"*", words.replace('"', "\"\""))
}

/// The month that a word of at least three letters begins.
fn month(word: &str) -> Option<&'static str> {
    MONTHS.into_iter().find(|month| word.len() >= 3 && month.starts_with(word))
}

fn is_year(word: &str) -> bool {
    word.len() == 4 && word.bytes().all(|byte| byte.is_ascii_digit())
}
