//! A drawing's shapes as vector operations of a page.

use printpdf::{
    Color, Line, LineCapStyle, LineDashPattern, LineJoinStyle, LinePoint, Op, PaintMode, Polygon, PolygonRing, Pt,
    WindingOrder,
};

use crate::drawing::{Anchor, Drawing, Shape, Tone, runs};
use crate::fonts::Style;

use super::ink::{Ink, colour, round};
use super::shape::Shaper;

/// Distance of a quarter circle's control points, as a share of the radius.
const QUARTER: f32 = 0.552_284_8;

/// Draws at `x`, `y` from the sheet's top left, `scale` points for a millimetre.
pub(super) fn draw(ink: &mut Ink<'_>, shaper: &mut Shaper<'_>, drawing: &Drawing, (x, y): (f32, f32), scale: f32) {
    let at = |(px, py): (f32, f32)| (x + px * scale, y + py * scale);
    for shape in &drawing.shapes {
        match shape {
            Shape::Line { from, to, stroke, thickness_mm, dashed } => {
                let points = [*from, *to].map(|p| corner(ink, at(p)));
                let thick = thickness_mm * scale;
                let dash = dashed.then_some(thick);
                ink.shape(line(points.to_vec(), *stroke, thick, dash));
            }
            Shape::Path { points, closed, fill, stroke, thickness_mm } => {
                let ring = points.iter().map(|p| corner(ink, at(*p))).collect();
                let thick = thickness_mm * scale;
                if *closed {
                    ink.shape(area(ring, *fill, *stroke, thick));
                } else {
                    ink.shape(line(ring, *stroke, thick, None));
                }
            }
            Shape::Rect { at: (left, top), size: (w, h), fill, stroke, thickness_mm } => {
                let corners = [(0.0, 0.0), (*w, 0.0), (*w, *h), (0.0, *h)];
                let ring = corners.map(|(dx, dy)| corner(ink, at((left + dx, top + dy))));
                ink.shape(area(ring.to_vec(), *fill, *stroke, thickness_mm * scale));
            }
            Shape::Circle { at: centre, radius_mm, fill, stroke, thickness_mm } => {
                let ring = circle(ink, at(*centre), radius_mm * scale);
                ink.shape(area(ring, *fill, *stroke, thickness_mm * scale));
            }
            Shape::Cells { at: (left, top), cell_mm, rows, fill } => {
                let rings = runs(rows).map(|(row, first, count)| {
                    let (x, y) = (left + first as f32 * cell_mm, top + row as f32 * cell_mm);
                    let (x1, y1) = (x + count as f32 * cell_mm, y + cell_mm);
                    PolygonRing { points: [(x, y), (x1, y), (x1, y1), (x, y1)].map(|p| corner(ink, at(p))).to_vec() }
                });
                let rings: Vec<_> = rings.collect();
                if let Some(col) = colour(*fill) {
                    let (mode, winding_order) = (PaintMode::Fill, WindingOrder::NonZero);
                    let polygon = Polygon { rings, mode, winding_order };
                    ink.shape([Op::SetFillColor { col }, Op::DrawPolygon { polygon }]);
                }
            }
            Shape::Text { at: place, words, anchor, size_mm, bold, tone } => {
                let (mut text, mut glyphs) = (String::new(), Vec::new());
                shaper.append(words, Style::of(*bold, false), &mut text, &mut glyphs);
                let size = round(size_mm * scale);
                let width = glyphs.iter().map(|g| g.advance).sum::<f32>() * size / 1000.0;
                let (left, base) = at(*place);
                let left = match anchor {
                    Anchor::Start => left,
                    Anchor::Middle => left - width / 2.0,
                    Anchor::End => left - width,
                };
                ink.words(left, base, size, *tone, &glyphs);
            }
        }
    }
}

fn corner(ink: &Ink<'_>, (x, y): (f32, f32)) -> LinePoint {
    ink.point(x, y, false)
}

fn circle(ink: &Ink<'_>, (x, y): (f32, f32), r: f32) -> Vec<LinePoint> {
    let k = r * QUARTER;
    let turns = [
        ((r, k), (k, r), (0.0, r)),
        ((-k, r), (-r, k), (-r, 0.0)),
        ((-r, -k), (-k, -r), (0.0, -r)),
        ((k, -r), (r, -k), (r, 0.0)),
    ];
    let mut points = vec![ink.point(x + r, y, false)];
    for (a, b, end) in turns {
        points.push(ink.point(x + a.0, y + a.1, true));
        points.push(ink.point(x + b.0, y + b.1, true));
        points.push(ink.point(x + end.0, y + end.1, false));
    }
    points
}

fn pen(stroke: Tone, thickness: f32) -> Option<[Op; 4]> {
    colour(stroke).map(|col| {
        [
            Op::SetOutlineColor { col },
            Op::SetOutlineThickness { pt: Pt(round(thickness)) },
            Op::SetLineCapStyle { cap: LineCapStyle::Butt },
            Op::SetLineJoinStyle { join: LineJoinStyle::Round },
        ]
    })
}

fn line(points: Vec<LinePoint>, stroke: Tone, thickness: f32, dash: Option<f32>) -> Vec<Op> {
    let Some(pen) = pen(stroke, thickness) else {
        return Vec::new();
    };
    let mut ops = pen.to_vec();
    if let Some(unit) = dash {
        ops.push(dashes(&[round(unit * 4.0), round(unit * 3.0)]));
    }
    ops.push(Op::DrawLine { line: Line { points, is_closed: false } });
    if dash.is_some() {
        ops.push(dashes(&[]));
    }
    ops
}

fn dashes(pattern: &[f32]) -> Op {
    Op::SetLineDashPattern { dash: LineDashPattern::new(0.0, pattern) }
}

fn area(points: Vec<LinePoint>, fill: Tone, stroke: Tone, thickness: f32) -> Vec<Op> {
    let ground: Option<Color> = colour(fill);
    let pen = pen(stroke, thickness);
    let mode = match (&ground, &pen) {
        (Some(_), Some(_)) => PaintMode::FillStroke,
        (Some(_), None) => PaintMode::Fill,
        (None, Some(_)) => PaintMode::Stroke,
        (None, None) => return Vec::new(),
    };
    let mut ops: Vec<Op> = pen.into_iter().flatten().collect();
    ops.extend(ground.map(|col| Op::SetFillColor { col }));
    ops.push(Op::DrawPolygon {
        polygon: Polygon { rings: vec![PolygonRing { points }], mode, winding_order: WindingOrder::NonZero },
    });
    ops
}
