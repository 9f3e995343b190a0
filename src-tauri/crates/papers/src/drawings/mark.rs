//! The Data Matrix of a component's label, made anew from what the entry records.
//!
//! A mark is drawn only where the standard can carry the recorded answers exactly; a label that was
//! typed by hand gets none.

use chrono::Datelike;
use datamatrix::{DataMatrix, SymbolList};
use evengap_case::LocalTime;
use evengap_case::sections::{Component, LabelScheme};
use evengap_label::{Options, Parts, Scheme, compose, printed, read};

use crate::drawing::{Drawing, Shape, Tone};

/// Side of one module. GS1 General Specifications, symbol specifications for regulated healthcare items:
/// X-dimension of GS1 DataMatrix 0.254 to 0.990 mm, a quiet zone of one module on each side.
const MODULE_MM: f32 = 0.45;
/// Wider than the one module that is asked for: a table's lines stand close by.
const QUIET_MODULES: f32 = 2.0;

/// What a mark says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Mark {
    /// The text that the symbol holds; GS1 separators as ASCII 29.
    text: String,
    /// Its kind, `GS1 DataMatrix` or `HIBC Data Matrix`.
    pub kind: &'static str,
    /// The text as a person reads it under the symbol.
    pub words: String,
}

/// Gives the mark of a component, or the reason why it has none.
///
/// `written` decides the century that two digits of a year stand for.
pub(crate) fn of(component: &Component, written: LocalTime) -> Result<Mark, &'static str> {
    let (scheme, kind) = match component.scan.scheme {
        Some(LabelScheme::Gs1) => (Scheme::Gs1, "GS1 DataMatrix"),
        Some(LabelScheme::Hibc) => (Scheme::Hibc, "HIBC Data Matrix"),
        Some(LabelScheme::Isbt128) => return Err("ISBT 128 label"),
        Some(LabelScheme::Typed) => return Err("typed by hand"),
        None => return Err("no label read"),
    };
    let Some(device_identifier) = component.scan.device_identifier.as_deref() else {
        return Err("no device identifier");
    };
    if component.lot.is_none() && component.serial.is_none() {
        return Err("lot or serial not recorded");
    }
    let parts = Parts {
        scheme,
        device_identifier,
        lot: component.lot.as_deref(),
        serial: component.serial.as_deref(),
        made_on: component.made_on.map(|date| date.0),
        expires_on: component.expires_on.map(|date| date.0),
    };
    let options = Options::new(written.0.year());
    let text = compose(&parts, &options).ok_or("recorded answers make no valid code")?;
    let words = match scheme {
        Scheme::Gs1 => printed(&read(&format!("]d2{text}"), &options)),
        _ => format!("*{text}*"),
    };
    Ok(Mark { text, kind, words })
}

/// Draws the mark of a component, where it has one.
pub(super) fn draw(component: &Component, written: LocalTime) -> Option<Drawing> {
    let mark = of(component, written).ok()?;
    let squares = SymbolList::default().enforce_square();
    let matrix = match component.scan.scheme {
        Some(LabelScheme::Gs1) => DataMatrix::encode_gs1(mark.text.as_bytes(), squares).ok()?,
        _ => DataMatrix::encode(mark.text.as_bytes(), squares).ok()?,
    };
    let bitmap = matrix.bitmap();
    let rows: Vec<Vec<bool>> = bitmap.bits().chunks(bitmap.width()).map(<[bool]>::to_vec).collect();
    let quiet = QUIET_MODULES * MODULE_MM;
    let (width, height) = (bitmap.width() as f32 * MODULE_MM, bitmap.height() as f32 * MODULE_MM);
    let size = (width + 2.0 * quiet, height + 2.0 * quiet);
    let paper = Shape::Rect { at: (0.0, 0.0), size, fill: Tone::Paper, stroke: Tone::None, thickness_mm: 0.0 };
    let cells = Shape::Cells { at: (quiet, quiet), cell_mm: MODULE_MM, rows, fill: Tone::Black };
    let alt = format!("{}: {}", mark.kind, mark.words);
    Some(Drawing { width_mm: size.0, height_mm: size.1, shapes: vec![paper, cells], alt })
}
