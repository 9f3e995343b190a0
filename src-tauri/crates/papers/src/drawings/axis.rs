//! The limb axis from the front, from the angles as they were measured.

use evengap_case::Case;
use evengap_case::sections::Side;

use super::medial_on_left;
use crate::drawing::{Anchor, Drawing, Shape, Tone};
use crate::view::leaning;

const WIDTH_MM: f32 = 110.0;
const HEIGHT_MM: f32 = 50.0;
const KNEE: (f32, f32) = (55.0, 25.0);
const BONE_MM: f32 = 20.0;
const HALF_JOINT_MM: f32 = 10.0;

/// Tells whether the two angles that the drawing cannot do without are recorded.
pub(crate) fn is_recorded(case: &Case) -> bool {
    let alignment = &case.knee.alignment;
    case.knee.side.is_some() && alignment.ldfa_deg.is_some() && alignment.mpta_deg.is_some()
}

/// Where the lines of the drawing point, in degrees clockwise from straight up, lateral to the right.
struct Directions {
    femoral_joint: f64,
    tibial_joint: f64,
    tibia: f64,
}

/// LDFA opens laterally from the femur, JLCA from the femoral to the tibial joint line (varus opens
/// laterally), MPTA medially from the tibial joint line to the tibia.
///
/// The tibia then leaves the straight line by LDFA + JLCA − MPTA, which is the deviation of the
/// mechanical axis with its sign turned (MPTA − LDFA − JLCA, varus negative).
fn directions(ldfa_deg: f64, mpta_deg: f64, jlca_deg: f64) -> Directions {
    let tibial_joint = ldfa_deg + jlca_deg;
    Directions { femoral_joint: ldfa_deg, tibial_joint, tibia: tibial_joint + 180.0 - mpta_deg }
}

/// Draws the axis.
pub(crate) fn draw(case: &Case) -> Option<Drawing> {
    let side = case.knee.side?;
    let alignment = &case.knee.alignment;
    let (ldfa, mpta) = (alignment.ldfa_deg?, alignment.mpta_deg?);
    let lines = directions(ldfa, mpta, alignment.jlca_deg.unwrap_or(0.0));
    let lateral = if medial_on_left(side) { 1.0 } else { -1.0 };
    let towards = |from: (f32, f32), deg: f64, length: f32| {
        let angle = deg.to_radians();
        (from.0 + lateral * length * angle.sin() as f32, from.1 - length * angle.cos() as f32)
    };
    let hip = towards(KNEE, 0.0, BONE_MM);
    let ankle = towards(KNEE, lines.tibia, BONE_MM);
    let mut shapes = Vec::new();
    let line = |from, to, stroke, thickness_mm, dashed| Shape::Line { from, to, stroke, thickness_mm, dashed };
    shapes.push(line(hip, towards(KNEE, 180.0, BONE_MM), Tone::Soft, 0.2, true));
    shapes.push(line(hip, KNEE, Tone::Ink, 0.7, false));
    shapes.push(line(KNEE, ankle, Tone::Ink, 0.7, false));
    for (deg, below) in [(lines.femoral_joint, 0.0), (lines.tibial_joint, 0.9)] {
        let at = (KNEE.0, KNEE.1 + below);
        let (from, to) = (towards(at, deg + 180.0, HALF_JOINT_MM), towards(at, deg, HALF_JOINT_MM));
        shapes.push(line(from, to, Tone::Accent, 0.6, false));
    }
    for (at, words) in [(hip, "hip"), (ankle, "ankle")] {
        let fill = Tone::Fill;
        shapes.push(Shape::Circle { at, radius_mm: 1.3, fill, stroke: Tone::Ink, thickness_mm: 0.3 });
        // Away from the dashed line, whichever way the ankle goes.
        let (shift, anchor) = if at.0 < KNEE.0 { (-3.0, Anchor::End) } else { (3.0, Anchor::Start) };
        label(&mut shapes, (at.0 + shift, at.1 + 1.0), words, anchor, false);
    }
    let (lateral_end, medial_end) =
        if lateral > 0.0 { (Anchor::Start, Anchor::End) } else { (Anchor::End, Anchor::Start) };
    let beside = |sign: f32| KNEE.0 + lateral * sign * 13.0;
    label(&mut shapes, (beside(1.0), KNEE.1 - 4.0), &format!("LDFA {ldfa}°"), lateral_end, true);
    label(&mut shapes, (beside(-1.0), KNEE.1 + 6.5), &format!("MPTA {mpta}°"), medial_end, true);
    label(&mut shapes, (beside(1.0), KNEE.1 + 1.0), "lateral", lateral_end, false);
    label(&mut shapes, (beside(-1.0), KNEE.1 + 1.0), "medial", medial_end, false);
    if let Some(jlca) = alignment.jlca_deg {
        label(&mut shapes, (beside(1.0), KNEE.1 + 6.0), &format!("JLCA {}", coronal(-jlca)), lateral_end, true);
    }
    let side_words = if side == Side::Left { "left leg," } else { "right leg," };
    label(&mut shapes, (3.0, 6.0), side_words, Anchor::Start, false);
    label(&mut shapes, (3.0, 10.5), "from the front", Anchor::Start, false);
    Some(Drawing { width_mm: WIDTH_MM, height_mm: HEIGHT_MM, shapes, alt: alt(case, ldfa, mpta) })
}

fn alt(case: &Case, ldfa: f64, mpta: f64) -> String {
    let side = case.knee.side.map_or("", |side| side.words());
    let jlca = case.knee.alignment.jlca_deg.map(|jlca| format!(", JLCA {}", coronal(-jlca))).unwrap_or_default();
    format!("The axis of the {side} leg, seen from the front: LDFA {ldfa}°, MPTA {mpta}°{jlca}.")
}

/// Writes an angle with varus negative as a person says it.
fn coronal(deg: f64) -> String {
    leaning(deg, &deg.abs().to_string(), ["varus", "valgus"], "0°")
}

fn label(shapes: &mut Vec<Shape>, at: (f32, f32), words: &str, anchor: Anchor, bold: bool) {
    shapes.push(Shape::Text { at, words: words.to_owned(), anchor, size_mm: 3.2, bold, tone: Tone::Ink });
}

#[cfg(test)]
mod tests {
    use super::directions;

    /// Paley, Principles of Deformity Correction, 2002: mLDFA 87.5°, MPTA 87.5° and parallel joint lines give
    /// a straight leg (from memory); the rest follows from MacDessi 2021, mHKA = MPTA − LDFA − JLCA.
    #[test]
    fn the_tibia_leaves_the_straight_line_by_the_mechanical_deviation() {
        for (ldfa, mpta, jlca, deviation) in
            [(87.5, 87.5, 0.0, 0.0), (88.0, 85.5, 3.5, -6.0), (83.0, 91.0, -6.0, 14.0), (90.0, 84.0, 2.0, -8.0)]
        {
            let drawn = 180.0 - directions(ldfa, mpta, jlca).tibia;
            assert!(
                (drawn - deviation).abs() < 1e-9,
                "LDFA {ldfa}, MPTA {mpta}, JLCA {jlca}: {drawn} and not {deviation}"
            );
        }
    }
}
