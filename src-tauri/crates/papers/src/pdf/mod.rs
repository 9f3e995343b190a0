//! Blocks to PDF: layout is ours, printpdf draws, and a last step completes the file.
//!
//! `shape` and `lines` set words, `flow` and `table` make strips of blocks, `pages` cuts, `ink`
//! and `sketch` draw, `finish` adds fonts and properties. Nothing here reads a clock or a file.

mod finish;
mod flow;
mod frame;
mod ink;
mod lines;
mod look;
mod mark;
mod pages;
mod piece;
mod shape;
mod sketch;
mod table;

use std::collections::BTreeSet;

use printpdf::{Op, PdfDocument, PdfPage, PdfSaveOptions, Pt};
use thiserror::Error;

use crate::document::Document;
use crate::drawing::Tone;
use crate::fonts::{FontError, Fonts, Style};

use finish::Entry;
use flow::Builder;
use frame::{Area, Furniture};
use ink::Ink;
use look::{HAIRLINE, HAIRLINE_GREY, SIDE, SMALL};
use pages::Sheet;
use piece::{Flow, Mark};
use shape::Shaper;

/// Holds a finished PDF and what the reader of it should know.
#[derive(Debug, Clone)]
pub struct Pdf {
    /// The file.
    pub bytes: Vec<u8>,
    /// How many pages it has.
    pub pages: usize,
    /// What could not be shown as it was typed.
    pub warnings: Vec<Warning>,
}

/// Says what a PDF does not show as it was typed.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum Warning {
    /// The built-in fonts have no such character; the page shows a box in its place.
    #[error(
        "the character \"{0}\" (U+{code:04X}) is not in the paper's fonts and prints as a box; type it in another way",
        code = u32::from(*.0)
    )]
    MissingCharacter(char),
}

/// Says why a PDF could not be written.
#[derive(Debug, Error)]
pub enum PdfError {
    /// The drawn file could not be completed.
    #[error("the PDF could not be completed: {0}")]
    Unfinished(#[from] lopdf::Error),
    /// A built-in font cannot be embedded.
    #[error(transparent)]
    Font(#[from] FontError),
    /// The bytes could not be put together.
    #[error("the PDF could not be written: {0}")]
    Unwritten(#[from] std::io::Error),
}

/// Writes a document as PDF; the same document gives the same bytes.
///
/// # Errors
/// [`PdfError`] if the file cannot be completed; the document's content is never the reason.
pub fn write(document: &Document, fonts: &Fonts) -> Result<Pdf, PdfError> {
    let (width, height) = document.page.size_pt();
    let column = width - 2.0 * SIDE;
    let mut shaper = Shaper::new(fonts);
    let mut builder = Builder::new(&mut shaper, height);
    let furniture = Furniture::set(&mut builder, document, column);
    let area = furniture.area(height);
    builder.height = area.height;
    builder.blocks(&document.blocks, 0.0, column);
    let flow = builder.flow;
    let sheets = pages::cut(&flow, area.height);

    let mut file = PdfDocument::new(&document.title);
    let mut across = Vec::new();
    if let Some(words) = &document.mark {
        let (id, object, draw) = mark::across(words, fonts, (width, height));
        file.resources.xobjects.map.insert(id, object);
        across.push(draw);
    }
    let mut used = BTreeSet::new();
    let mut entries = Vec::new();
    for (n, sheet) in sheets.iter().enumerate() {
        let mut ink = Ink::new(height);
        head(&mut ink, &furniture, column);
        text(&mut ink, &mut shaper, &flow, sheet, area);
        foot(&mut ink, &mut shaper, &furniture, (n + 1, sheets.len()), (column, height));
        for (y, piece) in &sheet.placed {
            if let Some((level, title)) = &piece.outline {
                entries.push(Entry {
                    level: *level,
                    title: title.clone(),
                    page: n,
                    top: (height - area.top - y + 6.0).min(height),
                });
            }
        }
        let (ops, parts) = ink.finish(across.clone());
        used.extend(parts);
        file.pages.push(page(width, height, ops));
    }
    let options = PdfSaveOptions { optimize: false, subset_fonts: false, secure: true, image_optimization: None };
    let drawn = file.to_lopdf_document(&options, &mut Vec::new());
    let bytes = finish::finish(drawn, document, fonts, used, &entries)?;
    Ok(Pdf {
        bytes,
        pages: sheets.len(),
        warnings: shaper.missing.into_iter().map(Warning::MissingCharacter).collect(),
    })
}

fn page(width: f32, height: f32, ops: Vec<Op>) -> PdfPage {
    PdfPage::new(Pt(width).into(), Pt(height).into(), ops)
}

fn head(ink: &mut Ink, furniture: &Furniture, column: f32) {
    let (line, words) = furniture.head();
    for (placed, y) in words {
        ink.words(SIDE + placed.x, y, placed.size, placed.tone, &placed.line.glyphs);
    }
    ink.hairline(SIDE, line, column, HAIRLINE, HAIRLINE_GREY);
}

fn foot(
    ink: &mut Ink,
    shaper: &mut Shaper<'_>,
    furniture: &Furniture,
    (number, count): (usize, usize),
    (column, height): (f32, f32),
) {
    let (line, words) = furniture.foot(height);
    ink.hairline(SIDE, line, column, HAIRLINE, HAIRLINE_GREY);
    for (placed, y) in words {
        ink.words(SIDE + placed.x, y, placed.size, placed.tone, &placed.line.glyphs);
    }
    let (mut text, mut glyphs) = (String::new(), Vec::new());
    let words = format!("Page {number} of {count}");
    shaper.append(&words, Style::Regular, &mut text, &mut glyphs);
    let width = glyphs.iter().map(|g| g.advance).sum::<f32>() * SMALL.size / 1000.0;
    let y = line + 4.0 + SMALL.baseline();
    ink.words(SIDE + column - width, y, SMALL.size, Tone::Soft, &glyphs);
}

/// Draws what stands on a page between head and foot.
fn text(ink: &mut Ink, shaper: &mut Shaper<'_>, flow: &Flow, sheet: &Sheet<'_>, area: Area) {
    for (frame, top, bottom) in &sheet.boxes {
        if let Some(frame) = flow.frames.get(*frame) {
            let (x, y, tall) = (SIDE + frame.x, area.top + top, bottom - top);
            let ground = if frame.inside { look::GROUND_IN_BOX } else { look::GROUND };
            ink.ground(x, y, frame.width, tall, ground);
            ink.ground(x, y, look::BOX_BAR, tall, Tone::Accent.rgb().unwrap_or_default());
        }
    }
    for (top, piece) in &sheet.placed {
        let top = area.top + top;
        for mark in &piece.marks {
            match mark {
                Mark::Words { x, y, size, tone, glyphs } => ink.words(SIDE + x, top + y, *size, *tone, glyphs),
                Mark::Ground { x, y, width, height } => {
                    let ground = if piece.frames.is_empty() { look::GROUND } else { look::GROUND_IN_BOX };
                    ink.ground(SIDE + x, top + y, *width, *height, ground);
                }
                Mark::Hairline { x, y, width } => {
                    ink.hairline(SIDE + x, top + y, *width, HAIRLINE, HAIRLINE_GREY);
                }
                Mark::Drawing { x, y, scale, drawing } => {
                    sketch::draw(ink, shaper, drawing, (SIDE + x, top + y), *scale)
                }
            }
        }
    }
}
