//! Every measure of the page in one place; points unless said otherwise.
//!
//! A desk sheet and a pocket sheet have measures of their own; no letters are smaller than 6.5 points.

use crate::document::Page;

/// Thickness of hairlines.
pub(super) const HAIRLINE: f32 = 0.5;
/// Grey of hairlines (0 black, 1 white).
pub(super) const HAIRLINE_GREY: f32 = 0.74;
/// Grey of the words across the page; light enough to read through.
pub(super) const MARK_GREY: f32 = 0.915;
/// Ground of boxes and table headers; paler than the words across the page, which cross it.
pub(super) const GROUND: [u8; 3] = [0xf2, 0xf4, 0xf6];
/// Ground of what stands in a box and has a ground of its own.
pub(super) const GROUND_IN_BOX: [u8; 3] = [0xe4, 0xe8, 0xec];
/// Points in a millimetre: drawings are drawn in their own size.
pub(super) const MM: f32 = 72.0 / 25.4;
/// A box up to this share of a page's height is kept in one piece.
pub(super) const BOX_WHOLE: f32 = 0.5;
/// A last line below this share of the column's width is too short.
pub(super) const SHORT: f32 = 0.1;

/// Holds size, distance of baselines and space around a kind of text.
#[derive(Debug, Clone, Copy)]
pub(super) struct Setting {
    pub size: f32,
    pub leading: f32,
    pub before: f32,
    pub after: f32,
}

impl Setting {
    const fn new(size: f32, leading: f32, before: f32, after: f32) -> Self {
        Self { size, leading, before, after }
    }

    /// Distance from a line's top to its baseline: the letters stand centred in the line.
    pub(super) fn baseline(self) -> f32 {
        self.leading / 2.0 + self.size * 0.33
    }
}

/// Holds the measures of one kind of sheet.
#[derive(Debug)]
pub(super) struct Look {
    /// Left and right margin.
    pub side: f32,
    /// Top of the page's head.
    pub head_top: f32,
    /// Space between the head's line and the text.
    pub head_gap: f32,
    /// Space between the text and the foot's line.
    pub foot_gap: f32,
    /// Distance of the foot's last line from the sheet's edge.
    pub foot_bottom: f32,
    /// Running text.
    pub body: Setting,
    /// Text in table cells.
    pub cell: Setting,
    /// The page's foot and the small parts of its head.
    pub small: Setting,
    /// Identity in the page's head.
    pub facts: Setting,
    /// The person's name in the page's head.
    pub name: Setting,
    /// No part of head and foot has more lines than this.
    pub head_lines: usize,
    /// No fact in the head has more letters than this.
    pub fact_letters: usize,
    /// Headings of level 1, 2, and 3 or more.
    headings: [Setting; 3],
    /// Indent of a list's items.
    pub indent: f32,
    /// Space between list items.
    pub item_gap: f32,
    /// Space of a table's cells at left and right.
    pub cell_pad_x: f32,
    /// Space of a table's cells above and below.
    pub cell_pad_y: f32,
    /// Space above and below tables, boxes and drawings.
    pub block_gap: f32,
    /// Space inside a box's frame at the sides.
    pub box_pad_x: f32,
    /// Space inside a box's frame above and below.
    pub box_pad_y: f32,
    /// Width of the bar at a box's left.
    pub box_bar: f32,
    /// Columns narrower than this get no further indent.
    pub narrow: f32,
}

impl Look {
    /// Returns the measures of a sheet.
    pub(super) fn of(page: Page) -> &'static Self {
        match page {
            Page::A4 | Page::Letter => &DESK,
            Page::Wallet => &POCKET,
        }
    }

    /// Returns how a heading of a level is set.
    pub(super) fn heading(&self, level: u8) -> Setting {
        self.headings[usize::from(level.clamp(1, 3) - 1)]
    }
}

/// Sheets that lie on a desk: 23 mm at the sides, 13 mm above the head.
static DESK: Look = Look {
    side: 65.0,
    head_top: 37.0,
    head_gap: 17.0,
    foot_gap: 14.0,
    foot_bottom: 30.0,
    body: Setting::new(10.0, 14.0, 0.0, 5.0),
    cell: Setting::new(9.0, 12.0, 0.0, 0.0),
    small: Setting::new(8.0, 10.5, 0.0, 0.0),
    facts: Setting::new(9.0, 12.0, 0.0, 0.0),
    name: Setting::new(11.5, 14.5, 0.0, 0.0),
    head_lines: 6,
    fact_letters: 80,
    headings: [
        Setting::new(17.0, 21.0, 10.0, 7.0),
        Setting::new(11.5, 15.0, 13.0, 3.0),
        Setting::new(10.0, 14.0, 8.0, 1.5),
    ],
    indent: 14.0,
    item_gap: 1.5,
    cell_pad_x: 5.0,
    cell_pad_y: 2.6,
    block_gap: 8.0,
    box_pad_x: 11.0,
    box_pad_y: 7.0,
    box_bar: 2.5,
    narrow: 140.0,
};

/// A sheet for a pocket: 6 mm at the sides, 4.5 mm above the head.
static POCKET: Look = Look {
    side: 17.0,
    head_top: 12.5,
    head_gap: 6.0,
    foot_gap: 5.0,
    foot_bottom: 11.0,
    body: Setting::new(7.5, 9.8, 0.0, 3.0),
    cell: Setting::new(7.0, 8.8, 0.0, 0.0),
    small: Setting::new(6.5, 8.0, 0.0, 0.0),
    facts: Setting::new(6.8, 8.6, 0.0, 0.0),
    name: Setting::new(8.8, 10.8, 0.0, 0.0),
    head_lines: 4,
    fact_letters: 36,
    headings: [Setting::new(10.0, 12.4, 5.0, 3.0), Setting::new(8.2, 10.4, 6.0, 1.5), Setting::new(7.5, 9.8, 4.0, 1.0)],
    indent: 9.0,
    item_gap: 0.8,
    cell_pad_x: 3.0,
    cell_pad_y: 1.6,
    block_gap: 4.5,
    box_pad_x: 6.0,
    box_pad_y: 3.6,
    box_bar: 1.8,
    narrow: 100.0,
};
