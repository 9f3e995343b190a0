//! Words that were shaped before: papers say the same ones again and again.
//!
//! Invariant: what is remembered is what shaping gives, so a paper is the same with and without it. A
//! word with a character that the font lacks is not kept: each paper has to report it anew.

use std::collections::HashMap;

use crate::fonts::{Style, Writing};

use super::shape::Glyph;

/// How many words of one style and script are kept.
const MOST: usize = 4096;

/// Shaped words by style, script and letters.
#[derive(Debug, Default)]
pub(crate) struct Words([[HashMap<Box<str>, Vec<Glyph>>; 4]; 4]);

impl Words {
    pub(super) fn get(&self, word: &str, style: Style, script: Writing) -> Option<&[Glyph]> {
        self.0[style as usize][script as usize].get(word).map(Vec::as_slice)
    }

    pub(super) fn keep(&mut self, word: &str, style: Style, script: Writing, glyphs: &[Glyph]) {
        let words = &mut self.0[style as usize][script as usize];
        // Full of names that never come again; those that do are soon back.
        if words.len() >= MOST {
            words.clear();
        }
        words.insert(word.into(), glyphs.to_vec());
    }

    /// Counts the words.
    pub(crate) fn count(&self) -> usize {
        self.0.iter().flatten().map(HashMap::len).sum()
    }
}
