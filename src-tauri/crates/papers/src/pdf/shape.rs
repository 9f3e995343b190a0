//! Running text to glyphs: styles and scripts apart, then the shaper, then places in the file.
//!
//! Invariant: every character of the text belongs to some glyph. One that the font does not have
//! becomes a box whose meaning stays readable in the file, and is reported.

use std::collections::BTreeSet;

use rustybuzz::UnicodeBuffer;

use crate::blocks::Inline;
use crate::fonts::{Fonts, Placed, Style, Writing};

/// Holds one glyph with everything that drawing it needs; lengths in thousandths of the size.
#[derive(Debug, Clone)]
pub(super) struct Glyph {
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

/// Shapes text and gathers the characters that no font has.
pub(super) struct Shaper<'a> {
    fonts: &'a Fonts,
    /// Memory of the shaper, used again for each run.
    buffer: Option<UnicodeBuffer>,
    pub missing: BTreeSet<char>,
}

impl<'a> Shaper<'a> {
    pub(super) fn new(fonts: &'a Fonts) -> Self {
        Self { fonts, buffer: None, missing: BTreeSet::new() }
    }

    /// Shapes running text; returns the text (breaks as line feeds) and its glyphs in order.
    pub(super) fn inlines(&mut self, inlines: &[Inline], all_strong: bool) -> (String, Vec<Glyph>) {
        let mut text = String::new();
        let mut glyphs = Vec::new();
        for inline in inlines {
            match inline {
                Inline::Break => text.push('\n'),
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
        text.extend(words.chars().map(|c| match c {
            '\t' => ' ',
            '\u{b}' | '\u{c}' | '\u{85}' | '\u{2028}' | '\u{2029}' => '\n',
            c => c,
        }));
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

    fn run(&mut self, run: &str, base: usize, style: Style, script: Option<Writing>, out: &mut Vec<Glyph>) {
        if run.is_empty() {
            return;
        }
        let font = self.fonts.style(style);
        let buffer = self.buffer.take().unwrap_or_default();
        let shaped = font.shape(run, script.unwrap_or(Writing::Latin), buffer);
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
                None => self.missing_box(source, at, style, out),
            }
            n = end;
        }
        self.buffer = Some(shaped.clear());
    }

    /// Puts a box for characters that the font does not have.
    fn missing_box(&mut self, source: &str, at: u32, style: Style, out: &mut Vec<Glyph>) {
        let font = self.fonts.style(style);
        let before = self.missing.len();
        self.missing.extend(source.chars().filter(|c| !font.has(*c)));
        if self.missing.len() == before {
            self.missing.extend(source.chars().next());
        }
        if let Some(placed) = font.placed(0) {
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

/// Tells whether a reader of the file would find the same words; one space is as good as another.
fn same_words(source: &str, places: &[Placed]) -> bool {
    let plain = |c: char| if c == '\u{a0}' { ' ' } else { c };
    source.chars().map(plain).eq(places.iter().map(|p| plain(p.means)))
}
