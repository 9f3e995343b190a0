//! Cutting a scan into elements, as scanned and as printed. Judges nothing.

use super::identifiers::{self, Identifier};

/// A piece of the scan: the code, what is known of it, and the value, all borrowed.
#[derive(Debug, Clone, Copy)]
pub(super) struct Piece<'a> {
    /// Empty where no identifier was recognised.
    pub code: &'a str,
    pub identifier: Option<&'static Identifier>,
    pub value: &'a str,
}

/// Finds what stands between two elements: ASCII 29, its visible picture, or what the scanner sends.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Separators<'o> {
    extra: &'o [String],
}

impl<'o> Separators<'o> {
    pub(crate) fn new(extra: &'o [String]) -> Self {
        Self { extra }
    }

    /// Returns the part before the first separator and, if there is one, the part behind it.
    pub(crate) fn cut<'a>(&self, text: &'a str) -> (&'a str, Option<&'a str>) {
        let mut best = text.find('\u{1d}').map(|at| (at, 1));
        if !text.is_ascii()
            && let Some(at) = text.find('\u{241d}')
            && best.is_none_or(|(first, _)| at < first)
        {
            best = Some((at, '\u{241d}'.len_utf8()));
        }
        for extra in self.extra.iter().filter(|extra| !extra.is_empty()) {
            if let Some(at) = text.find(extra.as_str())
                && best.is_none_or(|(first, length)| at < first || at == first && extra.len() > length)
            {
                best = Some((at, extra.len()));
            }
        }
        match best {
            Some((at, length)) => (&text[..at], Some(&text[at + length..])),
            None => (text, None),
        }
    }

    /// Drops separators at the front.
    pub(crate) fn skip<'a>(&self, mut text: &'a str) -> &'a str {
        while let ("", Some(rest)) = self.cut(text) {
            text = rest;
        }
        text
    }

    pub(crate) fn are_in(&self, text: &str) -> bool {
        self.cut(text).1.is_some()
    }
}

/// Cuts after so many characters.
fn characters(text: &str, count: usize) -> (&str, &str) {
    let at = text.char_indices().nth(count).map_or(text.len(), |(at, _)| at);
    text.split_at(at)
}

/// Cuts an element string.
pub(super) fn scanned<'a>(text: &'a str, separators: &Separators<'_>) -> Vec<Piece<'a>> {
    let mut pieces = Vec::with_capacity(6);
    let mut text = separators.skip(text);
    while !text.is_empty() {
        let (whole, _) = separators.cut(text);
        let (code, identifier) = match identifiers::find(whole) {
            Some((identifier, length)) => (&whole[..length], Some(identifier)),
            None => ("", None),
        };
        let mut value = &whole[code.len()..];
        if let Some(known) = identifier.filter(|known| known.predefined) {
            value = characters(value, usize::from(known.most)).0;
        }
        pieces.push(Piece { code, identifier, value });
        text = separators.skip(&text[code.len() + value.len()..]);
    }
    pieces
}

/// Reads `(…)` at the front: nothing or two to four digits; returns what stands inside.
fn bracket(text: &str) -> Option<&str> {
    let inside = text.strip_prefix('(')?;
    let end = inside.bytes().take(5).position(|byte| byte == b')')?;
    let inside = &inside[..end];
    (inside.is_empty() || inside.len() >= 2 && inside.bytes().all(|byte| byte.is_ascii_digit())).then_some(inside)
}

/// Tells whether a text begins like an element of the printed form, known or not.
pub(super) fn begins_element(text: &str) -> bool {
    bracket(text).is_some()
}

/// Tells whether a text opens the printed form: brackets around an identifier.
pub(super) fn begins_printed(text: &str) -> bool {
    bracket(text).is_some_and(|code| !code.is_empty())
}

/// Tells whether a code is one that the printed form splits at even in the middle of a line.
pub(super) fn looks_like_element(code: &str) -> bool {
    identifiers::exactly(code).is_some()
}

/// Cuts the printed form.
///
/// A bracket may also be data: inside a value only a known identifier in brackets begins the next
/// element, and if the text holds separators not even that, because then they do. Blanks beside the
/// brackets are how people write it, not data: no element of the standard holds a blank.
pub(super) fn printed<'a>(text: &'a str, separators: &Separators<'_>) -> Vec<Piece<'a>> {
    let separated = separators.are_in(text);
    let mut pieces = Vec::with_capacity(6);
    let mut text = separators.skip(text);
    while !text.is_empty() {
        let (whole, _) = separators.cut(text);
        let code = bracket(whole).unwrap_or("");
        let head = if begins_element(whole) { code.len() + 2 } else { 0 };
        let blanks =
            if separated || head == 0 { 0 } else { whole[head..].len() - whole[head..].trim_start_matches(' ').len() };
        let head = head + blanks;
        let identifier = identifiers::exactly(code);
        let value = printed_value(&whole[head..], identifier, separated);
        let rest = separators.skip(&text[head + value.len()..]);
        let value = if separated { value } else { value.trim_end_matches(' ') };
        pieces.push(Piece { code, identifier, value });
        let close = rest.trim_start_matches(' ');
        text = if !separated && (close.is_empty() || begins_element(close)) { close } else { rest };
    }
    pieces
}

fn printed_value<'a>(rest: &'a str, identifier: Option<&'static Identifier>, separated: bool) -> &'a str {
    if let Some(known) = identifier.filter(|known| known.predefined) {
        let (value, behind) = characters(rest, usize::from(known.most));
        let cut_short = !separated && next_known(value).is_some();
        let close = if separated { behind } else { behind.trim_start_matches(' ') };
        if !cut_short && (close.is_empty() || begins_element(close)) {
            return value;
        }
    }
    match next_known(rest).filter(|_| !separated) {
        Some(at) => &rest[..at],
        None => rest,
    }
}

/// Finds the next known identifier in brackets.
fn next_known(text: &str) -> Option<usize> {
    text.match_indices('(').map(|(at, _)| at).find(|&at| bracket(&text[at..]).is_some_and(looks_like_element))
}
