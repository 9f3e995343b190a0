//! What stands around the text of every page: identity above, provenance and page number below.

use crate::blocks::Inline;
use crate::document::{DEMONSTRATION, Document};
use crate::drawing::Tone;

use super::flow::Builder;
use super::lines::Line;
use super::look::{self, FACTS, NAME, SMALL, Setting};
use super::piece::plain;

/// Holds head and foot, set once and drawn on every page.
pub(super) struct Furniture {
    /// Lines: x from the left margin, baseline from the head's top.
    head: Vec<Placed>,
    head_height: f32,
    /// Lines: x from the left margin, baseline from the foot's top.
    foot: Vec<Placed>,
    foot_height: f32,
}

/// One line of head or foot.
pub(super) struct Placed {
    pub x: f32,
    pub y: f32,
    pub size: f32,
    pub tone: Tone,
    pub line: Line,
}

/// Where the text of a page begins and how tall it may be, from the sheet's top.
#[derive(Debug, Clone, Copy)]
pub(super) struct Area {
    pub top: f32,
    pub height: f32,
}

impl Furniture {
    pub(super) fn set(builder: &mut Builder<'_, '_>, document: &Document, width: f32) -> Self {
        let (head, head_height) = head(builder, document, width);
        let mut foot = Vec::new();
        let mut y = 0.0;
        let narrow = width * 0.78;
        if document.demonstration {
            let words = plain(DEMONSTRATION, true);
            column(builder, &mut foot, &words, SMALL, Tone::Accent, narrow, &mut y);
        }
        column(builder, &mut foot, &plain(&document.foot, false), SMALL, Tone::Soft, narrow, &mut y);
        Self { head, head_height, foot, foot_height: y }
    }

    /// Returns the room that is left for the text on a sheet of this height.
    pub(super) fn area(&self, sheet_height: f32) -> Area {
        let top = look::HEAD_TOP + self.head_height + look::HEAD_GAP;
        let bottom = self.foot_top(sheet_height) - look::FOOT_GAP;
        Area {
            top,
            // However long head and foot are, some text fits on each page.
            height: (bottom - top).max(120.0),
        }
    }

    /// Returns the y of the head's line and its lines of text, from the sheet's top.
    pub(super) fn head(&self) -> (f32, impl Iterator<Item = (&Placed, f32)>) {
        let lines = self.head.iter().map(|p| (p, look::HEAD_TOP + p.y));
        (look::HEAD_TOP + self.head_height, lines)
    }

    /// Returns the y of the foot's line and its lines of text, from the sheet's top.
    pub(super) fn foot(&self, sheet_height: f32) -> (f32, impl Iterator<Item = (&Placed, f32)>) {
        let top = self.foot_top(sheet_height);
        let lines = self.foot.iter().map(move |p| (p, top + 4.0 + p.y));
        (top, lines)
    }

    fn foot_top(&self, sheet_height: f32) -> f32 {
        sheet_height - look::FOOT_BOTTOM - self.foot_height.max(SMALL.leading) - 4.0
    }
}

fn head(builder: &mut Builder<'_, '_>, document: &Document, width: f32) -> (Vec<Placed>, f32) {
    let mut placed = Vec::new();
    let (mut left, mut right) = (0.0, NAME.baseline() - FACTS.baseline());
    let title = builder.lines(&plain(&document.title, false), FACTS, false, width * 0.36);
    for line in title {
        put(&mut placed, width - line.width, &mut right, FACTS, Tone::Soft, line);
    }
    let mut facts = document.head.iter();
    if let Some(name) = facts.next() {
        let words = plain(&name.in_words(), true);
        column(builder, &mut placed, &words, NAME, Tone::Ink, width * 0.6, &mut left);
    }
    let mut y = left.max(right) + 1.0;
    let mark = document.mark.as_deref().unwrap_or_default();
    let mut state_y = y;
    let mut state_width = 0.0;
    for line in builder.lines(&plain(mark, true), FACTS, false, width * 0.4) {
        state_width = line.width.max(state_width);
        put(&mut placed, width - line.width, &mut state_y, FACTS, Tone::Accent, line);
    }
    let mut words: Vec<Inline> = Vec::new();
    for fact in facts {
        if !words.is_empty() {
            words.push(Inline::plain("  ·  "));
        }
        if !fact.label.is_empty() {
            words.push(Inline::plain(format!("{} ", fact.label)));
        }
        words.extend(plain(&fact.value, true));
    }
    let room = width - state_width - 16.0;
    column(builder, &mut placed, &words, FACTS, Tone::Ink, room, &mut y);
    if mark.is_empty() {
        state_y = y;
    }
    placed.retain(|p| !p.line.glyphs.is_empty());
    (placed, y.max(state_y) + 4.0)
}

/// Sets words in a column at the left margin and moves `y` below them.
fn column(
    builder: &mut Builder<'_, '_>,
    placed: &mut Vec<Placed>,
    words: &[Inline],
    setting: Setting,
    tone: Tone,
    width: f32,
    y: &mut f32,
) {
    for line in builder.lines(words, setting, false, width) {
        put(placed, 0.0, y, setting, tone, line);
    }
}

fn put(placed: &mut Vec<Placed>, x: f32, y: &mut f32, setting: Setting, tone: Tone, line: Line) {
    placed.push(Placed { x, y: *y + setting.baseline(), size: setting.size, tone, line });
    *y += setting.leading;
}
