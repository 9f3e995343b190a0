//! Makes typed text harmless inside Markdown: it prints as typed and can never become structure.
//!
//! Tera calls this for every value that a template prints. Signs that only matter at the start of a
//! line are escaped at the start of the value alone, so that ordinary text stays readable.

use std::io::{self, Write};

/// Writes `text` so that a Markdown reader gives back exactly `text`.
///
/// A line break becomes the entity `&#10;` (block structure is decided before entities are read);
/// other control characters become U+FFFD.
pub fn escape(text: &str, out: &mut dyn Write) -> io::Result<()> {
    let mut start = true;
    let mut buffer = [0u8; 4];
    let digits = text.bytes().take_while(u8::is_ascii_digit).count();
    for (at, c) in text.char_indices() {
        match c {
            '\r' if text[at..].starts_with("\r\n") => continue,
            '\n' | '\r' | '\u{2028}' | '\u{2029}' => out.write_all(b"&#10;")?,
            '\t' | ' ' if start => out.write_all(b"&#32;")?,
            '\t' => out.write_all(b" ")?,
            // The separator inside a label scan, as the trade writes it.
            '\u{1d}' => out.write_all(b"\\<GS\\>")?,
            c if c.is_control() => out.write_all("\u{fffd}".as_bytes())?,
            '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '|' | '&' | '~' | '$' => {
                out.write_all(&[b'\\', c as u8])?;
            }
            '#' | '+' | '-' | '=' | ':' | '!' | '@' if start => out.write_all(&[b'\\', c as u8])?,
            // At the end too: the template's own `[words](…)` after it would become a picture.
            '!' if at + 1 == text.len() => out.write_all(b"\\!")?,
            '.' | ')' if digits > 0 && at == digits && ends_list_mark(text, at) => out.write_all(&[b'\\', c as u8])?,
            c => out.write_all(c.encode_utf8(&mut buffer).as_bytes())?,
        }
        start = false;
    }
    Ok(())
}

/// Tells whether the sign at `at` would end a list mark: only a blank or the end of the value follows.
fn ends_list_mark(text: &str, at: usize) -> bool {
    text[at + 1..].chars().next().is_none_or(char::is_whitespace)
}

/// Guards the first line of a paragraph that a template begins with a number, which Markdown would
/// otherwise read as a list.
pub fn guard_start(paragraph: &str) -> String {
    let digits = paragraph.bytes().take_while(u8::is_ascii_digit).count();
    match paragraph.as_bytes().get(digits) {
        Some(b'.' | b')') if digits > 0 => format!("{}\\{}", &paragraph[..digits], &paragraph[digits..]),
        _ => paragraph.to_owned(),
    }
}

/// Escapes a text that stands in Markdown outside of a template.
pub fn escaped(text: &str) -> String {
    let mut out = Vec::with_capacity(text.len());
    // Writing into memory does not fail, and the escape writes whole characters.
    match escape(text, &mut out) {
        Ok(()) => String::from_utf8_lossy(&out).into_owned(),
        Err(_) => String::new(),
    }
}
