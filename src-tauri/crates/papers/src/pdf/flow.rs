//! Blocks to pieces: everything about a block except the page on which it comes to stand.

use crate::blocks::{Block, Inline, words_of};
use crate::drawing::{Drawing, Tone};

use super::lines::{Line, fill};
use super::look::{self, Look, Setting};
use super::piece::{Flow, Frame, Mark, Piece, plain};
use super::shape::Shaper;
use super::table;
use super::tags::{Numbering, Role, Tag};

/// Builds pieces; `width` and `height` are those of the text on a page.
pub(super) struct Builder<'a, 'f> {
    pub shaper: &'a mut Shaper<'f>,
    pub look: &'static Look,
    pub flow: Flow,
    pub height: f32,
    /// Frames that are open now.
    pub frames: Vec<usize>,
    /// Space that the block before asks for below it.
    after: f32,
    /// Lists that are open now.
    depth: usize,
    /// The block before is a heading, which holds what follows close.
    headed: bool,
}

impl<'a, 'f> Builder<'a, 'f> {
    pub(super) fn new(shaper: &'a mut Shaper<'f>, look: &'static Look, height: f32) -> Self {
        Self { shaper, look, flow: Flow::default(), height, frames: Vec::new(), after: 0.0, depth: 0, headed: false }
    }

    /// Sets blocks one below the other in a column.
    pub(super) fn blocks(&mut self, blocks: &[Block], x: f32, width: f32) {
        for block in blocks {
            self.block(block, x, width);
        }
    }

    fn block(&mut self, block: &Block, x: f32, width: f32) {
        match block {
            Block::Heading { level, inlines } => self.heading(*level, inlines, x, width),
            Block::Paragraph(inlines) => {
                let tag = self.flow.tags.leaf(Role::Paragraph);
                self.words(inlines, self.look.body, Tone::Ink, tag, x, width);
            }
            Block::List { ordered_from, items } => self.list(*ordered_from, items, x, width),
            Block::Table(content) => {
                let before = self.space(self.look.block_gap);
                table::set(self, content, x, width, before);
                self.after = self.look.block_gap + 2.0;
            }
            Block::Boxed(content) => self.boxed(content, x, width),
            Block::Drawing(drawing) => self.drawing(drawing, x, width),
            Block::Rule => {
                let before = self.space(self.look.block_gap);
                // What stands under a line is a close: it never begins a page without a word before it.
                if let Some(last) = self.flow.pieces.last_mut().filter(|piece| piece.frames.is_empty()) {
                    last.keep = true;
                }
                self.push(Piece {
                    height: look::HAIRLINE,
                    before,
                    keep: true,
                    marks: vec![Mark::Hairline { x, y: 0.0, width }],
                    ..Piece::default()
                });
                self.after = self.look.block_gap;
            }
        }
    }

    /// Sets running text; lines at a paragraph's ends stay in twos. Headings are heavier.
    fn words(&mut self, inlines: &[Inline], setting: Setting, tone: Tone, tag: Tag, x: f32, width: f32) {
        let before = self.space(setting.before);
        let strong = self.flow.tags.is_heading(tag);
        let lines = self.lines(inlines, setting, strong, width);
        let count = lines.len();
        for (n, line) in lines.into_iter().enumerate() {
            self.push(Piece {
                height: setting.leading,
                before: if n == 0 { before } else { 0.0 },
                keep: n + 1 < count && (n == 0 || n + 2 == count),
                baseline: setting.baseline(),
                marks: vec![Mark::Words {
                    x,
                    y: setting.baseline(),
                    size: setting.size,
                    tone,
                    glyphs: line.glyphs,
                    tag: Some(tag),
                }],
                ..Piece::default()
            });
        }
        self.after = setting.after;
    }

    fn heading(&mut self, level: u8, inlines: &[Inline], x: f32, width: f32) {
        let first = self.flow.pieces.len();
        let tone = if level == 2 { Tone::Accent } else { Tone::Ink };
        let tag = self.flow.tags.heading(level);
        self.words(inlines, self.look.heading(level), tone, tag, x, width);
        for piece in &mut self.flow.pieces[first..] {
            piece.keep = true;
        }
        if let Some(piece) = self.flow.pieces.get_mut(first) {
            piece.outline = Some((level, words_of(inlines).replace('\n', " ")));
        }
        self.headed = true;
    }

