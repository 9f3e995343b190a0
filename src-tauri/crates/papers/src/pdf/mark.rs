//! The words across a page, as outlines.
//!
//! As text they would be taken out of the file in the middle of a sentence; the page's head says
//! the same words where they can be read and searched.

use std::collections::BTreeMap;
use std::fmt::Write;

use printpdf::{DictItem, ExternalStream, ExternalXObject, Op, XObject, XObjectId, XObjectTransform};
use rustybuzz::ttf_parser::{GlyphId, OutlineBuilder};

use crate::fonts::{Fonts, Style, Writing};

use super::look::MARK_GREY;

/// Makes the outlines of `words` across a sheet, `name` in the file, and the operation that draws them.
pub(super) fn across(
    words: &str,
    name: String,
    fonts: &Fonts,
    (width, height): (f32, f32),
) -> (XObjectId, XObject, Op) {
    let font = fonts.style(Style::Semibold);
    let shaped = font.shape(words, Writing::Latin, rustybuzz::UnicodeBuffer::new());
    let mut path = Path::default();
    for (info, position) in shaped.glyph_infos().iter().zip(shaped.glyph_positions()) {
        font.face().outline_glyph(GlyphId(info.glyph_id as u16), &mut path);
        path.x += position.x_advance as f32;
    }
    let length = path.x.max(1.0);
    let diagonal = width.hypot(height);
    // Never larger than 84 points: short words would shout.
    let scale = (diagonal * 0.66 / length).min(84.0 / font.units_per_em());
    let (sin, cos) = (height / diagonal * scale, width / diagonal * scale);
    let capital = f32::from(font.face().capital_height().unwrap_or(660)) / 2.0;
    let (dx, dy) = (-length / 2.0, -capital);
    let left = width / 2.0 + dx * cos - dy * sin;
    let bottom = height / 2.0 + dx * sin + dy * cos;
    let content =
        format!("{MARK_GREY} g\n{cos:.5} {sin:.5} {:.5} {cos:.5} {left:.2} {bottom:.2} cm\n{}f\n", -sin, path.out);
    let id = XObjectId(name);
    let name = |s: &str| DictItem::Name(s.as_bytes().to_vec());
    let bounds = [0.0, 0.0, width, height].map(DictItem::Real).to_vec();
    let dict = BTreeMap::from([
        ("Type".to_owned(), name("XObject")),
        ("Subtype".to_owned(), name("Form")),
        ("BBox".to_owned(), DictItem::Array(bounds)),
        ("Resources".to_owned(), DictItem::Dict { map: BTreeMap::new() }),
    ]);
    let object = XObject::External(ExternalXObject {
        stream: ExternalStream { dict, content: content.into_bytes(), compress: true },
        width: None,
        height: None,
        dpi: None,
    });
    let draw = Op::UseXobject {
        id: id.clone(),
        transform: XObjectTransform { no_auto_scale: true, ..XObjectTransform::default() },
    };
    (id, object, draw)
}

/// Writes outlines in font units; the file knows cubic curves only.
#[derive(Default)]
struct Path {
    out: String,
    /// Where the present glyph begins.
    x: f32,
    at: (f32, f32),
}

impl Path {
    fn put(&mut self, numbers: &[(f32, f32)], operator: &str) {
        for (x, y) in numbers {
            // Writing to a String cannot fail.
            let _ = write!(self.out, "{} {} ", (x + self.x).round(), y.round());
        }
        self.out.push_str(operator);
        self.out.push('\n');
    }
}

impl OutlineBuilder for Path {
    fn move_to(&mut self, x: f32, y: f32) {
        self.put(&[(x, y)], "m");
        self.at = (x, y);
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.put(&[(x, y)], "l");
        self.at = (x, y);
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        let (x0, y0) = self.at;
        let third = |a: f32, b: f32| a + (b - a) * 2.0 / 3.0;
        let a = (third(x0, x1), third(y0, y1));
        let b = (third(x, x1), third(y, y1));
        self.curve_to(a.0, a.1, b.0, b.1, x, y);
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        self.put(&[(x1, y1), (x2, y2), (x, y)], "c");
        self.at = (x, y);
    }

    fn close(&mut self) {
        self.put(&[], "h");
    }
}
