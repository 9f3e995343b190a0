//! One paper after the other onto pages: layout, head and foot, text, words across.

use std::collections::BTreeSet;

use printpdf::{Op, PdfDocument, PdfPage, Pt};

use crate::document::{Document, Page};
use crate::drawing::Tone;
use crate::fonts::{Fonts, PartId, Style};

use super::finish::Entry;
use super::flow::Builder;
use super::frame::{Area, Furniture};
use super::ink::{Content, Ink};
use super::look::{self, HAIRLINE, HAIRLINE_GREY, Look};
use super::pages::{self, Sheet};
use super::piece::{Flow, Mark};
use super::shape::Shaper;
use super::structure::Structured;
use super::{mark, sketch};

/// Holds a file while papers are drawn into it.
pub(super) struct Drawing<'f> {
    fonts: &'f Fonts,
    pub file: PdfDocument,
    pub shaper: Shaper<'f>,
    pub used: BTreeSet<PartId>,
    pub entries: Vec<Entry>,
    pub structures: Vec<Structured>,
    /// Words across a sheet that are already in the file, and how they are drawn.
    across: Vec<(String, Page, Op)>,
}

impl<'f> Drawing<'f> {
    pub(super) fn new(title: &str, fonts: &'f Fonts) -> Self {
        Self {
            fonts,
            file: PdfDocument::new(title),
            shaper: Shaper::new(fonts),
            used: BTreeSet::new(),
            entries: Vec::new(),
            structures: Vec::new(),
            across: Vec::new(),
        }
    }

    /// Puts the paper that comes next into the outline, above its headings.
    pub(super) fn announce(&mut self, document: &Document) {
        let name = document.head.first().map(|fact| fact.value.as_str()).unwrap_or_default();
        let title = [document.title.as_str(), name].into_iter().filter(|words| !words.is_empty());
        self.entries.push(Entry {
            level: 0,
            title: title.collect::<Vec<_>>().join(", "),
            page: self.file.pages.len(),
            top: document.page.size_pt().1,
        });
    }

    /// Sets a paper on pages of its own, numbered from one.
    pub(super) fn paper(&mut self, document: &Document) {
        let look = Look::of(document.page);
        let (width, height) = document.page.size_pt();
        let column = width - 2.0 * look.side;
        let mut builder = Builder::new(&mut self.shaper, look, height);
        let furniture = Furniture::set(&mut builder, document, column);
        let area = furniture.area(height);
        builder.height = area.height;
        for blocks in [&furniture.opening, &document.blocks, &furniture.closing] {
            builder.blocks(blocks, 0.0, column);
        }
        let mut flow = builder.flow;
        furniture.close(&mut flow.tags);
        let sheets = pages::cut(&flow, look, area.height);
        let across: Vec<Op> = document.mark.iter().map(|words| self.mark(words, document.page)).collect();
        let mut shown = Vec::with_capacity(sheets.len());
        for (n, sheet) in sheets.iter().enumerate() {
            let mut ink = Ink::new(height, &flow.tags);
            head(&mut ink, &furniture, n == 0, column);
            text(&mut ink, &mut self.shaper, look, &flow, sheet, area);
            foot(&mut ink, &mut self.shaper, &furniture, (n + 1, sheets.len()), (column, height));
            for (y, piece) in &sheet.placed {
                if let Some((level, title)) = &piece.outline {
                    self.entries.push(Entry {
                        level: *level,
                        title: title.clone(),
                        page: self.file.pages.len(),
                        top: (height - area.top - y + 6.0).min(height),
                    });
                }
            }
            let (ops, parts, marked) = ink.finish(across.clone());
            self.used.extend(parts);
            shown.push(marked);
            self.file.pages.push(PdfPage::new(Pt(width).into(), Pt(height).into(), ops));
        }
        self.structures.push(Structured {
            tags: flow.tags,
            language: document.language.clone(),
            title: document.title.clone(),
            pages: shown,
        });
    }

