//! Folding: writing words so that capitals, accents and special letters no longer matter.
//!
//! The full-text engine's own folding knows Latin accents only; this one also covers Greek, Cyrillic
//! and letters that are no accented form, such as ø, ł and ß. Index and search both use it.

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// Folds a text: lower case, no accents, control and private characters as spaces.
pub(crate) fn folded(text: &str) -> String {
    let mut folded = String::with_capacity(text.len());
    let plain = text.nfkd().flat_map(char::to_lowercase).filter(|letter| !is_combining_mark(*letter));
    for letter in plain {
        match letter {
            'ß' => folded.push_str("ss"),
            'æ' => folded.push_str("ae"),
            'œ' => folded.push_str("oe"),
            'þ' => folded.push_str("th"),
            'ø' => folded.push('o'),
            'đ' | 'ð' => folded.push('d'),
            'ł' => folded.push('l'),
            'ħ' => folded.push('h'),
            'ŧ' => folded.push('t'),
            'ı' => folded.push('i'),
            'ς' => folded.push('σ'),
            letter if letter.is_control() || is_private(letter) => folded.push(' '),
            letter => folded.push(letter),
        }
    }
    folded
}

/// Takes every sign out of a folded word, so that `hn-20.114` and `hn20114` are the same.
pub(crate) fn squeezed(folded: &str) -> String {
    folded.chars().filter(|letter| letter.is_alphanumeric()).collect()
}

/// Private characters are words to the full-text engine; the index parts its texts with one.
fn is_private(letter: char) -> bool {
    matches!(letter, '\u{E000}'..='\u{F8FF}' | '\u{F0000}'..='\u{10FFFF}')
}
