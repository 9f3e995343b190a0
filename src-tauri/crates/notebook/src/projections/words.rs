//! The words of the index by their beginnings, so that a search asks for whole words.
//!
//! The index keeps beginnings of up to three letters in the order of the list. For a longer one it would first gather
//! every entry that holds any of its words; whole words it gives in order, and a search may stop at the newest.

use std::collections::BTreeSet;

use rusqlite::{Connection, Transaction};

use crate::NotebookError;

/// Letters of the shortest word that is kept; of the shorter beginnings the index has its own lists.
const FEWEST_LETTERS: usize = 4;
/// More words than these are rare words, such as names, and asking for the beginning is quicker.
const MOST_WORDS: u32 = 32;

/// Adds the words of folded texts.
pub(super) fn add(transaction: &Transaction<'_>, texts: &[&str]) -> Result<(), NotebookError> {
    let words: BTreeSet<(&str, bool)> = texts.iter().flat_map(|text| words(text)).collect();
    let mut insert = transaction.prepare_cached(include_str!("words_add.sql"))?;
    for (word, open) in words {
        insert.execute((word, open))?;
    }
    Ok(())
}

/// Gives every word of the index that begins so; none where they are not all known, or too many.
pub(crate) fn beginning(connection: &Connection, with: &str) -> rusqlite::Result<Option<Vec<String>>> {
    if with.len() < FEWEST_LETTERS || !with.bytes().all(|byte| byte.is_ascii_lowercase()) {
        return Ok(None);
    }
    let mut statement = connection.prepare_cached(include_str!("words_from.sql"))?;
    let mut rows = statement.query((with, MOST_WORDS + 1))?;
    let mut words = Vec::new();
    while let Some(row) = rows.next()? {
        if row.get("open")? {
            return Ok(None);
        }
        words.push(row.get("word")?);
    }
    Ok((1..=MOST_WORDS as usize).contains(&words.len()).then_some(words))
}

/// The runs of letters with which words begin, and whether something else follows in the same word. A letter beyond a to
/// z may part words or not: what follows it counts as the beginning of one too.
fn words(text: &str) -> impl Iterator<Item = (&str, bool)> {
    text.split(parts).flat_map(|piece| {
        let is_letter = |letter: char| letter.is_ascii_lowercase();
        let begins = |at: usize| at == 0 || piece[..at].ends_with(|before: char| !before.is_ascii());
        let beginnings = piece.char_indices().filter(move |(at, letter)| is_letter(*letter) && begins(*at));
        beginnings.filter_map(move |(at, _)| {
            let rest = &piece[at..];
            let end = rest.find(|letter| !is_letter(letter)).unwrap_or(rest.len());
            (end >= FEWEST_LETTERS).then(|| (&rest[..end], end < rest.len()))
        })
    })
}

/// Signs that surely stand between words for the index.
fn parts(letter: char) -> bool {
    match letter {
        '\u{2010}'..='\u{205E}' | '°' | '·' | '×' | '÷' | '±' | '§' | '«' | '»' => true,
        letter => letter.is_whitespace() || (letter.is_ascii() && !letter.is_ascii_alphanumeric()),
    }
}

#[cfg(test)]
mod tests {
    use super::words;

    #[track_caller]
    fn check(text: &str, expected: &[(&str, bool)], why: &str) {
        assert_eq!(words(text).collect::<Vec<_>>(), expected, "{why}");
    }

    #[test]
    fn words_of_texts() {
        check(
            "left knee, bone-on-bone",
            &[("left", false), ("knee", false), ("bone", false), ("bone", false)],
            "whole",
        );
        check("cut to the", &[], "shorter ones have lists of their own");
        check("wthx12 12abcd", &[("wthx", true)], "a number follows; a number comes first");
        check("kneeω", &[("knee", true)], "the index knows another word");
        check("→knee ωknee", &[("knee", false), ("knee", false)], "whether a sign parts words is not known here");
        check("knee–left", &[("knee", false), ("left", false)], "a dash parts words");
    }
}
