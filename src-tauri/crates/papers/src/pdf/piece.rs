//! Pieces: strips of a page that are never cut, with what may follow or stand around them.

use crate::blocks::Inline;
use crate::drawing::{Drawing, Tone};

use super::shape::Glyph;
use super::tags::{Tag, Tags};

/// Holds one strip: usually a line of text, a table row or a drawing. Lengths in points.
#[derive(Debug, Clone, Default)]
pub(super) struct Piece {
    pub height: f32,
    /// Space above, dropped at the top of a page.
    pub before: f32,
    /// Stands on the same page as the next piece.
    pub keep: bool,
    /// Frames around it, outermost first; numbers of [`Flow::frames`].
    pub frames: Vec<usize>,
    /// Table that it is a row of; number of [`Flow::headers`].
    pub table: Option<usize>,
    /// Is a box's own padding, above or below what the box holds.
    pub pad: bool,
    /// Is that table's header row.
    pub header: bool,
    /// Where its first line of text stands, from its top.
    pub baseline: f32,
    /// Heading that it begins, for the file's outline.
    pub outline: Option<(u8, String)>,
    pub marks: Vec<Mark>,
}

impl Piece {
    /// Returns the piece as it is drawn once more: seen again, not read again.
    pub(super) fn repeated(&self) -> Self {
        let mut again = self.clone();
        for mark in &mut again.marks {
            match mark {
                Mark::Words { tag, .. } | Mark::Drawing { tag, .. } => *tag = None,
                Mark::Ground { .. } | Mark::Hairline { .. } => {}
            }
        }
        again
    }
}

/// Holds something drawn; x from the left edge of the text, y from the piece's top.
#[derive(Debug, Clone)]
pub(super) enum Mark {
    /// One line of text; `y` is its baseline. Without a tag it is not part of what is read.
    Words { x: f32, y: f32, size: f32, tone: Tone, glyphs: Vec<Glyph>, tag: Option<Tag> },
    /// A lightly tinted rectangle, painted under everything else.
    Ground { x: f32, y: f32, width: f32, height: f32 },
    /// A thin line, straight across.
    Hairline { x: f32, y: f32, width: f32 },
    /// A drawing at `scale` points per millimetre.
    Drawing { x: f32, y: f32, scale: f32, drawing: Drawing, tag: Option<Tag> },
}

/// A boxed block's frame.
#[derive(Debug, Clone, Copy)]
pub(super) struct Frame {
    pub x: f32,
    pub width: f32,
    /// Stands in another box.
    pub inside: bool,
}

/// Holds a whole paper as one long strip, before it is cut into pages.
#[derive(Debug, Default)]
pub(super) struct Flow {
    pub pieces: Vec<Piece>,
    pub frames: Vec<Frame>,
    /// Header row of each table, drawn again at the top of every page that the table reaches.
    pub headers: Vec<Option<Piece>>,
    /// What the pieces belong to.
    pub tags: Tags,
}

/// Makes running text of plain words.
pub(super) fn plain(words: &str, strong: bool) -> Vec<Inline> {
    vec![Inline::Text { text: words.to_owned(), strong, emphasis: false }]
}
