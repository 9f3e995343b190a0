//! The running text of a letter as it stands, and how hard it is to read. Only the letter in English is measured: the
//! formulas were made for English and its syllables.
//!
//! The text is taken from the blocks, never from a template, so what was recorded for this patient counts as well: a
//! typed sentence makes a letter as hard as a built-in one. Headings, tables and drawings are no running text.

use evengap_reckon::readability::{self, Readability};

use crate::blocks::{Block, words_of};
use crate::{Kind, Language, Paper};

impl Paper {
    /// Tells how hard the discharge letter in English is to read; nothing for any other paper.
    pub fn reading(&self) -> Option<Readability> {
        let measured = self.kind == Kind::DischargeLetter && self.document.language == Language::En.tag();
        measured.then(|| readability::reckon(&self.running_text())).flatten()
    }

    /// Gives the running text: one line for each paragraph and each item of a list.
    pub fn running_text(&self) -> String {
        let mut text = String::new();
        add(&self.document.blocks, "", &mut text);
        text
    }
}

/// Adds the running text of blocks, each line after the list mark of its item.
fn add(blocks: &[Block], mark: &str, text: &mut String) {
    for block in blocks {
        match block {
            Block::Paragraph(inlines) => {
                let words = words_of(inlines);
                text.push_str(mark);
                // A typed sign at the start must not make a heading or a table of the sentence.
                let words = words.trim_start_matches(['#', '|', '>', ' ']);
                text.push_str(&words.split_whitespace().collect::<Vec<_>>().join(" "));
                text.push_str("\n\n");
            }
            Block::List { items, .. } => items.iter().for_each(|item| add(item, "- ", text)),
            Block::Boxed(blocks) => add(blocks, mark, text),
            Block::Heading { .. } | Block::Table(_) | Block::Drawing(_) | Block::Rule => {}
        }
    }
}
