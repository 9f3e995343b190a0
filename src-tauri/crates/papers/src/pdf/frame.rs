//! What stands around the text of every page: identity above, provenance and page number below.
//!
//! It is read once, the head before the paper's first words and the foot after its last; on every
//! other page it only repeats itself. What is so long that it would take the page is cut short there
//! and said in full once, before or after the text.

use crate::blocks::{Block, Inline};
use crate::document::{Document, PageWords};
use crate::drawing::Tone;

use super::flow::Builder;
use super::lines::Line;
use super::look::{Look, Setting};
use super::piece::plain;
use super::tags::{Role, Tag, Tags};

/// Holds head and foot, set once and drawn on every page.
pub(super) struct Furniture {
    pub look: &'static Look,
    /// Lines: x from the left margin, baseline from the head's top.
    head: Vec<Placed>,
    head_height: f32,
    /// Lines: x from the left margin, baseline from the foot's top.
    foot: Vec<Placed>,
    foot_height: f32,
    /// The page number in words.
    pub words: PageWords,
    /// What the head cuts short, for the top of the text.
    pub opening: Vec<Block>,
    /// What the foot cuts short, for the end of the text.
    pub closing: Vec<Block>,
}

/// One line of head or foot.
pub(super) struct Placed {
    pub x: f32,
    pub y: f32,
    pub size: f32,
    pub tone: Tone,
    pub line: Line,
    /// What it is part of where it is read.
    pub tag: Option<Tag>,
}

/// Where the text of a page begins and how tall it may be, from the sheet's top.
#[derive(Debug, Clone, Copy)]
pub(super) struct Area {
    pub top: f32,
    pub height: f32,
}

impl Furniture {
    pub(super) fn set(builder: &mut Builder<'_, '_>, document: &Document, width: f32) -> Self {
        let (mut opening, mut closing) = (Vec::new(), Vec::new());
        let (head, head_height) = head(builder, document, width, &mut opening);
        let look = builder.look;
        let mut foot = Vec::new();
        let mut y = 0.0;
        let narrow = width * 0.78;
        if document.demonstration {
            let words = plain(&document.words.demonstration, true);
            column(builder, &mut foot, (&words, &mut closing), look.small, Tone::Accent, narrow, &mut y);
        }
        let words = plain(&document.foot, false);
        column(builder, &mut foot, (&words, &mut closing), look.small, Tone::Soft, narrow, &mut y);
        let words = document.words.clone();
        Self { look, head, head_height, foot, foot_height: y, words, opening, closing }
    }

    /// Ends the paper's structure with what the foot says.
    pub(super) fn close(&self, tags: &mut Tags) {
        attach(&self.foot, tags);
    }

    /// Returns the room that is left for the text on a sheet of this height.
    pub(super) fn area(&self, sheet_height: f32) -> Area {
        let top = self.look.head_top + self.head_height + self.look.head_gap;
        let bottom = self.foot_top(sheet_height) - self.look.foot_gap;
        Area { top, height: bottom - top }
    }

    /// Returns the y of the head's line and its lines of text, from the sheet's top.
    pub(super) fn head(&self) -> (f32, impl Iterator<Item = (&Placed, f32)>) {
        let lines = self.head.iter().map(|p| (p, self.look.head_top + p.y));
        (self.look.head_top + self.head_height, lines)
    }

    /// Returns the y of the foot's line and its lines of text, from the sheet's top.
    pub(super) fn foot(&self, sheet_height: f32) -> (f32, impl Iterator<Item = (&Placed, f32)>) {
        let top = self.foot_top(sheet_height);
        let lines = self.foot.iter().map(move |p| (p, top + 4.0 + p.y));
        (top, lines)
    }

    fn foot_top(&self, sheet_height: f32) -> f32 {
        sheet_height - self.look.foot_bottom - self.foot_height.max(self.look.small.leading) - 4.0
    }
}

