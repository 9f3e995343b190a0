//! Pieces onto pages: where each one stands, and how far boxes reach.
//!
//! Invariants: a piece is never cut; pieces that are to stay together do, unless together they are
//! taller than a page; a table that goes on over the page begins there with its header.

use super::look::Look;
use super::piece::{Flow, Piece};

/// Holds one page: what stands where, in points from the top of the text.
#[derive(Debug, Default)]
pub(super) struct Sheet<'f> {
    pub placed: Vec<(f32, &'f Piece)>,
    /// Boxes on this page: number of the frame, top and bottom.
    pub boxes: Vec<(usize, f32, f32)>,
}

/// Cuts a flow into pages whose text is `height` points tall; there is at least one page.
pub(super) fn cut<'f>(flow: &'f Flow, look: &Look, height: f32) -> Vec<Sheet<'f>> {
    let mut cutter =
        Cutter { flow, pad: look.box_pad_y, height, sheets: vec![Sheet::default()], y: 0.0, open: Vec::new() };
    let mut rest = flow.pieces.as_slice();
    while !rest.is_empty() {
        let together = rest.iter().position(|p| !p.keep).map_or(rest.len(), |n| n + 1);
        let (group, after) = rest.split_at(together);
        cutter.place(group);
        rest = after;
    }
    cutter.close(&[]);
    for sheet in &mut cutter.sheets {
        // Outer boxes first: the inner ones lie on them.
        sheet.boxes.sort_by_key(|(frame, _, _)| *frame);
    }
    cutter.sheets
}

struct Cutter<'f> {
    flow: &'f Flow,
    /// Space inside a box's frame above and below.
    pad: f32,
    height: f32,
    sheets: Vec<Sheet<'f>>,
    y: f32,
    /// Frames open at `y` and where they began on this page.
    open: Vec<(usize, f32)>,
}

impl<'f> Cutter<'f> {
    fn place(&mut self, group: &'f [Piece]) {
        let tall: f32 = group.iter().map(|p| p.height + p.before).sum();
        // Pieces that no page can hold together begin on a new page and part where it ends.
        if tall > self.height || !self.fits(tall, group.last()) {
            self.turn(group.first());
        }
        for piece in group {
            if !self.fits(piece.height + piece.before, Some(piece)) {
                self.turn(Some(piece));
            }
            self.put(piece);
        }
    }

    /// Tells whether something of this height fits on the page as it is.
    fn fits(&self, tall: f32, last: Option<&Piece>) -> bool {
        // An open box needs room for its own edge, except where its last piece is that edge.
        let reserve = match last {
            Some(piece) if !piece.pad => piece.frames.len() as f32 * self.pad,
            _ => 0.0,
        };
        self.y <= 0.0 || self.y + tall + reserve <= self.height + 0.01
    }

    /// Begins a new page, on which `next` will stand first.
    fn turn(&mut self, next: Option<&'f Piece>) {
        if self.sheets.last().is_some_and(|sheet| sheet.placed.is_empty()) {
            return;
        }
        self.close(&[]);
        self.sheets.push(Sheet::default());
        self.y = 0.0;
        let Some(next) = next else { return };
        let header = next.table.and_then(|number| self.flow.headers.get(number)).and_then(Option::as_ref);
        self.enter(&next.frames, next.pad);
        if let Some(header) = header
            && !next.header
        {
            self.add(header);
        }
    }

    fn put(&mut self, piece: &'f Piece) {
        self.close(&piece.frames);
        if self.sheets.last().is_some_and(|sheet| !sheet.placed.is_empty()) {
            self.y += piece.before;
        }
        self.enter(&piece.frames, piece.pad);
        self.add(piece);
    }

    fn add(&mut self, piece: &'f Piece) {
        let y = self.y;
        if let Some(sheet) = self.sheets.last_mut() {
            sheet.placed.push((y, piece));
        }
        self.y += piece.height;
    }

    /// Opens the boxes of `frames` that are not open; those that go on from the page before get
    /// their space above again.
    fn enter(&mut self, frames: &[usize], padded: bool) {
        for frame in frames.iter().skip(self.open.len()) {
            self.open.push((*frame, self.y));
            if !padded {
                self.y += self.pad;
            }
        }
    }

    /// Closes the boxes that are open but not among `frames`.
    fn close(&mut self, frames: &[usize]) {
        while let Some(&(frame, top)) = self.open.last() {
            if frames.contains(&frame) {
                break;
            }
            let ended = self.sheets.last().and_then(|sheet| sheet.placed.last()).is_some_and(|(_, piece)| piece.pad);
            if !ended {
                self.y += self.pad;
            }
            let bottom = self.y;
            if let Some(sheet) = self.sheets.last_mut() {
                sheet.boxes.push((frame, top, bottom));
            }
            self.open.pop();
        }
    }
}
