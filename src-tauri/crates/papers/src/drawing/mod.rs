//! Small drawings: one list of shapes that becomes SVG in HTML and vector operators in PDF.
//!
//! Deliberately not a picture format: six shapes, a few tones, millimetres, origin at the
//! top left, y downwards. Every tone stays apart from its neighbours in grey print.

mod svg;

pub use svg::write as svg;

/// Holds one drawing and the words that stand for it where it cannot be shown.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Drawing {
    /// Width in millimetres.
    pub width_mm: f32,
    /// Height in millimetres.
    pub height_mm: f32,
    /// Shapes in painting order.
    pub shapes: Vec<Shape>,
    /// What the drawing says, in words; printed by the text writer.
    pub alt: String,
}

/// Names a tone of the palette.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Tone {
    /// Text and main outlines, near black.
    Ink,
    /// Secondary lines and labels, middle grey.
    Soft,
    /// The one accent: a deep blue that prints as dark grey.
    Accent,
    /// A light ground.
    Fill,
    /// White, for letters on the accent.
    Paper,
    /// True black, for codes that machines read.
    Black,
    /// Nothing is painted.
    #[default]
    None,
}

impl Tone {
    /// Returns red, green and blue (0 to 255), or nothing for [`Tone::None`].
    pub fn rgb(self) -> Option<[u8; 3]> {
        match self {
            Self::Ink => Some([0x1f, 0x23, 0x28]),
            Self::Soft => Some([0x6b, 0x71, 0x78]),
            Self::Accent => Some([0x23, 0x4e, 0x70]),
            Self::Fill => Some([0xea, 0xed, 0xf0]),
            Self::Paper => Some([0xff, 0xff, 0xff]),
            Self::Black => Some([0, 0, 0]),
            Self::None => None,
        }
    }
}

/// Names the point of a text that stands at its position.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Anchor {
    /// The text begins here.
    #[default]
    Start,
    /// The text is centred here.
    Middle,
    /// The text ends here.
    End,
}

/// Holds one shape; all lengths are millimetres.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// A straight line.
    Line {
        /// Start, x and y.
        from: (f32, f32),
        /// End, x and y.
        to: (f32, f32),
        /// Colour of the line.
        stroke: Tone,
        /// Thickness.
        thickness_mm: f32,
        /// Broken into dashes.
        dashed: bool,
    },
    /// Straight lines through points; closed ones can be filled.
    Path {
        /// The points, x and y.
        points: Vec<(f32, f32)>,
        /// Joins the last point to the first.
        closed: bool,
        /// Ground.
        fill: Tone,
        /// Outline.
        stroke: Tone,
        /// Thickness of the outline.
        thickness_mm: f32,
    },
    /// A rectangle.
    Rect {
        /// Top left corner, x and y.
        at: (f32, f32),
        /// Width and height.
        size: (f32, f32),
        /// Ground.
        fill: Tone,
        /// Outline.
        stroke: Tone,
        /// Thickness of the outline.
        thickness_mm: f32,
    },
    /// A circle.
    Circle {
        /// Centre, x and y.
        at: (f32, f32),
        /// Radius.
        radius_mm: f32,
        /// Ground.
        fill: Tone,
        /// Outline.
        stroke: Tone,
        /// Thickness of the outline.
        thickness_mm: f32,
    },
    /// A square grid of cells, the set ones filled as one area: no seams between neighbours.
    Cells {
        /// Top left corner, x and y.
        at: (f32, f32),
        /// Side of one cell.
        cell_mm: f32,
        /// Rows from the top, cells from the left.
        rows: Vec<Vec<bool>>,
        /// Colour of the set cells.
        fill: Tone,
    },
    /// One line of text.
    Text {
        /// Position of the baseline, x and y.
        at: (f32, f32),
        /// The words.
        words: String,
        /// Which point of the text stands at the position.
        anchor: Anchor,
        /// Height of the letters (font size).
        size_mm: f32,
        /// Heavier letters.
        bold: bool,
        /// Colour.
        tone: Tone,
    },
}

/// Gives the runs of set cells in a grid: row, first cell, number of cells.
pub(crate) fn runs(rows: &[Vec<bool>]) -> impl Iterator<Item = (usize, usize, usize)> {
    rows.iter().enumerate().flat_map(|(row, cells)| {
        let mut next = 0;
        std::iter::from_fn(move || {
            let first = next + cells.get(next..)?.iter().position(|set| *set)?;
            let count = cells[first..].iter().take_while(|set| **set).count();
            next = first + count;
            Some((row, first, count))
        })
    })
}
