//! Every measure of the page in one place; points unless said otherwise.

/// Left and right margin (23 mm).
pub(super) const SIDE: f32 = 65.0;
/// Top of the page's head (13 mm).
pub(super) const HEAD_TOP: f32 = 37.0;
/// Space between the head's line and the text.
pub(super) const HEAD_GAP: f32 = 17.0;
/// Space between the text and the foot's line.
pub(super) const FOOT_GAP: f32 = 14.0;
/// Distance of the foot's last line from the sheet's edge.
pub(super) const FOOT_BOTTOM: f32 = 30.0;

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

/// Running text.
pub(super) const BODY: Setting = Setting::new(10.0, 14.0, 0.0, 5.0);
/// Text in table cells.
pub(super) const CELL: Setting = Setting::new(9.0, 12.0, 0.0, 0.0);
/// The page's foot and the small parts of its head.
pub(super) const SMALL: Setting = Setting::new(8.0, 10.5, 0.0, 0.0);
/// Identity in the page's head.
pub(super) const FACTS: Setting = Setting::new(9.0, 12.0, 0.0, 0.0);
/// The person's name in the page's head.
pub(super) const NAME: Setting = Setting::new(11.5, 14.5, 0.0, 0.0);

/// Returns how a heading of a level is set.
pub(super) fn heading(level: u8) -> Setting {
    match level {
        1 => Setting::new(17.0, 21.0, 10.0, 7.0),
        2 => Setting::new(11.5, 15.0, 13.0, 3.0),
        _ => Setting::new(10.0, 14.0, 8.0, 1.5),
    }
}

/// Indent of a list's items.
pub(super) const INDENT: f32 = 14.0;
/// Space between list items.
pub(super) const ITEM_GAP: f32 = 1.5;
/// Space of a table's cells at left and right.
pub(super) const CELL_PAD_X: f32 = 5.0;
/// Space of a table's cells above and below.
pub(super) const CELL_PAD_Y: f32 = 2.6;
/// Space above and below tables, boxes and drawings.
pub(super) const BLOCK_GAP: f32 = 8.0;
/// Space inside a box's frame at the sides.
pub(super) const BOX_PAD_X: f32 = 11.0;
/// Space inside a box's frame above and below.
pub(super) const BOX_PAD_Y: f32 = 7.0;
/// Width of the bar at a box's left.
pub(super) const BOX_BAR: f32 = 2.5;
/// A box up to this share of a page's height is kept in one piece.
pub(super) const BOX_WHOLE: f32 = 0.5;
/// Columns narrower than this get no further indent.
pub(super) const NARROW: f32 = 140.0;
/// A last line below this share of the column's width is too short.
pub(super) const SHORT: f32 = 0.1;
