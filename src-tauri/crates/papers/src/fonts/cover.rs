//! Which characters the embedded parts of a style hold.

use std::ops::RangeInclusive;

use rustybuzz::Face;

/// A part's label (six capitals, as the file format wants them) and its characters.
type Cover = (&'static str, &'static [RangeInclusive<u32>]);

/// The parts, in the order in which a character finds its place.
const PARTS: &[Cover] = &[
    // Western European text, figures and punctuation: enough for most papers.
    (
        "WESTRN",
        &[
            0x20..=0x7e,
            0xa0..=0xff,
            0x152..=0x153,
            0x2010..=0x2027,
            0x2030..=0x203a,
            0x20ac..=0x20ac,
            0x2122..=0x2122,
            0x2190..=0x2193,
            0x2212..=0x2212,
            0x2248..=0x2248,
            0x2264..=0x2265,
        ],
    ),
    // Central and eastern European Latin, Baltic and Turkish.
    ("EUROPE", &[0x100..=0x17f, 0x18f..=0x18f, 0x218..=0x21b, 0x259..=0x259, 0x1e9e..=0x1e9e]),
    ("VIETNM", &[0x1a0..=0x1a1, 0x1af..=0x1b0, 0x1ea0..=0x1ef9]),
    // The rest of Latin, with the marks that are put on letters.
    ("LATINX", &[0x180..=0x36f, 0x1ab0..=0x1aff, 0x1d00..=0x1eff, 0x2c60..=0x2c7f, 0xa720..=0xa7ff, 0xfb00..=0xfb06]),
    ("GREEKM", &[0x370..=0x3ff]),
    ("GREEKP", &[0x1f00..=0x1fff]),
    ("CYRILX", &[0x400..=0x52f, 0x1c80..=0x1c8f]),
    // Signs, arrows and shapes that findings may hold.
    ("SIGNSX", &[0x2000..=0x209f, 0x20a0..=0x20cf, 0x2100..=0x22ff, 0x2460..=0x27bf]),
];

/// Lists the parts of a style: their label and their characters with glyphs, lowest first.
///
/// A glyph that several characters share is listed once, with the first of them.
pub(super) fn parts(face: &Face<'_>) -> Vec<(&'static str, Vec<(char, u16)>)> {
    let mut seen = vec![false; usize::from(face.number_of_glyphs())];
    let mut list = |ranges: &[RangeInclusive<u32>]| {
        let mut chars = Vec::new();
        for c in ranges.iter().cloned().flatten().filter_map(char::from_u32) {
            if let Some(glyph) = face.glyph_index(c)
                && let Some(seen) = seen.get_mut(usize::from(glyph.0))
                && !*seen
            {
                *seen = true;
                chars.push((c, glyph.0));
            }
        }
        chars
    };
    PARTS.iter().map(|(label, ranges)| (*label, list(ranges))).collect()
}
