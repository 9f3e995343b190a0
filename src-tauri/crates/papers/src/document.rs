//! A paper as every writer takes it: identity, foot, marks and blocks.
//!
//! Nothing here knows how a page looks. The time of making is an argument: no writer reads
//! a clock, so the same document always gives the same bytes.

use chrono::NaiveDateTime;

use crate::blocks::Block;

/// Holds everything that a text, HTML or PDF writer needs for one paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Document {
    /// Names the paper; shown in every page's head and in the file's properties.
    pub title: String,
    /// Language tag of the text (BCP 47), for example `en-GB`.
    pub language: String,
    /// Person who wrote the paper.
    pub author: String,
    /// One line about the content, for the file's properties.
    pub subject: String,
    /// Local time at which the paper was made; becomes the file's dates.
    pub made_at: NaiveDateTime,
    /// Identity for every page; the first fact (the person's name) is set largest.
    pub head: Vec<Fact>,
    /// Foot of every page: template name and version, author, time.
    pub foot: String,
    /// Words printed across every page, such as "DRAFT, NOT SIGNED".
    pub mark: Option<String>,
    /// Says on every page that the patient is invented.
    pub demonstration: bool,
    /// Sheet that the PDF is set for.
    pub page: Page,
    /// Words that the program itself puts on a page.
    pub words: PageWords,
    /// Content in reading order.
    pub blocks: Vec<Block>,
}

/// Holds one fact of a page's head: `Born` and `3 May 1950`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fact {
    /// What the value is; may be empty when the value speaks for itself.
    pub label: String,
    /// The value, as it is to be read.
    pub value: String,
}

impl Fact {
    /// Makes a fact from its label and its value.
    pub fn new(label: impl Into<String>, value: impl Into<String>) -> Self {
        Self { label: label.into(), value: value.into() }
    }

    /// Joins label and value for running text.
    pub fn in_words(&self) -> String {
        if self.label.is_empty() { self.value.clone() } else { format!("{} {}", self.label, self.value) }
    }
}

/// Names a sheet size.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Page {
    /// 210 × 297 mm.
    #[default]
    A4,
    /// 8.5 × 11 inches.
    Letter,
    /// 105 × 74 mm, landscape (A7 of ISO 216): fits a pocket.
    Wallet,
}

impl Page {
    /// Returns width and height in points (1/72 inch).
    pub fn size_pt(self) -> (f32, f32) {
        match self {
            Self::A4 => (595.28, 841.89),
            Self::Letter => (612.0, 792.0),
            Self::Wallet => (297.64, 209.76),
        }
    }
}

/// Holds the words that stand on every page, in the paper's language.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PageWords {
    /// With `{page}` and `{pages}` for the numbers.
    pub page_of: String,
    /// Sentence that every page of an invented patient's paper carries.
    pub demonstration: String,
    /// What a drawing is called where only its words can stand.
    pub drawing: String,
}

impl PageWords {
    /// Writes the page number in words.
    pub fn page(&self, number: usize, count: usize) -> String {
        self.page_of.replace("{page}", &number.to_string()).replace("{pages}", &count.to_string())
    }

    /// Writes a drawing's words as they stand in plain text.
    pub fn drawing(&self, alt: &str) -> String {
        format!("[{}: {alt}]", self.drawing)
    }
}

impl Default for PageWords {
    /// Gives the English words.
    fn default() -> Self {
        crate::words::of(crate::Language::En).of_page()
    }
}
