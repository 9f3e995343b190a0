//! Blocks to plain text of at most 78 columns, for systems that take nothing else.
//!
//! Invariant: no word is lost; long ones are broken, drawings print their words.

mod table;
mod wrap;

use crate::blocks::{Block, words_of};
use crate::document::{Document, Fact, PageWords};

use wrap::{width, wrap};

/// Longest line, in characters as a reader counts them.
pub const COLUMNS: usize = 78;

/// Writes a document as plain text with its identity at the top and its foot at the end.
pub fn write(document: &Document) -> String {
    let heavy = "=".repeat(COLUMNS);
    // The name alone on the first line, as on every page of the PDF.
    let mut facts = document.head.iter().map(Fact::in_words);
    let name = facts.next().unwrap_or_default();
    let facts: Vec<String> = facts.collect();
    let mut lines = vec![heavy.clone()];
    for part in [name, facts.join(" | "), document.title.clone(), document.mark.clone().unwrap_or_default()] {
        lines.extend(wrap(&part, COLUMNS).into_iter().filter(|line| !line.is_empty()));
    }
    if document.demonstration {
        lines.push(document.words.demonstration.clone());
    }
    lines.push(heavy);
    lines.push(String::new());
    lines.extend(blocks(&document.blocks, COLUMNS, &document.words));
    lines.push(String::new());
    lines.push("-".repeat(COLUMNS));
    lines.extend(wrap(&document.foot, COLUMNS));
    let mut out = String::new();
    for line in &lines {
        out.push_str(line.trim_end());
        out.push('\n');
    }
    out
}

/// Sets blocks into lines of at most `columns`, with one empty line between blocks.
fn blocks(list: &[Block], columns: usize, words: &PageWords) -> Vec<String> {
    let mut lines = Vec::new();
    for block in list {
        let set = one(block, columns, words);
        if set.is_empty() {
            continue;
        }
        if !lines.is_empty() {
            lines.push(String::new());
        }
        lines.extend(set);
    }
    lines
}

fn one(block: &Block, columns: usize, words: &PageWords) -> Vec<String> {
    match block {
        Block::Heading { level, inlines } => {
            let mut lines = wrap(&words_of(inlines), columns);
            let longest = lines.iter().map(|line| width(line)).max().unwrap_or(0);
            let under = match level {
                1 => "=",
                2 => "-",
                _ => "",
            };
            if !under.is_empty() {
                lines.push(under.repeat(longest));
            }
            lines
        }
        Block::Paragraph(inlines) => wrap(&words_of(inlines), columns),
        Block::List { ordered_from, items } => list(*ordered_from, items, columns, words),
        Block::Table(content) => table::set(content, columns, words),
        Block::Boxed(content) => boxed(content, columns, words),
        Block::Drawing(drawing) => wrap(&words.drawing(&drawing.alt), columns),
        Block::Rule => vec!["-".repeat(columns)],
    }
}

fn list(ordered_from: Option<u64>, items: &[Vec<Block>], columns: usize, words: &PageWords) -> Vec<String> {
    let last = ordered_from.map(|first| first.saturating_add(items.len() as u64));
    let indent = last.map_or(2, |last| last.to_string().len() + 2);
    let mut lines = Vec::new();
    for (n, item) in items.iter().enumerate() {
        let marker = match ordered_from {
            Some(first) => format!("{}.", first.saturating_add(n as u64)),
            None => "-".to_owned(),
        };
        let mut first = true;
        for block in item {
            for line in one(block, columns.saturating_sub(indent).max(8), words) {
                let lead = if first { marker.as_str() } else { "" };
                lines.push(format!("{lead:<indent$}{line}"));
                first = false;
            }
        }
        if first {
            lines.push(marker);
        }
    }
    lines
}

fn boxed(content: &[Block], columns: usize, words: &PageWords) -> Vec<String> {
    let inner = columns.saturating_sub(4).max(8);
    let edge = format!("+{}+", "-".repeat(inner + 2));
    let mut lines = vec![edge.clone()];
    for line in blocks(content, inner, words) {
        let pad = " ".repeat(inner.saturating_sub(width(&line)));
        lines.push(format!("| {line}{pad} |"));
    }
    lines.push(edge);
    lines
}
