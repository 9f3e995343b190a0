//! Running text to glyphs: styles and scripts apart, then the shaper, then places in the file.
//!
//! Invariant: every character of the text belongs to some glyph. One that the font does not have
//! becomes a box whose meaning stays readable in the file, and is reported.

use std::collections::BTreeSet;

use rustybuzz::UnicodeBuffer;

use crate::blocks::Inline;
use crate::fonts::{Fonts, Placed, Style, Writing};

use super::words::Words;

/// Stands for a character that no font has.
const BOX: char = '\u{25a1}';

/// Holds one glyph with everything that drawing it needs; lengths in thousandths of the size.
#[derive(Debug, Clone)]
pub(crate) struct Glyph {
    /// Byte of the text at which its character begins.
    pub at: u32,
    pub placed: Placed,
    pub advance: f32,
    pub right: f32,
    pub up: f32,
    /// What the glyph means if the file's character map would say something else.
    pub means: Option<Box<str>>,
    /// A further glyph of the same character: never begins a line.
    pub joined: bool,
}

impl Glyph {
    /// Tells whether nothing is drawn here, so that a line's end may swallow it.
    pub(super) fn is_space(&self) -> bool {
        self.placed.means == ' ' && !self.joined
    }
}

/// Longest word in bytes that is remembered.
const WORD: usize = 40;

/// Shapes text and gathers the characters that no font has.
pub(super) struct Shaper<'a> {
    fonts: &'a Fonts,
    known: Words,
    /// Memory of the shaper, used again for each run.
    buffer: Option<UnicodeBuffer>,
    pub missing: BTreeSet<char>,
}

impl<'a> Shaper<'a> {
    pub(super) fn new(fonts: &'a Fonts) -> Self {
        Self { fonts, known: fonts.words(), buffer: None, missing: BTreeSet::new() }
    }

    /// Shapes running text; returns the text (breaks as line feeds) and its glyphs in order.
    pub(super) fn inlines(&mut self, inlines: &[Inline], all_strong: bool) -> (String, Vec<Glyph>) {
        let mut text = String::new();
        let mut glyphs = Vec::new();
        for inline in inlines {
            match inline {
                // A table draws it beside the text.
                Inline::Drawing(_) => {}
                // The space is heard, not seen: the words before and behind are two.
                Inline::Break => {
                    self.append(" ", Style::Regular, &mut text, &mut glyphs);
                    text.push('\n');
                }
                Inline::Text { text: words, strong, emphasis } => {
                    let style = Style::of(*strong || all_strong, *emphasis);
                    self.append(words, style, &mut text, &mut glyphs);
                }
            }
        }
        (text, glyphs)
    }

    /// Shapes words in one style and appends them to `text` and `glyphs`.
    pub(super) fn append(&mut self, words: &str, style: Style, text: &mut String, glyphs: &mut Vec<Glyph>) {
        let base = text.len();
        for c in words.chars() {
            match c {
                '\t' => text.push(' '),
                '\u{b}' | '\u{c}' | '\u{85}' | '\u{2028}' | '\u{2029}' => text.push_str(" \n"),
                c => text.push(c),
            }
        }
        let mut start = base;
        let mut script = None;
        let mut position = base;
        for c in text[base..].chars() {
            let next = Writing::of(c);
            let turns = matches!((script, next), (Some(a), Some(b)) if a != b);
            if turns || c == '\n' {
                self.run(&text[start..position], start, style, script, glyphs);
                start = if c == '\n' { position + 1 } else { position };
                script = None;
            }
            script = next.or(script);
            position += c.len_utf8();
        }
        self.run(&text[start..], start, style, script, glyphs);
    }

    /// Shapes a run of one style and one script, word by word.
    ///
    /// The fonts kern nothing with a space, so that a word's shape does not depend on its neighbours;
    /// only before plain characters, as others may join the space itself.
    fn run(&mut self, run: &str, base: usize, style: Style, script: Option<Writing>, out: &mut Vec<Glyph>) {
        let script = script.unwrap_or(Writing::Latin);
        let bytes = run.as_bytes();
        let mut start = 0;
        for end in 1..=bytes.len() {
            let ends = bytes.get(end).is_none_or(|next| bytes[end - 1] == b' ' && next.is_ascii_graphic());
            if ends {
                self.word(&run[start..end], base + start, style, script, out);
                start = end;
            }
        }
    }

    /// Shapes a word with the spaces behind it, or remembers how it was shaped before.
    fn word(&mut self, word: &str, base: usize, style: Style, script: Writing, out: &mut Vec<Glyph>) {
        if word.len() > WORD {
            self.shape(word, base, style, script, out);
            return;
        }
        let first = out.len();
        if let Some(known) = self.known.get(word, style, script) {
            out.extend_from_slice(known);
        } else if self.shape(word, 0, style, script, out) {
            self.known.keep(word, style, script, &out[first..]);
        }
        for glyph in &mut out[first..] {
            glyph.at += base as u32;
        }
    }