    /// Returns how words are drawn across a sheet; their outlines go into the file once.
    fn mark(&mut self, words: &str, page: Page) -> Op {
        if let Some((_, _, draw)) = self.across.iter().find(|(known, sheet, _)| known == words && *sheet == page) {
            return draw.clone();
        }
        let name = format!("Mark{}", self.across.len());
        let (id, object, draw) = mark::across(words, name, self.fonts, page.size_pt());
        self.file.resources.xobjects.map.insert(id, object);
        self.across.push((words.to_owned(), page, draw.clone()));
        draw
    }
}

/// Draws the head; it is read once, on the first page.
fn head(ink: &mut Ink<'_>, furniture: &Furniture, first: bool, column: f32) {
    let side = furniture.look.side;
    let (line, words) = furniture.head();
    for (placed, y) in words {
        ink.content(placed.tag.filter(|_| first).map_or(Content::Head, Content::Element));
        ink.words(side + placed.x, y, placed.size, placed.tone, &placed.line.glyphs);
    }
    ink.hairline(side, line, column, HAIRLINE, HAIRLINE_GREY);
}

/// Draws the foot; but for the page number it is read once, on the last page.
fn foot(
    ink: &mut Ink<'_>,
    shaper: &mut Shaper<'_>,
    furniture: &Furniture,
    (number, count): (usize, usize),
    (column, height): (f32, f32),
) {
    let (side, small) = (furniture.look.side, furniture.look.small);
    let (line, words) = furniture.foot(height);
    ink.hairline(side, line, column, HAIRLINE, HAIRLINE_GREY);
    for (placed, y) in words {
        let read = placed.tag.filter(|_| number == count);
        ink.content(read.map_or(Content::Foot, Content::Element));
        ink.words(side + placed.x, y, placed.size, placed.tone, &placed.line.glyphs);
    }
    let (mut text, mut glyphs) = (String::new(), Vec::new());
    let words = furniture.words.page(number, count);
    shaper.append(&words, Style::Regular, &mut text, &mut glyphs);
    let width = glyphs.iter().map(|g| g.advance).sum::<f32>() * small.size / 1000.0;
    let y = line + 4.0 + small.baseline();
    ink.content(Content::Foot);
    ink.words(side + column - width, y, small.size, Tone::Soft, &glyphs);
}

/// Draws what stands on a page between head and foot.
fn text(ink: &mut Ink<'_>, shaper: &mut Shaper<'_>, look: &Look, flow: &Flow, sheet: &Sheet<'_>, area: Area) {
    let side = look.side;
    for (frame, top, bottom) in &sheet.boxes {
        if let Some(frame) = flow.frames.get(*frame) {
            let (x, y, tall) = (side + frame.x, area.top + top, bottom - top);
            let ground = if frame.inside { look::GROUND_IN_BOX } else { look::GROUND };
            ink.ground(x, y, frame.width, tall, ground);
            ink.ground(x, y, look.box_bar, tall, Tone::Accent.rgb().unwrap_or_default());
        }
    }
    for (top, piece) in &sheet.placed {
        let top = area.top + top;
        for mark in &piece.marks {
            match mark {
                Mark::Words { x, y, size, tone, glyphs, tag } => {
                    ink.content(Content::of(*tag));
                    ink.words(side + x, top + y, *size, *tone, glyphs);
                }
                Mark::Ground { x, y, width, height } => {
                    let ground = if piece.frames.is_empty() { look::GROUND } else { look::GROUND_IN_BOX };
                    ink.ground(side + x, top + y, *width, *height, ground);
                }
                Mark::Hairline { x, y, width } => {
                    ink.hairline(side + x, top + y, *width, HAIRLINE, HAIRLINE_GREY);
                }
                Mark::Drawing { x, y, scale, drawing, tag } => {
                    ink.content(Content::of(*tag));
                    let size = (drawing.width_mm * scale, drawing.height_mm * scale);
                    if let Some(tag) = tag {
                        ink.bounds(*tag, (side + x, top + y), size);
                    }
                    sketch::draw(ink, shaper, drawing, (side + x, top + y), *scale);
                }
            }
        }
    }
}
