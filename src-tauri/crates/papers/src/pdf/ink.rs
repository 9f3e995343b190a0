//! Marks to printpdf operations, keeping track of font, colour, pen and of what is being read.
//!
//! Coordinates come in from the sheet's top left; the file counts from the bottom left.

use std::collections::{BTreeMap, BTreeSet};

use printpdf::{
    Codepoint, Color, DictItem, FontId, Greyscale, Line, LinePoint, Op, PaintMode, PdfFontHandle, Point, Pt, Rect, Rgb,
    TextItem, TextMatrix,
};

use crate::drawing::Tone;
use crate::fonts::PartId;

use super::finish::LONGEST_TEXT;
use super::shape::Glyph;
use super::structure::Marked;
use super::tags::{Role, Tag, Tags};

/// Says what is being drawn, for those who do not see it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Content {
    /// Part of an element of the paper's structure.
    Element(Tag),
    /// What every page carries above its text.
    Head,
    /// What every page carries below its text.
    Foot,
    /// Words across the page.
    Across,
    /// Lines, grounds and headers drawn once more: nothing to read.
    Decoration,
}

impl Content {
    pub(super) fn of(tag: Option<Tag>) -> Self {
        tag.map_or(Self::Decoration, Self::Element)
    }
}

/// Gathers one page's operations; grounds are apart, as they go under everything.
pub(super) struct Ink<'t> {
    height: f32,
    tags: &'t Tags,
    pub grounds: Vec<Op>,
    pub ops: Vec<Op>,
    pub used: BTreeSet<PartId>,
    marked: Marked,
    content: Option<Content>,
    writing: bool,
    font: Option<(PartId, f32)>,
    tone: Option<Tone>,
}

impl<'t> Ink<'t> {
    pub(super) fn new(height: f32, tags: &'t Tags) -> Self {
        Self {
            height,
            tags,
            grounds: Vec::new(),
            ops: Vec::new(),
            used: BTreeSet::new(),
            marked: Marked::default(),
            content: None,
            writing: false,
            font: None,
            tone: None,
        }
    }

    /// Says what everything drawn from here on is. Grounds are decoration in any case.
    pub(super) fn content(&mut self, content: Content) {
        if self.content == Some(content) {
            return;
        }
        self.close();
        self.content = Some(content);
        let number = self.marked.pieces.len();
        if let Content::Element(tag) = content {
            self.marked.pieces.push(tag);
        }
        self.ops.push(begin(content, number, self.tags));
    }

    /// Notes where a drawing stands, from the sheet's top left.
    pub(super) fn bounds(&mut self, tag: Tag, (x, y): (f32, f32), (width, height): (f32, f32)) {
        let edges = [x, self.height - y - height, x + width, self.height - y].map(round);
        self.marked.bounds.push((tag, edges));
    }

    /// Ends what was being drawn: text begins and ends inside it.
    fn close(&mut self) {
        self.draw();
        if self.content.take().is_some() {
            self.ops.push(Op::EndMarkedContent);
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
            let at = (x + pen * size / 1000.0, y);
            if spoken && !glyph.joined {
                self.unspoken(at);
                spoken = false;
            }
            if let Some(means) = &glyph.means {
                self.spoken(means, at);
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
            self.unspoken((x + pen * size / 1000.0, y));
        }
    }

    /// Begins content that reads as `means`, whatever its glyphs are, with the pen at a place.
    ///
    /// In an element it is a piece of its own: there are readers that lose the rest of a piece after
    /// marked content inside it.
    fn spoken(&mut self, means: &str, at: (f32, f32)) {
        let mut map = BTreeMap::from([("ActualText".to_owned(), words(means))]);
        let tag = match self.content {
            Some(Content::Element(tag)) => Some(tag),
            _ => None,
        };
        if let Some(tag) = tag {
            self.close();
            map.insert("MCID".to_owned(), DictItem::Int(self.marked.pieces.len() as i64));
            self.marked.pieces.push(tag);
            self.content = Some(Content::Element(tag));
        }
        let properties = DictItem::Dict { map };
        self.ops.push(Op::BeginMarkedContentWithProperties { tag: "Span".to_owned(), properties });
        if tag.is_some() {
            self.resume(at);
        }
    }

    /// Ends what [`Ink::spoken`] began and goes on with the element.
    fn unspoken(&mut self, at: (f32, f32)) {
        match self.content {
            Some(content @ Content::Element(_)) => {
                self.close();
                self.content(content);
                self.resume(at);
            }
            _ => self.ops.push(Op::EndMarkedContent),
        }
    }

    /// Goes on writing at a place from the sheet's top left.
    fn resume(&mut self, (x, y): (f32, f32)) {
        self.ops.push(Op::StartTextSection);
        self.writing = true;
        let matrix = TextMatrix::Translate(Pt(round(x)), Pt(round(self.height - y)));
        self.ops.push(Op::SetTextMatrix { matrix });
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
        self.content(Content::Decoration);
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
    pub(super) fn finish(mut self, between: Vec<Op>) -> (Vec<Op>, BTreeSet<PartId>, Marked) {
        self.close();
        let mut ops = Vec::with_capacity(self.grounds.len() + between.len() + self.ops.len() + 4);
        for (content, drawn) in [(Content::Decoration, self.grounds), (Content::Across, between)] {
            if !drawn.is_empty() {
                ops.push(begin(content, 0, self.tags));
                ops.extend(drawn);
                ops.push(Op::EndMarkedContent);
            }
        }
        ops.append(&mut self.ops);
        (ops, self.used, self.marked)
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

/// Begins marked content; an element's piece has the page's next number.
fn begin(content: Content, number: usize, tags: &Tags) -> Op {
    let repeated = |kind: &str| {
        let name = |words: &str| DictItem::Name(words.as_bytes().to_vec());
        let map = BTreeMap::from([("Type".to_owned(), name("Pagination")), ("Subtype".to_owned(), name(kind))]);
        Op::BeginMarkedContentWithProperties { tag: "Artifact".to_owned(), properties: DictItem::Dict { map } }
    };
    match content {
        Content::Element(tag) => Op::BeginMarkedContentWithProperties {
            tag: tags.role(tag).map_or("Span", Role::name).to_owned(),
            properties: DictItem::Dict { map: BTreeMap::from([("MCID".to_owned(), DictItem::Int(number as i64))]) },
        },
        Content::Head => repeated("Header"),
        Content::Foot => repeated("Footer"),
        Content::Across => repeated("Watermark"),
        Content::Decoration => Op::BeginMarkedContent { tag: "Artifact".to_owned() },
    }
}

/// Makes words that any reader of the file understands.
fn words(means: &str) -> DictItem {
    let mut data = vec![0xfe, 0xff];
    data.extend(means.encode_utf16().take(LONGEST_TEXT).flat_map(u16::to_be_bytes));
    DictItem::String { data, literal: false }
}
