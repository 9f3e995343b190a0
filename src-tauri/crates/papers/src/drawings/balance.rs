//! The extension and the flexion space as left, with the opening on both sides in millimetres.

use evengap_case::Case;
use evengap_case::sections::{Side, Space};

use super::medial_on_left;
use crate::drawing::{Anchor, Drawing, Shape, Tone};

const WIDTH_MM: f32 = 150.0;
const HEIGHT_MM: f32 = 46.0;
/// Drawn millimetres for each recorded one: openings of 1 or 2 mm must be seen.
const OPENING_SCALE: f32 = 2.0;
/// No opening is drawn wider than this; its number still says what it is.
const WIDEST_MM: f32 = 9.0;

/// Tells whether there is something to draw: the side and at least one opening.
pub(crate) fn is_recorded(case: &Case) -> bool {
    let last = &case.balance.r#final;
    let spaces = [&last.extension, &last.flexion];
    case.knee.side.is_some() && spaces.iter().any(|s| s.medial_mm.is_some() || s.lateral_mm.is_some())
}

/// Draws both spaces side by side.
pub(crate) fn draw(case: &Case) -> Option<Drawing> {
    if !is_recorded(case) {
        return None;
    }
    let side = case.knee.side?;
    let last = &case.balance.r#final;
    let mut shapes = Vec::new();
    panel(&mut shapes, 5.0, "Extension", &last.extension, last.insert_mm, side);
    panel(&mut shapes, 80.0, "Flexion", &last.flexion, last.insert_mm, side);
    let words = |name: &str, space: &Space| {
        let part = |label: &str, mm: Option<f64>| mm.map(|mm| format!("{label} {mm} mm"));
        let parts: Vec<_> =
            [part("medial", space.medial_mm), part("lateral", space.lateral_mm)].into_iter().flatten().collect();
        if parts.is_empty() { None } else { Some(format!("{name} {}", parts.join(" and "))) }
    };
    let spaces: Vec<_> =
        [words("in extension", &last.extension), words("in flexion", &last.flexion)].into_iter().flatten().collect();
    let insert = last.insert_mm.map(|mm| format!("; insert {mm} mm")).unwrap_or_default();
    let alt =
        format!("The spaces as left in the {} knee, seen from the front: {}{insert}.", side.words(), spaces.join("; "));
    Some(Drawing { width_mm: WIDTH_MM, height_mm: HEIGHT_MM, shapes, alt })
}

fn panel(shapes: &mut Vec<Shape>, x: f32, title: &str, space: &Space, insert_mm: Option<f64>, side: Side) {
    let (left, right) = if medial_on_left(side) {
        (("medial", space.medial_mm), ("lateral", space.lateral_mm))
    } else {
        (("lateral", space.lateral_mm), ("medial", space.medial_mm))
    };
    let opening = |mm: Option<f64>| mm.map_or(0.0, |mm| (mm as f32 * OPENING_SCALE).clamp(0.0, WIDEST_MM));
    let (x0, x1) = (x + 12.0, x + 53.0);
    let femur_bottom = 19.0;
    let (left_top, right_top) = (femur_bottom + opening(left.1), femur_bottom + opening(right.1));
    let block = |points: Vec<(f32, f32)>, fill: Tone| Shape::Path {
        points,
        closed: true,
        fill,
        stroke: Tone::Ink,
        thickness_mm: 0.25,
    };
    text(shapes, (x + 32.5, 4.5), title, Anchor::Middle, true);
    shapes.push(block(vec![(x0, 8.0), (x1, 8.0), (x1, femur_bottom), (x0, femur_bottom)], Tone::Fill));
    text(shapes, (x + 32.5, 14.5), "femur", Anchor::Middle, false);
    let insert = 6.0;
    shapes.push(block(
        vec![(x0, left_top), (x1, right_top), (x1, right_top + insert), (x0, left_top + insert)],
        Tone::Accent,
    ));
    shapes.push(block(
        vec![
            (x0, left_top + insert),
            (x1, right_top + insert),
            (x1 - 3.0, right_top + insert + 9.0),
            (x0 + 3.0, left_top + insert + 9.0),
        ],
        Tone::Fill,
    ));
    let middle = (left_top + right_top) / 2.0;
    text(shapes, (x + 32.5, middle + insert + 5.5), "tibia", Anchor::Middle, false);
    if let Some(mm) = insert_mm {
        let words = format!("{mm} mm");
        shapes.push(label((x + 32.5, middle + 4.2), words, Anchor::Middle, Tone::Paper, true));
    }
    for ((name, mm), at, anchor) in [(left, x + 10.5, Anchor::End), (right, x + 54.5, Anchor::Start)] {
        text(shapes, (at, femur_bottom - 1.0), name, anchor, false);
        let words = mm.map_or_else(|| "–".to_owned(), |mm| format!("{mm} mm"));
        text(shapes, (at, femur_bottom + 4.0), &words, anchor, true);
    }
}

fn text(shapes: &mut Vec<Shape>, at: (f32, f32), words: &str, anchor: Anchor, bold: bool) {
    shapes.push(label(at, words.to_owned(), anchor, Tone::Ink, bold));
}

fn label(at: (f32, f32), words: String, anchor: Anchor, tone: Tone, bold: bool) -> Shape {
    Shape::Text { at, words, anchor, size_mm: 3.2, bold, tone }
}