    fn list(&mut self, ordered_from: Option<u64>, items: &[Vec<Block>], x: f32, width: f32) {
        let deep = self.depth > 0;
        let markers: Vec<Line> = (0..items.len() as u64)
            .map(|n| match ordered_from {
                Some(first) => format!("{}.", first.saturating_add(n)),
                None if deep => "–".to_owned(),
                None => "•".to_owned(),
            })
            .map(|marker| self.one_line(&marker, self.look.body.size, false))
            .collect();
        let widest = markers.iter().map(|m| m.width).fold(0.0, f32::max);
        // Lists nested past all reason stop moving to the right.
        let indent = if width > self.look.narrow { self.look.indent.max(widest + 6.0) } else { 0.0 };
        let mut before = self.space(0.0);
        self.flow.tags.begin(Role::List(match ordered_from {
            Some(_) => Numbering::Numbers,
            None if deep => Numbering::Dashes,
            None => Numbering::Discs,
        }));
        self.depth += 1;
        for (item, marker) in items.iter().zip(markers) {
            let first = self.flow.pieces.len();
            self.flow.tags.begin(Role::Item);
            let label = self.flow.tags.leaf(Role::Label);
            self.flow.tags.begin(Role::Body);
            for (n, block) in item.iter().enumerate() {
                // Blocks of an item follow closely.
                self.after = if n == 0 { 0.0 } else { 2.0 * self.look.item_gap };
                self.block(block, x + indent, width - indent);
            }
            self.flow.tags.end();
            self.flow.tags.end();
            if self.flow.pieces.len() == first {
                self.push(Piece {
                    height: self.look.body.leading,
                    baseline: self.look.body.baseline(),
                    ..Piece::default()
                });
            }
            if let Some(piece) = self.flow.pieces.get_mut(first) {
                piece.before = before;
                let right = if ordered_from.is_some() { 5.0 } else { 6.5 };
                let y = if piece.baseline > 0.0 { piece.baseline } else { self.look.body.baseline() };
                let mark = Mark::Words {
                    x: x + indent - right - marker.width,
                    y,
                    size: self.look.body.size,
                    tone: if ordered_from.is_some() { Tone::Ink } else { Tone::Soft },
                    glyphs: marker.glyphs,
                    tag: Some(label),
                };
                piece.marks.insert(0, mark);
            }
            // A table or a box in an item keeps its distance from the next one.
            before = match item.last() {
                None | Some(Block::Paragraph(_) | Block::List { .. }) => self.look.item_gap,
                Some(_) => self.look.body.after,
            };
        }
        self.flow.tags.end();
        self.depth -= 1;
        self.after = self.look.body.after;
    }

    fn boxed(&mut self, content: &[Block], x: f32, width: f32) {
        let before = self.space(self.look.block_gap);
        let frame = self.flow.frames.len();
        self.flow.frames.push(Frame { x, width, inside: !self.frames.is_empty() });
        self.frames.push(frame);
        let first = self.flow.pieces.len();
        self.push(Piece { height: self.look.box_pad_y, before, keep: true, pad: true, ..Piece::default() });
        self.after = 0.0;
        let inset = if width > self.look.narrow { self.look.box_bar + self.look.box_pad_x } else { 0.0 };
        let inner = width - 2.0 * inset;
        self.flow.tags.begin(Role::Section);
        self.blocks(content, x + inset, inner);
        self.flow.tags.end();
        if let Some(piece) = self.flow.pieces.get_mut(first + 1) {
            piece.before = 0.0;
        }
        if let Some(piece) = self.flow.pieces.last_mut() {
            piece.keep = true;
        }
        self.push(Piece { height: self.look.box_pad_y, pad: true, ..Piece::default() });
        self.frames.pop();
        let pieces = &mut self.flow.pieces[first..];
        let tall: f32 = pieces.iter().map(|p| p.height + p.before).sum();
        if tall < self.height * look::BOX_WHOLE
            && let Some((_, all_but_last)) = pieces.split_last_mut()
        {
            for piece in all_but_last {
                piece.keep = true;
            }
        }
        self.after = self.look.block_gap;
    }

    fn drawing(&mut self, drawing: &Drawing, x: f32, width: f32) {
        let mut scale = look::MM;
        if drawing.width_mm * scale > width {
            scale = width / drawing.width_mm.max(0.1);
        }
        // Some room stays for the heading above it.
        let room = self.height * 0.85;
        if drawing.height_mm * scale > room {
            scale = room / drawing.height_mm.max(0.1);
        }
        let before = self.space(self.look.block_gap);
        let tag = self.flow.tags.figure(&drawing.alt);
        self.push(Piece {
            height: drawing.height_mm * scale,
            before,
            marks: vec![Mark::Drawing { x, y: 0.0, scale, drawing: drawing.clone(), tag }],
            ..Piece::default()
        });
        self.after = self.look.block_gap;
    }

    /// Breaks running text into lines; a last line of one short word is avoided if a slightly
    /// narrower column does it, which nobody sees at a ragged edge.
    pub(super) fn lines(&mut self, inlines: &[Inline], setting: Setting, strong: bool, width: f32) -> Vec<Line> {
        let (text, glyphs) = self.shaper.inlines(inlines, strong);
        let lines = fill(&text, &glyphs, setting.size, width);
        let short =
            |lines: &[Line]| lines.len() > 1 && lines.last().is_some_and(|line| line.width < width * look::SHORT);
        if short(&lines) && !text.contains('\n') {
            for narrower in [0.97, 0.94, 0.9] {
                let again = fill(&text, &glyphs, setting.size, width * narrower);
                if again.len() == lines.len() && !short(&again) {
                    return again;
                }
            }
        }
        lines
    }

    /// Sets words on one line, however long.
    pub(super) fn one_line(&mut self, words: &str, size: f32, strong: bool) -> Line {
        self.lines(&plain(words, strong), Setting { size, ..self.look.body }, false, f32::MAX)
            .into_iter()
            .next()
            .unwrap_or_default()
    }

    pub(super) fn push(&mut self, mut piece: Piece) {
        piece.frames.clone_from(&self.frames);
        self.flow.pieces.push(piece);
    }

    /// Returns the space above a block that asks for `before`.
    fn space(&mut self, before: f32) -> f32 {
        let near = if std::mem::take(&mut self.headed) { 0.5 } else { 1.0 };
        std::mem::take(&mut self.after).max(before * near)
    }
}
