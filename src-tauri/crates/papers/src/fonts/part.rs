//! One embedded part of one style: font program, widths and character map, all made once.

use std::sync::OnceLock;

use lopdf::{Dictionary, Document, Object, Stream, dictionary};
use rustybuzz::Face;
use subsetter::GlyphRemapper;

use super::{FontError, PartId, Placed};

/// Holds one part; its streams are made when the first paper asks for them.
pub(crate) struct Part {
    name: &'static str,
    data: &'static [u8],
    base_font: String,
    descriptor: Dictionary,
    widths: Vec<Object>,
    remapper: GlyphRemapper,
    means: Vec<(u16, char)>,
    /// Nothing inside if the font turned out to be damaged.
    streams: OnceLock<Option<Streams>>,
}

/// The streams of a part, already compressed.
struct Streams {
    program: Stream,
    /// Character map for reading text out of the file.
    to_unicode: Stream,
}

impl Part {
    /// Cuts the part out of a font and notes in `placed` where its glyphs went.
    pub(super) fn cut(
        name: &'static str,
        label: &str,
        data: &'static [u8],
        face: &Face<'_>,
        chars: &[(char, u16)],
        id: PartId,
        placed: &mut [Option<Placed>],
    ) -> Self {
        let mut remapper = GlyphRemapper::new();
        let scale = 1000.0 / face.units_per_em() as f32;
        let mut means = Vec::with_capacity(chars.len());
        let box_width = width_of(face, 0, scale);
        let mut widths = vec![Object::Integer(box_width)];
        // Glyph 0 is the box that stands for a character that the font does not have.
        if let Some(slot @ None) = placed.first_mut() {
            *slot = Some(Placed {
                part: id,
                cid: 0,
                width: i16::try_from(box_width).unwrap_or(i16::MAX),
                means: char::REPLACEMENT_CHARACTER,
            });
        }
        for &(c, glyph) in chars {
            let cid = remapper.remap(glyph);
            if cid == 0 {
                continue;
            }
            let width = width_of(face, glyph, scale);
            widths.push(Object::Integer(width));
            means.push((cid, c));
            if let Some(slot) = placed.get_mut(usize::from(glyph)) {
                *slot = Some(Placed { part: id, cid, width: i16::try_from(width).unwrap_or(i16::MAX), means: c });
            }
        }
        let base_font = format!("{label}+{name}");
        Self {
            name,
            data,
            descriptor: descriptor(face, scale, &base_font),
            base_font,
            widths,
            remapper,
            means,
            streams: OnceLock::new(),
        }
    }

    fn streams(&self) -> Result<&Streams, FontError> {
        let make = || {
            let program = subsetter::subset(self.data, 0, &self.remapper).ok()?;
            let length = program.len() as i64;
            Some(Streams {
                program: compressed(dictionary! { "Length1" => length }, program)?,
                to_unicode: compressed(Dictionary::new(), character_map(&self.means))?,
            })
        };
        self.streams.get_or_init(make).as_ref().ok_or(FontError::Damaged(self.name))
    }

    /// Adds the part to a file and returns a reference to its font dictionary.
    pub(super) fn embed(&self, file: &mut Document) -> Result<Object, FontError> {
        let streams = self.streams()?;
        let program = file.add_object(streams.program.clone());
        let to_unicode = file.add_object(streams.to_unicode.clone());
        let mut descriptor = self.descriptor.clone();
        descriptor.set("FontFile2", program);
        let descriptor = file.add_object(descriptor);
        let descendant = file.add_object(dictionary! {
            "Type" => "Font",
            "Subtype" => "CIDFontType2",
            "BaseFont" => Object::Name(self.base_font.clone().into_bytes()),
            "CIDSystemInfo" => dictionary! {
                "Registry" => Object::string_literal("Adobe"),
                "Ordering" => Object::string_literal("Identity"),
                "Supplement" => 0,
            },
            "FontDescriptor" => descriptor,
            "DW" => 1000,
            "W" => vec![Object::Integer(0), Object::Array(self.widths.clone())],
            "CIDToGIDMap" => "Identity",
        });
        Ok(Object::Reference(file.add_object(dictionary! {
            "Type" => "Font",
            "Subtype" => "Type0",
            "BaseFont" => Object::Name(self.base_font.clone().into_bytes()),
            "Encoding" => "Identity-H",
            "DescendantFonts" => vec![Object::Reference(descendant)],
            "ToUnicode" => to_unicode,
        })))
    }
}

fn width_of(face: &Face<'_>, glyph: u16, scale: f32) -> i64 {
    let units = face.glyph_hor_advance(rustybuzz::ttf_parser::GlyphId(glyph)).unwrap_or(0);
    (f32::from(units) * scale).round() as i64
}

fn compressed(dictionary: Dictionary, content: Vec<u8>) -> Option<Stream> {
    let mut stream = Stream::new(dictionary, content);
    stream.compress().ok()?;
    Some(stream)
}

fn descriptor(face: &Face<'_>, scale: f32, base_font: &str) -> Dictionary {
    let bounds = face.global_bounding_box();
    let scaled = |units: i16| Object::Integer((f32::from(units) * scale).round() as i64);
    let italic = face.is_italic();
    // 4: symbolic, as every font with numbered glyphs; 64: italic.
    let flags = 4 + if italic { 64 } else { 0 };
    let weight = i64::from(face.weight().to_number());
    dictionary! {
        "Type" => "FontDescriptor",
        "FontName" => Object::Name(base_font.as_bytes().to_vec()),
        "Flags" => flags,
        "FontBBox" => vec![
            scaled(bounds.x_min), scaled(bounds.y_min), scaled(bounds.x_max), scaled(bounds.y_max),
        ],
        "ItalicAngle" => Object::Integer(face.italic_angle().round() as i64),
        "Ascent" => scaled(face.ascender()),
        "Descent" => scaled(face.descender()),
        "CapHeight" => scaled(face.capital_height().unwrap_or(660)),
        // The usual estimate of a stem's width from the weight.
        "StemV" => 10 + 220 * (weight - 50) / 900,
    }
}

/// Writes the map from glyph numbers to characters that readers use to take text out.
fn character_map(means: &[(u16, char)]) -> Vec<u8> {
    let mut out = String::from(
        "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n\
         /CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n\
         /CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n\
         1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n",
    );
    // A block may hold at most 100 entries.
    for block in means.chunks(100) {
        out.push_str(&format!("{} beginbfchar\n", block.len()));
        for (cid, c) in block {
            let mut units = [0; 2];
            let hex: String = c.encode_utf16(&mut units).iter().map(|unit| format!("{unit:04X}")).collect();
            out.push_str(&format!("<{cid:04X}> <{hex}>\n"));
        }
        out.push_str("endbfchar\n");
    }
    out.push_str("endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n");
    out.into_bytes()
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a failing test says why by panicking")]
mod tests {
    use crate::fonts::Fonts;

    #[test]
    fn no_embedded_data_ends_like_a_line() {
        // A strict reader would count one byte less; see the packer in `pdf/save`.
        let fonts = Fonts::built_in().unwrap();
        for part in &fonts.parts {
            let streams = part.streams().unwrap();
            for stream in [&streams.program, &streams.to_unicode] {
                assert_ne!(stream.content.last(), Some(&b'\r'), "{}", part.base_font);
            }
        }
    }
}