    /// Shapes what is not remembered; tells whether the font has all of it.
    fn shape(&mut self, run: &str, base: usize, style: Style, script: Writing, out: &mut Vec<Glyph>) -> bool {
        let mut complete = true;
        let font = self.fonts.style(style);
        let buffer = self.buffer.take().unwrap_or_default();
        let shaped = font.shape(run, script, buffer);
        let scale = 1000.0 / font.units_per_em();
        let (infos, positions) = (shaped.glyph_infos(), shaped.glyph_positions());
        let mut n = 0;
        while n < infos.len() {
            let from = infos[n].cluster as usize;
            let end = (n..infos.len()).find(|&m| infos[m].cluster as usize != from).unwrap_or(infos.len());
            let to = infos.get(end).map_or(run.len(), |info| info.cluster as usize);
            let source = &run[from..to.max(from)];
            let places: Option<Vec<Placed>> = infos[n..end]
                .iter()
                .map(|info| match info.glyph_id {
                    0 => None,
                    id => font.placed(id as u16),
                })
                .collect();
            let at = (base + from) as u32;
            match places {
                Some(places) => {
                    let same = same_words(source, &places);
                    for (k, placed) in places.into_iter().enumerate() {
                        let position = positions[n + k];
                        out.push(Glyph {
                            at,
                            placed,
                            advance: position.x_advance as f32 * scale,
                            right: position.x_offset as f32 * scale,
                            up: position.y_offset as f32 * scale,
                            means: (!same && k == 0).then(|| source.into()),
                            joined: k > 0,
                        });
                    }
                }
                None => {
                    complete = false;
                    self.missing_box(source, at, style, out);
                }
            }
            n = end;
        }
        self.buffer = Some(shaped.clear());
        complete
    }

    /// Puts a box for characters that the font does not have.
    fn missing_box(&mut self, source: &str, at: u32, style: Style, out: &mut Vec<Glyph>) {
        let font = self.fonts.style(style);
        let before = self.missing.len();
        self.missing.extend(source.chars().filter(|c| !font.has(*c)));
        if self.missing.len() == before {
            self.missing.extend(source.chars().next());
        }
        // Not the font's own box for what it lacks: PDF/A wants every glyph to be a character.
        if let Some(placed) = font.drawn(BOX).or_else(|| font.placed(0)) {
            out.push(Glyph {
                at,
                placed,
                advance: f32::from(placed.width),
                right: 0.0,
                up: 0.0,
                means: Some(source.into()),
                joined: false,
            });
        }
    }
}

impl Drop for Shaper<'_> {
    /// Leaves the words for the next paper.
    fn drop(&mut self) {
        self.fonts.remember(std::mem::take(&mut self.known));
    }
}

/// Tells whether a reader of the file would find the same words; one space is as good as another.
fn same_words(source: &str, places: &[Placed]) -> bool {
    let plain = |c: char| if c == '\u{a0}' { ' ' } else { c };
    source.chars().map(plain).eq(places.iter().map(|p| plain(p.means)))
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a failing test says why by panicking")]
mod tests {
    use super::{Shaper, Style, Writing};
    use crate::fonts::Fonts;

    #[test]
    fn words_one_by_one_have_the_shape_that_they_have_together() {
        let fonts = Fonts::built_in().unwrap();
        let mut shaper = Shaper::new(&fonts);
        let letters: Vec<char> = (' '..='~').collect();
        let pairs: String = letters.iter().flat_map(|a| [*a, ' ', 'A', ' ', *a, 'V', ' ', ' ']).collect();
        let marks = "e\u{301} \u{301}x a \u{308}b  Ngọc Trần Thị Ánh 10 mm ± 2 °C";
        for style in [Style::Regular, Style::Italic, Style::Semibold, Style::SemiboldItalic] {
            for text in [pairs.as_str(), marks] {
                let (mut whole, mut parts, mut again) = (Vec::new(), Vec::new(), Vec::new());
                shaper.shape(text, 3, style, Writing::Latin, &mut whole);
                shaper.run(text, 3, style, Some(Writing::Latin), &mut parts);
                shaper.run(text, 3, style, Some(Writing::Latin), &mut again);
                assert_eq!(format!("{parts:?}"), format!("{whole:?}"), "{style:?}, shaped for the first time");
                assert_eq!(format!("{again:?}"), format!("{whole:?}"), "{style:?}, remembered");
            }
        }
    }
}
