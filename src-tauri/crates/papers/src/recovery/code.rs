//! The code as a drawing: numbered groups in a grid, every sign at the same distance from the next.

use crate::drawing::{Anchor, Drawing, Shape, Tone};

/// Groups beside each other.
const COLUMNS: usize = 4;
const WIDTH_MM: f32 = 164.0;
/// Width and height of a group's field, and the space between two.
const FIELD_MM: (f32, f32) = (39.5, 21.0);
const GAP_MM: f32 = 2.0;
/// Height of the letters, and the distance from the middle of one to that of the next.
const LETTERS_MM: f32 = 10.0;
const PITCH_MM: f32 = 7.6;

/// Draws the groups from the left, row by row.
pub(super) fn draw(groups: &[String]) -> Drawing {
    let rows = groups.len().div_ceil(COLUMNS) as f32;
    let mut shapes = Vec::new();
    for (index, group) in groups.iter().enumerate() {
        let (column, row) = ((index % COLUMNS) as f32, (index / COLUMNS) as f32);
        let at = (column * (FIELD_MM.0 + GAP_MM), row * (FIELD_MM.1 + GAP_MM));
        field(&mut shapes, index + 1, group, at);
    }
    let height_mm = (rows * (FIELD_MM.1 + GAP_MM) - GAP_MM).max(0.0);
    Drawing { width_mm: WIDTH_MM, height_mm, shapes, alt: in_words(groups) }
}

fn field(shapes: &mut Vec<Shape>, number: usize, group: &str, (x, y): (f32, f32)) {
    shapes.push(Shape::Rect { at: (x, y), size: FIELD_MM, fill: Tone::Fill, stroke: Tone::None, thickness_mm: 0.0 });
    shapes.push(Shape::Text {
        at: (x + 2.4, y + 5.0),
        words: number.to_string(),
        anchor: Anchor::Start,
        size_mm: 3.2,
        bold: false,
        tone: Tone::Soft,
    });
    let first = x + FIELD_MM.0 / 2.0 - (group.chars().count() as f32 - 1.0) * PITCH_MM / 2.0 + 1.2;
    for (place, sign) in group.chars().enumerate() {
        shapes.push(Shape::Text {
            at: (first + place as f32 * PITCH_MM, y + 14.6),
            words: sign.to_string(),
            anchor: Anchor::Middle,
            size_mm: LETTERS_MM,
            bold: true,
            tone: Tone::Ink,
        });
    }
}

fn in_words(groups: &[String]) -> String {
    let groups: Vec<_> = groups.iter().enumerate().map(|(index, group)| format!("{}: {group}", index + 1)).collect();
    format!("The recovery code in {} groups. {}.", groups.len(), groups.join(", "))
}
