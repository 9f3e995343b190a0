//! Splits a template into text, tags and the words inside tags, with places.
//!
//! It follows the template library's own lexer sign by sign, so that what is checked is what runs.
//! What it does not know it refuses; nothing that it refuses is ever handed to the library.

use std::borrow::Cow;
use std::ops::Range;

use super::flaw::{Found, MOST};

/// One piece of a template.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Token<'s> {
    pub is: Is<'s>,
    /// Bytes of the source.
    pub at: Range<usize>,
}

/// What a piece is.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Is<'s> {
    /// Markdown outside of tags.
    Text(&'s str),
    /// `{{`
    PrintStart,
    /// `{%`
    TagStart,
    /// `}}` or `%}`; true where it takes the blanks after it away.
    End(bool),
    /// A name or a word such as `if`.
    Name(&'s str),
    /// Words in quotation marks.
    Words(Cow<'s, str>),
    /// A whole number.
    Whole(&'s str),
    /// A sign such as `|` or `==`.
    Sign(&'s str),
}

/// Signs of two characters; all others have one.
const LONG_SIGNS: [&str; 9] = ["//", "**", "==", "!=", ">=", "<=", "</", "?.", "?["];
const SHORT_SIGNS: &[u8] = b"+-*/%!.,:~|=><()[]{}@";

fn starts_tag(rest: &str) -> bool {
    matches!(rest.as_bytes(), [b'{', b'{' | b'%' | b'#', ..])
}

/// Splits a source into tokens; what cannot be read is found and left out.
pub(super) fn read(source: &str) -> (Vec<Token<'_>>, Vec<Found>) {
    let mut reader = Reader { source, at: 0, tokens: Vec::new(), found: Vec::new() };
    reader.text();
    (reader.tokens, reader.found)
}

struct Reader<'s> {
    source: &'s str,
    at: usize,
    tokens: Vec<Token<'s>>,
    found: Vec<Found>,
}

impl<'s> Reader<'s> {
    fn rest(&self) -> &'s str {
        self.source.get(self.at..).unwrap_or_default()
    }

    fn push(&mut self, is: Is<'s>, bytes: usize) {
        self.tokens.push(Token { is, at: self.at..self.at + bytes });
        self.at += bytes;
    }

    fn text(&mut self) {
        while self.at < self.source.len() && self.found.len() < MOST {
            let rest = self.rest();
            match rest.match_indices('{').map(|(at, _)| at).find(|at| starts_tag(&rest[*at..])) {
                Some(0) => self.tag(),
                Some(bytes) => self.push(Is::Text(&rest[..bytes]), bytes),
                None => self.push(Is::Text(rest), rest.len()),
            }
        }
    }

    fn tag(&mut self) {
        let (rest, start) = (self.rest(), self.at);
        let bytes = if rest.as_bytes().get(2) == Some(&b'-') { 3 } else { 2 };
        if rest.starts_with("{#") {
            match rest[bytes..].find("#}") {
                Some(end) => self.at += bytes + end + 2,
                None => {
                    self.found.push(Found::new(start, "This comment is never closed.").hint("Close it with #}."));
                    self.at = self.source.len();
                }
            }
            return;
        }
        let prints = rest.starts_with("{{");
        self.push(if prints { Is::PrintStart } else { Is::TagStart }, bytes);
        self.inside(start, prints);
    }

    /// Reads up to the end of a tag.
    fn inside(&mut self, start: usize, prints: bool) {
        let (open, close) = if prints { ("{{", "}}") } else { ("{%", "%}") };
        let before = self.tokens.len() - 1;
        loop {
            let blank = self.rest().bytes().take_while(u8::is_ascii_whitespace).count();
            self.at += blank;
            let rest = self.rest();
            if rest.is_empty() || starts_tag(rest) {
                // A tag that begins inside another: the first was not closed. The second is read anew.
                self.found.push(
                    Found::new(start, format!("This {open} is never closed.")).hint(format!("Close it with {close}.")),
                );
                self.tokens.truncate(before);
                return;
            }
            if rest.strip_prefix('-').is_some_and(|rest| rest.starts_with(close)) {
                return self.push(Is::End(true), 3);
            }
            if rest.starts_with(close) {
                return self.push(Is::End(false), 2);
            }
            if let Err(found) = self.word(rest) {
                self.found.push(found);
                self.tokens.truncate(before);
                // Read on after this tag.
                self.at += rest.find(close).map_or(rest.len(), |end| end + 2);
                return;
            }
        }
    }

    fn word(&mut self, rest: &'s str) -> Result<(), Found> {
        let first = rest.as_bytes().first().copied().unwrap_or_default();
        if let Some(sign) = LONG_SIGNS.into_iter().find(|sign| rest.starts_with(sign)) {
            self.push(Is::Sign(sign), 2);
        } else if SHORT_SIGNS.contains(&first) {
            self.push(Is::Sign(&rest[..1]), 1);
        } else if matches!(first, b'"' | b'\'' | b'`') {
            return self.words(rest, first);
        } else if first.is_ascii_digit() {
            let digits = rest.bytes().take_while(u8::is_ascii_digit).count();
            self.push(Is::Whole(&rest[..digits]), digits);
        } else if first.is_ascii_alphabetic() || first == b'_' {
            let letters = rest.bytes().take_while(|b| b.is_ascii_alphanumeric() || *b == b'_').count();
            self.push(Is::Name(&rest[..letters]), letters);
        } else {
            let sign = rest.chars().next().unwrap_or_default();
            let found = Found::new(self.at, format!("The sign {} has no meaning inside a tag.", shown(sign)));
            return Err(if "“”„«»‘’‚".contains(sign) {
                found.hint("Write straight quotation marks: \"words\".")
            } else {
                found.hint("Names are written with a to z, digits and _.")
            });
        }
        Ok(())
    }

    fn words(&mut self, rest: &'s str, quote: u8) -> Result<(), Found> {
        let mut escaped = false;
        let inside = rest.bytes().skip(1).position(|b| {
            let ends = !escaped && b == quote;
            escaped = !escaped && b == b'\\';
            ends
        });
        let Some(inside) = inside else {
            let quote = char::from(quote);
            return Err(Found::new(self.at, format!("The words that begin with {quote} here have no end."))
                .hint(format!("Close them with {quote}.")));
        };
        let raw = &rest[1..=inside];
        let words = if raw.contains('\\') { Cow::Owned(unescaped(raw, self.at)?) } else { Cow::Borrowed(raw) };
        self.push(Is::Words(words), inside + 2);
        Ok(())
    }
}

fn unescaped(raw: &str, at: usize) -> Result<String, Found> {
    let mut words = String::with_capacity(raw.len());
    let mut signs = raw.chars();
    while let Some(sign) = signs.next() {
        words.push(match sign {
            '\\' => match signs.next() {
                Some(sign @ ('"' | '\'' | '/' | '\\')) => sign,
                Some('n') => '\n',
                Some('t') => '\t',
                Some('r') => '\r',
                _ => {
                    return Err(Found::new(at, "A backslash in these words stands before a sign that needs none.")
                        .hint("Write \\\\ for a backslash."));
                }
            },
            sign => sign,
        });
    }
    Ok(words)
}

/// Shows a sign so that it can be told from others, even where it cannot be seen.
pub(super) fn shown(sign: char) -> String {
    if sign.is_control() || sign.is_whitespace() { format!("U+{:04X}", sign as u32) } else { sign.to_string() }
}
