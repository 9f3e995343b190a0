//! Blocks: the structure of a paper between Markdown and the writers.
//!
//! Only what a paper may contain has a form here. Raw HTML, links and unknown pictures have
//! none: they become plain words, so that a person's typing can never change a page's structure.

mod read;

use thiserror::Error;

use crate::drawing::Drawing;

pub use read::parse;

/// Holds one part of a paper.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// A heading, level 1 to 6.
    Heading {
        /// 1 is the paper's own title.
        level: u8,
        /// The words.
        inlines: Inlines,
    },
    /// Running text.
    Paragraph(Inlines),
    /// A list with bullets or numbers.
    List {
        /// First number; nothing for bullets.
        ordered_from: Option<u64>,
        /// The items, each of one or more blocks.
        items: Vec<Vec<Block>>,
    },
    /// A table.
    Table(Table),
    /// A caution or notice in a frame (a Markdown quotation).
    Boxed(Vec<Block>),
    /// A drawing from the paper's own drawings.
    Drawing(Drawing),
    /// A thin line across the page.
    Rule,
}

/// Holds a table; every row has as many cells as `align` has entries.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Table {
    /// Header cells; all of them empty means that no header is printed.
    pub header: Vec<Inlines>,
    /// Body rows.
    pub rows: Vec<Vec<Inlines>>,
    /// Alignment of each column.
    pub align: Vec<Align>,
}

impl Table {
    /// Tells whether any header cell holds words.
    pub fn has_header(&self) -> bool {
        self.header.iter().any(|cell| !words_of(cell).trim().is_empty())
    }
}

/// Names the side at which a column's text stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Align {
    /// At the left.
    #[default]
    Left,
    /// In the middle.
    Centre,
    /// At the right.
    Right,
}

/// Running text as a list of parts.
pub type Inlines = Vec<Inline>;

/// Holds a part of running text.
#[derive(Debug, Clone, PartialEq)]
pub enum Inline {
    /// Words in one face.
    Text {
        /// The words; never holds a line feed.
        text: String,
        /// Heavier letters.
        strong: bool,
        /// Slanted letters.
        emphasis: bool,
    },
    /// A line ends here, whatever its width.
    Break,
    /// A drawing; only in a table's cell, and alone there.
    Drawing(Box<Drawing>),
}

impl Inline {
    /// Makes plain words.
    pub fn plain(text: impl Into<String>) -> Self {
        Self::Text { text: text.into(), strong: false, emphasis: false }
    }
}

/// Joins the words of running text; a hard line break becomes a line feed, a drawing its words.
pub fn words_of(inlines: &[Inline]) -> String {
    inlines
        .iter()
        .map(|inline| match inline {
            Inline::Text { text, .. } => text.as_str(),
            Inline::Break => "\n",
            Inline::Drawing(drawing) => drawing.alt.as_str(),
        })
        .collect()
}

/// Says why Markdown could not become blocks.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum BlockError {
    /// The text asks for a drawing that the paper does not have.
    #[error("the template asks for the drawing \"{name}\", which this paper does not have; known drawings: {known}")]
    UnknownDrawing {
        /// The name after `drawing:`.
        name: String,
        /// The names that exist, or `none`.
        known: String,
    },
    /// Lists and boxes stand deeper inside each other than a page can show.
    #[error("lists and boxes stand more than {0} deep inside each other")]
    TooDeep(usize),
    /// A table has more columns than a page can show.
    #[error("a table has {0} columns; a page holds {1} at most")]
    TooWide(usize, usize),
}
