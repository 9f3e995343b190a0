//! For the patient: the knee from the front, with the surfaces that were replaced drawn dark.

use std::f32::consts::PI;

use evengap_case::Case;
use evengap_case::sections::{ComponentRole, Fate, Procedure};

use super::medial_on_left;
use crate::drawing::{Anchor, Drawing, Shape, Tone};
use crate::words::Surfaces;

const WIDTH_MM: f32 = 110.0;
const HEIGHT_MM: f32 = 62.0;
const MIDDLE: f32 = 55.0;

/// The three parts of a knee, and which of them were replaced.
#[derive(Clone, Copy)]
struct Replaced {
    medial: bool,
    lateral: bool,
    trochlea: bool,
    /// Nothing where nobody recorded whether it was resurfaced.
    patella: Option<bool>,
}

/// Only procedures that say which surfaces are new can be drawn.
fn replaced(case: &Case) -> Option<Replaced> {
    let patella = if has_button(case) { Some(true) } else { case.cuts.patella.resurfaced };
    let (medial, lateral, trochlea) = match case.choice.procedure? {
        Procedure::Total => (true, true, true),
        Procedure::MedialPartial => (true, false, false),
        Procedure::LateralPartial => (false, true, false),
        Procedure::Patellofemoral => (false, false, true),
        _ => return None,
    };
    Some(Replaced { medial, lateral, trochlea, patella })
}

/// A button in the knee says that the kneecap was resurfaced, whatever else was recorded.
fn has_button(case: &Case) -> bool {
    let mut parts = case.components.iter();
    parts.any(|part| part.role == Some(ComponentRole::Patella) && part.fate == Some(Fate::Implanted))
}

/// Tells whether the drawing can be made.
pub(crate) fn is_recorded(case: &Case) -> bool {
    case.knee.side.is_some() && replaced(case).is_some()
}

/// Draws the knee from the front.
pub(crate) fn draw(case: &Case, words: &Surfaces) -> Option<Drawing> {
    let side = case.knee.side?;
    let parts = replaced(case)?;
    let (left, right) =
        if medial_on_left(side) { (parts.medial, parts.lateral) } else { (parts.lateral, parts.medial) };
    let (inner, outer) = (&words.inner_side, &words.outer_side);
    let (left_name, right_name) = if medial_on_left(side) { (inner, outer) } else { (outer, inner) };
    let mut shapes = Vec::new();
    bones(&mut shapes);
    for (x, new) in [(MIDDLE - 10.5, left), (MIDDLE + 10.5, right)] {
        if new {
            let mut cap = arc((x, 27.0), 9.7, 0.0, PI);
            cap.extend(arc((x, 25.4), 7.6, 0.92 * PI, 0.08 * PI));
            shapes.push(surface(cap));
            shapes.push(surface(vec![(x - 9.5, 40.8), (x + 9.5, 40.8), (x + 9.5, 43.4), (x - 9.5, 43.4)]));
        }
    }
    if parts.trochlea {
        let flange = [
            (-7.0, 15.5),
            (-2.5, 17.5),
            (2.5, 17.5),
            (7.0, 15.5),
            (9.5, 23.0),
            (3.0, 27.5),
            (-3.0, 27.5),
            (-9.5, 23.0),
        ];
        shapes.push(surface(flange.iter().map(|(x, y)| (MIDDLE + x, *y)).collect()));
    }
    if let Some(new) = parts.patella {
        kneecap(&mut shapes, new, &words.kneecap);
    }
    label(&mut shapes, (4.0, 8.0), words.knee.of(side), Anchor::Start);
    label(&mut shapes, (4.0, 12.5), &words.from_the_front, Anchor::Start);
    shapes.push(surface(vec![(4.1, 16.0), (7.3, 16.0), (7.3, 19.2), (4.1, 19.2)]));
    label(&mut shapes, (9.0, 18.8), &words.new, Anchor::Start);
    label(&mut shapes, (MIDDLE, 4.2), &words.thigh_bone, Anchor::Middle);
    label(&mut shapes, (MIDDLE, 58.0), &words.shin_bone, Anchor::Middle);
    label(&mut shapes, (MIDDLE - 27.0, 34.5), left_name, Anchor::End);
    label(&mut shapes, (MIDDLE + 27.0, 34.5), right_name, Anchor::Start);
    let mut names = Vec::new();
    for (new, name) in [
        (parts.medial, words.the_inner_side.as_str()),
        (parts.lateral, &words.the_outer_side),
        (parts.trochlea, &words.the_groove),
        (parts.patella == Some(true), &words.the_back_of_the_kneecap),
    ] {
        if new {
            names.push(name);
        }
    }
    let alt = words.alt.of(side).fill(&[("parts", &names.join(", "))]);
    Some(Drawing { width_mm: WIDTH_MM, height_mm: HEIGHT_MM, shapes, alt })
}

fn bones(shapes: &mut Vec<Shape>) {
    let mut femur = vec![(MIDDLE - 10.0, 6.0), (MIDDLE - 12.0, 14.0), (MIDDLE - 20.0, 24.0)];
    femur.extend(arc((MIDDLE - 10.5, 27.0), 9.5, PI, 0.0));
    femur.extend(arc((MIDDLE + 10.5, 27.0), 9.5, PI, 0.0));
    femur.extend([(MIDDLE + 20.0, 24.0), (MIDDLE + 12.0, 14.0), (MIDDLE + 10.0, 6.0)]);
    let tibia = vec![
        (MIDDLE - 20.0, 41.0),
        (MIDDLE + 20.0, 41.0),
        (MIDDLE + 18.0, 47.0),
        (MIDDLE + 9.0, 54.0),
        (MIDDLE - 9.0, 54.0),
        (MIDDLE - 18.0, 47.0),
    ];
    for points in [femur, tibia] {
        shapes.push(Shape::Path { points, closed: true, fill: Tone::Fill, stroke: Tone::Soft, thickness_mm: 0.3 });
    }
}

/// The kneecap stands beside the knee, so that it hides nothing.
fn kneecap(shapes: &mut Vec<Shape>, new: bool, name: &str) {
    let at = (MIDDLE + 42.0, 14.0);
    shapes.push(Shape::Circle { at, radius_mm: 7.0, fill: Tone::Fill, stroke: Tone::Soft, thickness_mm: 0.3 });
    if new {
        let fill = Tone::Accent;
        shapes.push(Shape::Circle { at, radius_mm: 4.6, fill, stroke: fill, thickness_mm: 0.2 });
    }
    label(shapes, (at.0, 25.5), name, Anchor::Middle);
}

fn surface(points: Vec<(f32, f32)>) -> Shape {
    Shape::Path { points, closed: true, fill: Tone::Accent, stroke: Tone::Accent, thickness_mm: 0.2 }
}

/// Points on a circle from one angle to another; 0 is to the right and angles grow downwards.
fn arc((x, y): (f32, f32), radius: f32, from: f32, to: f32) -> Vec<(f32, f32)> {
    const STEPS: u8 = 24;
    (0..=STEPS)
        .map(|step| {
            let angle = from + (to - from) * f32::from(step) / f32::from(STEPS);
            (x + radius * angle.cos(), y + radius * angle.sin())
        })
        .collect()
}

fn label(shapes: &mut Vec<Shape>, at: (f32, f32), words: &str, anchor: Anchor) {
    shapes.push(Shape::Text { at, words: words.to_owned(), anchor, size_mm: 3.4, bold: false, tone: Tone::Ink });
}
