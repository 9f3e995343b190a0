//! Where the cautions stand in a letter. They become blocks by themselves, so that nothing that a
//! template leaves open can swallow, hide or re-shape them.
//!
//! Invariant: a letter holds its cautions, in their boxes, whatever the template is.

use std::collections::BTreeMap;

use pulldown_cmark::{Event, Options, Parser, Tag};

use crate::blocks::{self, Block, BlockError};
use crate::drawing::Drawing;

/// The line in a letter at which the cautions stand. Typed text cannot make it: a value that begins
/// with `@` is escaped.
pub(super) const PLACE: &str = "@cautions";

/// A paper's Markdown in parts that are read one by one: no part can reach into the next.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Body {
    parts: Vec<String>,
    /// What the template made of the place of the cautions.
    pub asked: Asked,
}

/// What a template asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Asked {
    /// Nothing: the cautions stand at the end, or there are none in this paper.
    Nothing,
    /// A place at which they can stand.
    Place,
    /// A place inside something else; they stand at the end.
    Nested,
}

impl Body {
    /// Makes a body of one part.
    pub fn whole(markdown: &str) -> Self {
        Self { parts: held([tidy(markdown)]), asked: Asked::Nothing }
    }

    /// Puts the cautions where the template asks for them; at the end where it does not, or asks for a
    /// place inside something else; at the beginning where the end is inside something left open.
    pub fn with_cautions(markdown: &str, cautions: &str) -> Self {
        // Each mark in a paragraph of its own, so that it can be told where it stands.
        let mut apart = String::with_capacity(markdown.len() + 16);
        let mut marks = 0;
        for line in markdown.lines() {
            let is_mark = line.trim() == PLACE;
            marks += usize::from(is_mark || bare(line) == PLACE);
            let blank = if is_mark { "\n" } else { "" };
            apart.extend([blank, line, "\n", blank]);
        }
        let (before, after, asked) = match place(&apart) {
            Some((start, end)) => (&apart[..start], &apart[end..], Asked::Place),
            None => {
                let asked = if marks == 0 { Asked::Nothing } else { Asked::Nested };
                if is_closed(&apart) { (apart.as_str(), "", asked) } else { ("", apart.as_str(), asked) }
            }
        };
        let parts = [without_marks(before), cautions.to_owned(), without_marks(after)];
        Self { parts: held(parts.map(|part| tidy(&part))), asked }
    }

    /// Puts a part before all others.
    pub fn put_first(&mut self, markdown: &str) {
        self.parts.insert(0, tidy(markdown));
    }

    /// Puts a part after all others; before the last one where that leaves something open, which in the
    /// Markdown of the whole would swallow it.
    pub fn put_last(&mut self, markdown: &str) {
        let open = self.parts.last().is_some_and(|last| !is_closed(last));
        let at = self.parts.len() - usize::from(open);
        self.parts.insert(at, tidy(markdown));
    }

    /// Gives the whole as Markdown.
    pub fn markdown(&self) -> String {
        self.parts.join("\n")
    }

    /// Reads the parts into blocks.
    ///
    /// # Errors
    /// [`BlockError`] where a part asks for something that blocks do not have.
    pub fn blocks(&self, drawings: &BTreeMap<String, Drawing>) -> Result<Vec<Block>, BlockError> {
        let mut all = Vec::new();
        for part in &self.parts {
            all.extend(blocks::parse(part, drawings)?);
        }
        Ok(all)
    }
}

/// Leaves out parts without words.
fn held<const N: usize>(parts: [String; N]) -> Vec<String> {
    parts.into_iter().filter(|part| !part.is_empty()).collect()
}

/// Tells whether Markdown leaves nothing open at its end: what follows stands by itself.
pub(super) fn is_closed(markdown: &str) -> bool {
    let with_mark = format!("{}\n\n{PLACE}\n", without_marks(markdown));
    place(&with_mark).is_some()
}

/// Finds the first mark that stands by itself, not inside a list, box, table, code or HTML.
fn place(markdown: &str) -> Option<(usize, usize)> {
    let mut depth = 0_usize;
    for (event, range) in Parser::new_ext(markdown, Options::ENABLE_TABLES).into_offset_iter() {
        match event {
            Event::Start(Tag::Paragraph) if depth == 0 && markdown[range.clone()].trim() == PLACE => {
                return Some((range.start, range.end));
            }
            Event::Start(_) => depth += 1,
            Event::End(_) => depth = depth.saturating_sub(1),
            _ => {}
        }
    }
    None
}

/// A line without the signs that put it inside a list, box or table.
fn bare(line: &str) -> &str {
    line.trim_matches(|sign: char| sign.is_whitespace() || ">-*+|#".contains(sign))
}

fn without_marks(markdown: &str) -> String {
    markdown.lines().filter(|line| bare(line) != PLACE).flat_map(|line| [line, "\n"]).collect()
}

/// Takes out the blank lines that conditions left behind: one blank line between blocks.
fn tidy(markdown: &str) -> String {
    let mut tidy = String::with_capacity(markdown.len());
    let mut blank = true;
    for line in markdown.lines().map(str::trim_end) {
        if line.is_empty() {
            blank = true;
            continue;
        }
        if blank && !tidy.is_empty() {
            tidy.push('\n');
        }
        blank = false;
        tidy.push_str(line);
        tidy.push('\n');
    }
    tidy
}
