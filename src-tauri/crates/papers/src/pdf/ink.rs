//! Marks to printpdf operations, keeping track of font, colour and pen.
//!
//! Coordinates come in from the sheet's top left; the file counts from the bottom left.

use std::collections::{BTreeMap, BTreeSet};

use printpdf::{
    Codepoint, Color, DictItem, FontId, Greyscale, Line, LinePoint, Op, PaintMode, PdfFontHandle, Point, Pt, Rect, Rgb,
    TextItem, TextMatrix,
};

use crate::drawing::Tone;
use crate::fonts::PartId;

use super::shape::Glyph;

/// Gathers one page's operations; grounds are apart, as they go under everything.
pub(super) struct Ink {
    height: f32,
    pub grounds: Vec<Op>,
    pub ops: Vec<Op>,
    pub used: BTreeSet<PartId>,
    writing: bool,
    font: Option<(PartId, f32)>,
    tone: Option<Tone>,
}

impl Ink {
    pub(super) fn new(height: f32) -> Self {
        Self {
            height,
            grounds: Vec::new(),
            ops: Vec::new(),
            used: BTreeSet::new(),
            writing: false,
            font: None,
            tone: None,
        }
    }

    /// Writes one line of glyphs with its baseline at `y` from the top.
    pub(super) fn words(&mut self, x: f32, y: f32, size: f32, tone: Tone, glyphs: &[Glyph]) {
        let Some(first) = glyphs.first() else { return };
        if !self.writing {
            self.ops.push(Op::StartTextSection);
            self.writing = true;
        }
        self.fill(tone);
        let matrix = TextMatrix::Translate(Pt(round(x)), Pt(round(self.height - y)));
        self.select(first.placed.part, size);
        self.ops.push(Op::SetTextMatrix { matrix });
        // Thousandths of the size: where the pen is, and where the text wants it.
        let (mut pen, mut place) = (0.0_f32, 0.0_f32);
        let mut items: Vec<TextItem> = Vec::new();
        let mut run: Vec<Codepoint> = Vec::new();
        let mut spoken = false;
        for glyph in glyphs {
            let changes = self.font != Some((glyph.placed.part, size));
            if changes || glyph.means.is_some() || glyph.up != 0.0 || (spoken && !glyph.joined) {
                self.show(&mut items, &mut run);
            }
            if spoken && !glyph.joined {
                self.ops.push(Op::EndMarkedContent);
                spoken = false;
            }
            if let Some(means) = &glyph.means {
                self.ops.push(span(means));
                spoken = true;
            }
            self.select(glyph.placed.part, size);
            let target = place + glyph.right;
            let shift = (pen - target).round();
            if shift != 0.0 {
                pen -= shift;
                match run.last_mut() {
                    Some(last) => last.offset = shift,
                    None => items.push(TextItem::Offset(shift)),
                }
            }
            run.push(Codepoint::new(glyph.placed.cid, 0.0));
            pen += f32::from(glyph.placed.width);
            place += glyph.advance;
            if glyph.up != 0.0 {
                self.ops.push(rise(glyph.up * size / 1000.0));
                self.show(&mut items, &mut run);
                self.ops.push(rise(0.0));
            }
        }
        self.show(&mut items, &mut run);
        if spoken {
            self.ops.push(Op::EndMarkedContent);
        }
    }

    fn show(&mut self, items: &mut Vec<TextItem>, run: &mut Vec<Codepoint>) {
        if !run.is_empty() {
            items.push(TextItem::GlyphIds(std::mem::take(run)));
        }
        if !items.is_empty() {
            self.ops.push(Op::ShowText { items: std::mem::take(items) });
        }
    }

    fn select(&mut self, part: PartId, size: f32) {
        if self.font != Some((part, size)) {
            self.font = Some((part, size));
            self.used.insert(part);
            self.ops.push(Op::SetFont { font: PdfFontHandle::External(FontId(part.resource())), size: Pt(size) });
        }
    }

    fn fill(&mut self, tone: Tone) {
        if self.tone != Some(tone)
            && let Some(col) = colour(tone)
        {
            self.tone = Some(tone);
            self.ops.push(Op::SetFillColor { col });
        }
    }

    /// Ends writing, so that something may be drawn.
    fn draw(&mut self) {
        if self.writing {
            self.ops.push(Op::EndTextSection);
            self.writing = false;
        }
    }

    /// Draws a straight line in grey (0 black, 1 white).
    pub(super) fn hairline(&mut self, x: f32, y: f32, width: f32, thickness: f32, grey: f32) {
        self.draw();
        self.ops.push(Op::SetOutlineColor { col: Color::Greyscale(Greyscale::new(grey, None)) });
        self.ops.push(Op::SetOutlineThickness { pt: Pt(thickness) });
        let points = vec![self.point(x, y, false), self.point(x + width, y, false)];
        self.ops.push(Op::DrawLine { line: Line { points, is_closed: false } });
    }

    /// Fills a rectangle under everything else.
    pub(super) fn ground(&mut self, x: f32, y: f32, width: f32, height: f32, rgb: [u8; 3]) {
        self.grounds.push(Op::SetFillColor { col: mixed(rgb) });
        self.grounds.push(Op::DrawRectangle {
            rectangle: Rect {
                x: Pt(round(x)),
                y: Pt(round(self.height - y - height)),
                width: Pt(round(width)),
                height: Pt(round(height)),
                mode: Some(PaintMode::Fill),
                winding_order: None,
            },
        });
    }

    /// Adds operations that are not words; they may change colours.
    pub(super) fn shape(&mut self, ops: impl IntoIterator<Item = Op>) {
        self.draw();
        self.ops.extend(ops);
        self.tone = None;
    }

    /// Turns a point from the sheet's top left into the file's.
    pub(super) fn point(&self, x: f32, y: f32, bezier: bool) -> LinePoint {
        LinePoint { p: Point { x: Pt(round(x)), y: Pt(round(self.height - y)) }, bezier }
    }

    /// Ends the page: grounds, then `between`, then everything else.
    pub(super) fn finish(mut self, between: Vec<Op>) -> (Vec<Op>, BTreeSet<PartId>) {
        self.draw();
        let mut ops = self.grounds;
        ops.extend(between);
        ops.append(&mut self.ops);
        (ops, self.used)
    }
}

/// Returns a tone as a colour of the file.
pub(super) fn colour(tone: Tone) -> Option<Color> {
    tone.rgb().map(mixed)
}

fn mixed(rgb: [u8; 3]) -> Color {
    let [r, g, b] = rgb.map(|part| (f32::from(part) / 255.0 * 1000.0).round() / 1000.0);
    Color::Rgb(Rgb::new(r, g, b, None))
}

/// Two decimals are a two-hundredth of a millimetre and keep files small.
pub(super) fn round(points: f32) -> f32 {
    (points * 100.0).round() / 100.0
}

fn rise(points: f32) -> Op {
    Op::SetLineOffset { multiplier: round(points) }
}

/// Begins content that reads as `means`, whatever its glyphs are.
fn span(means: &str) -> Op {
    let mut data = vec![0xfe, 0xff];
    data.extend(means.encode_utf16().flat_map(u16::to_be_bytes));
    let text = DictItem::String { data, literal: false };
    Op::BeginMarkedContentWithProperties {
        tag: "Span".to_owned(),
        properties: DictItem::Dict { map: BTreeMap::from([("ActualText".to_owned(), text)]) },
    }
}
