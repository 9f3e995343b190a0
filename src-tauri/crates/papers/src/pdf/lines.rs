//! Glyphs into lines of a given width, ragged right.
//!
//! Breaks where Unicode allows one, except after a hyphen (readers drop a hyphen at a line's end,
//! and a reference number must survive) and between a number and its unit. A word that is wider
//! than a whole line is broken between characters.

use unicode_linebreak::{BreakOpportunity, linebreaks};

use super::shape::Glyph;

/// Holds one line; width in points.
#[derive(Debug, Clone, Default)]
pub(super) struct Line {
    pub glyphs: Vec<Glyph>,
    pub width: f32,
}

/// Breaks shaped text into lines no wider than `width` points at `size` points.
pub(super) fn fill(text: &str, glyphs: &[Glyph], size: f32, width: f32) -> Vec<Line> {
    let limit = width * 1000.0 / size + 0.5;
    let mut lines = Vec::new();
    let mut start = 0; // First glyph of the line being filled.
    let mut end = 0; // One past its last glyph so far.
    let mut used = 0.0; // Advance of start..end.
    let mut close = |from: usize, to: usize| lines.push(line(&glyphs[from..to], size));
    for (position, opportunity) in linebreaks(text) {
        let mandatory = opportunity == BreakOpportunity::Mandatory;
        if !mandatory && !may_break(text, position) {
            continue;
        }
        let next =
            end + glyphs[end..].iter().position(|glyph| glyph.at as usize >= position).unwrap_or(glyphs.len() - end);
        let word = &glyphs[end..next];
        let (full, bare) = widths(word);
        if used + bare > limit && end > start {
            close(start, end);
            (start, used) = (end, 0.0);
        }
        if bare > limit {
            // Too wide for any line: cut between characters.
            let mut sum = used;
            for n in end..next {
                let glyph = &glyphs[n];
                if sum + glyph.advance > limit && n > start && !glyph.joined {
                    let cut = if n - 1 > start && glyphs[n - 1].placed.means == '-' { n - 1 } else { n };
                    close(start, cut);
                    sum = glyphs[cut..n].iter().map(|g| g.advance).sum();
                    start = cut;
                }
                sum += glyph.advance;
            }
            used = sum;
        } else {
            used += full;
        }
        end = next;
        if mandatory && (position < text.len() || text.ends_with('\n')) {
            close(start, end);
            (start, used) = (end, 0.0);
        }
    }
    if end > start || !text.ends_with('\n') {
        close(start, end);
    }
    lines
}

/// Measures text that is not broken except where it must be: the widest line and the widest word.
pub(super) fn measure(text: &str, glyphs: &[Glyph], size: f32) -> (f32, f32) {
    let (mut widest, mut word_widest, mut sum, mut from) = (0.0_f32, 0.0_f32, 0.0_f32, 0);
    for (position, opportunity) in linebreaks(text) {
        let mandatory = opportunity == BreakOpportunity::Mandatory;
        if !mandatory && !may_break(text, position) {
            continue;
        }
        let to =
            from + glyphs[from..].iter().position(|glyph| glyph.at as usize >= position).unwrap_or(glyphs.len() - from);
        let (full, bare) = widths(&glyphs[from..to]);
        word_widest = word_widest.max(bare);
        widest = widest.max(sum + bare);
        sum = if mandatory { 0.0 } else { sum + full };
        from = to;
    }
    (word_widest * size / 1000.0, widest * size / 1000.0)
}

fn line(glyphs: &[Glyph], size: f32) -> Line {
    let length = glyphs.iter().rposition(|g| !g.is_space()).map_or(0, |n| n + 1);
    let width = glyphs[..length].iter().map(|g| g.advance).sum::<f32>() * size / 1000.0;
    // One space stays at the end, outside the width: who hears the paper hears two words.
    let end = if length > 0 { glyphs.len().min(length + 1) } else { 0 };
    Line { glyphs: glyphs[..end].to_vec(), width }
}

/// Returns the advance of a word with and without the spaces after it.
fn widths(word: &[Glyph]) -> (f32, f32) {
    let full: f32 = word.iter().map(|g| g.advance).sum();
    let spaces: f32 = word.iter().rev().take_while(|g| g.is_space()).map(|g| g.advance).sum();
    (full, full - spaces)
}

/// What stays with the number before it: units, and the months of dates in words.
const KEPT: &str = "× mm cm m ml mL l L mg g kg µg mmHg % ° °C g/L g/l µmol/L µmol/l units degrees litres metres \
    minutes min hours h days weeks months years January February March April May June July August September October \
    November December Uhr Januar Februar März Mai Juni Juli Oktober Dezember de enero febrero marzo abril mayo junio \
    julio agosto septiembre octubre noviembre diciembre";

fn may_break(text: &str, position: usize) -> bool {
    let (before, after) = text.split_at(position);
    if before.ends_with('-') || before.ends_with('\u{2010}') {
        return false;
    }
    // "g/l" stays whole; a long word or an address may part at its strokes.
    if before.ends_with('/') {
        let from = before.rfind([' ', '\n']).map_or(0, |at| at + 1);
        let to = after.find([' ', '\n']).unwrap_or(after.len());
        return before.len() - from + to > 12;
    }
    let number = before.strip_suffix(' ').is_some_and(|rest| {
        // "4. März", "4 de marzo"
        let rest = rest.strip_suffix(" de").or(rest.strip_suffix('.')).unwrap_or(rest);
        rest.ends_with(|c: char| c.is_ascii_digit())
    });
    if number {
        let word = after.split([' ', '\n']).next().unwrap_or_default();
        let unit = word.trim_end_matches(['.', ',', ';', ':', ')']);
        return !KEPT.split_whitespace().any(|kept| kept == unit);
    }
    // 6.5 × 25 stays together as well.
    !(before.ends_with("× ") && after.starts_with(|c: char| c.is_ascii_digit()))
}
