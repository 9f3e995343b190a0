//! Drawing to inline SVG: no scripts, no references, colours written out.

use std::fmt::Write;

use super::{Anchor, Drawing, Shape, Tone, runs};
use crate::html::escape;

/// Writes a drawing as an `svg` element with its words as title.
pub fn write(drawing: &Drawing) -> String {
    let mut out = String::new();
    let (w, h) = (drawing.width_mm, drawing.height_mm);
    let alt = escape(&drawing.alt);
    // Writing to a String cannot fail.
    let _ = write!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" aria-label=\"{alt}\" \
         width=\"{w}mm\" height=\"{h}mm\" viewBox=\"0 0 {w} {h}\"><title>{alt}</title>"
    );
    for shape in &drawing.shapes {
        shape_into(&mut out, shape);
    }
    out.push_str("</svg>");
    out
}

fn shape_into(out: &mut String, shape: &Shape) {
    let _ = match shape {
        Shape::Line { from, to, stroke, thickness_mm, dashed } => {
            let dash = if *dashed {
                format!(" stroke-dasharray=\"{} {}\"", thickness_mm * 4.0, thickness_mm * 3.0)
            } else {
                String::new()
            };
            write!(
                out,
                "<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"{}{dash}/>",
                from.0,
                from.1,
                to.0,
                to.1,
                paint(Tone::None, *stroke, *thickness_mm)
            )
        }
        Shape::Path { points, closed, fill, stroke, thickness_mm } => {
            let name = if *closed { "polygon" } else { "polyline" };
            let list: Vec<String> = points.iter().map(|(x, y)| format!("{x},{y}")).collect();
            write!(
                out,
                "<{name} points=\"{}\"{} stroke-linejoin=\"round\"/>",
                list.join(" "),
                paint(*fill, *stroke, *thickness_mm)
            )
        }
        Shape::Rect { at, size, fill, stroke, thickness_mm } => write!(
            out,
            "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"{}/>",
            at.0,
            at.1,
            size.0,
            size.1,
            paint(*fill, *stroke, *thickness_mm)
        ),
        Shape::Circle { at, radius_mm, fill, stroke, thickness_mm } => write!(
            out,
            "<circle cx=\"{}\" cy=\"{}\" r=\"{radius_mm}\"{}/>",
            at.0,
            at.1,
            paint(*fill, *stroke, *thickness_mm)
        ),
        Shape::Cells { at, cell_mm, rows, fill } => {
            let areas = runs(rows).map(|(row, first, count)| {
                let (x, y) = (at.0 + first as f32 * cell_mm, at.1 + row as f32 * cell_mm);
                let width = count as f32 * cell_mm;
                format!("M{x:.3} {y:.3}h{width:.3}v{cell_mm:.3}h-{width:.3}z")
            });
            let areas: String = areas.collect();
            write!(out, "<path d=\"{areas}\"{} shape-rendering=\"crispEdges\"/>", paint(*fill, Tone::None, 0.0))
        }
        Shape::Text { at, words, anchor, size_mm, bold, tone } => {
            let anchor = match anchor {
                Anchor::Start => "start",
                Anchor::Middle => "middle",
                Anchor::End => "end",
            };
            let weight = if *bold { " font-weight=\"600\"" } else { "" };
            write!(
                out,
                "<text x=\"{}\" y=\"{}\" font-size=\"{size_mm}\" text-anchor=\"{anchor}\"{weight}{}>{}</text>",
                at.0,
                at.1,
                paint(*tone, Tone::None, 0.0),
                escape(words)
            )
        }
    };
}

fn paint(fill: Tone, stroke: Tone, thickness_mm: f32) -> String {
    let mut out = format!(" fill=\"{}\"", colour(fill));
    if stroke != Tone::None {
        out.push_str(&format!(" stroke=\"{}\" stroke-width=\"{thickness_mm}\"", colour(stroke)));
    }
    out
}

fn colour(tone: Tone) -> String {
    match tone.rgb() {
        Some([r, g, b]) => format!("#{r:02x}{g:02x}{b:02x}"),
        None => "none".to_owned(),
    }
}