/// Sets the head; what it cuts short goes into `full` as well.
fn head(builder: &mut Builder<'_, '_>, document: &Document, width: f32, full: &mut Vec<Block>) -> (Vec<Placed>, f32) {
    let look = builder.look;
    let mut placed = Vec::new();
    let (mut left, mut right) = (0.0, look.name.baseline() - look.facts.baseline());
    let title = limited(builder, (&plain(&document.title, false), full), look.facts, width * 0.36);
    let tag = builder.flow.tags.loose(Role::Paragraph);
    for line in title {
        put(&mut placed, (width - line.width, &mut right), look.facts, Tone::Soft, line, tag);
    }
    let mut facts = document.head.iter();
    if let Some(name) = facts.next() {
        let words = plain(&name.in_words(), true);
        column(builder, &mut placed, (&words, full), look.name, Tone::Ink, width * 0.6, &mut left);
    }
    let mut y = left.max(right) + 1.0;
    let mark = document.mark.as_deref().unwrap_or_default();
    let mut state_y = y;
    let mut state_width = 0.0;
    let tag = builder.flow.tags.loose(Role::Paragraph);
    for line in limited(builder, (&plain(mark, true), full), look.facts, width * 0.4) {
        state_width = line.width.max(state_width);
        put(&mut placed, (width - line.width, &mut state_y), look.facts, Tone::Accent, line, tag);
    }
    let mut words: Vec<Inline> = Vec::new();
    for fact in facts {
        if !words.is_empty() {
            words.push(Inline::plain("  ·  "));
        }
        if !fact.label.is_empty() {
            // The space keeps a label on the line of its value.
            words.push(Inline::plain(format!("{}\u{a0}", fact.label)));
        }
        // One fact without end must not hide those after it.
        let value: String = fact.value.chars().take(look.fact_letters).collect();
        if value.len() < fact.value.len() {
            full.push(Block::Paragraph(plain(&fact.in_words(), false)));
            words.extend(plain(&format!("{value}…"), true));
        } else {
            words.extend(plain(&value, true));
        }
    }
    let room = width - state_width - 16.0;
    column(builder, &mut placed, (&words, full), look.facts, Tone::Ink, room, &mut y);
    if mark.is_empty() {
        state_y = y;
    }
    placed.retain(|p| !p.line.glyphs.is_empty());
    attach(&placed, &mut builder.flow.tags);
    (placed, y.max(state_y) + 4.0)
}

/// Gives the paragraphs of head or foot their place in the structure.
fn attach(placed: &[Placed], tags: &mut Tags) {
    let mut last = None;
    for tag in placed.iter().filter_map(|p| p.tag) {
        if last != Some(tag) {
            tags.attach(tag);
            last = Some(tag);
        }
    }
}

/// Sets words in a column at the left margin and moves `y` below them.
fn column(
    builder: &mut Builder<'_, '_>,
    placed: &mut Vec<Placed>,
    words: (&[Inline], &mut Vec<Block>),
    setting: Setting,
    tone: Tone,
    width: f32,
    y: &mut f32,
) {
    let tag = builder.flow.tags.loose(Role::Paragraph);
    for line in limited(builder, words, setting, width) {
        put(placed, (0.0, y), setting, tone, line, tag);
    }
}

fn put(placed: &mut Vec<Placed>, (x, y): (f32, &mut f32), setting: Setting, tone: Tone, line: Line, tag: Tag) {
    // An empty line is nothing to read.
    let tag = (!line.glyphs.is_empty()).then_some(tag);
    placed.push(Placed { x, y: *y + setting.baseline(), size: setting.size, tone, line, tag });
    *y += setting.leading;
}

/// Sets words in as many lines as a head may have; where that is not enough, the last one ends with
/// dots and the words go into `full` as a paragraph.
fn limited(
    builder: &mut Builder<'_, '_>,
    (words, full): (&[Inline], &mut Vec<Block>),
    setting: Setting,
    width: f32,
) -> Vec<Line> {
    let mut lines = builder.lines(words, setting, false, width);
    if lines.len() <= builder.look.head_lines {
        return lines;
    }
    lines.truncate(builder.look.head_lines);
    let dots = builder.one_line("…", setting.size, false);
    if let Some(last) = lines.last_mut() {
        while last.glyphs.pop_if(|glyph| glyph.is_space()).is_some() {}
        let (mut whole, mut used) = (true, last.width);
        while !whole || used + dots.width > width {
            let Some(glyph) = last.glyphs.pop() else { break };
            used -= glyph.advance * setting.size / 1000.0;
            // A character of several glyphs goes with all of them.
            whole = !glyph.joined;
        }
        last.glyphs.extend(dots.glyphs);
        last.width = used + dots.width;
    }
    full.push(Block::Paragraph(words.to_vec()));
    lines
}
