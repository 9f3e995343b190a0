//! What a note says above its signature: usual answers that were filled in, and the findings that the entry was
//! signed in spite of, each with its reason.
//!
//! Like the signature itself it never passes through a template, so that none can leave it out.

use serde_json::Value;

use crate::notices::{text, texts};
use crate::template::with_stop;
use crate::words::Words;

/// Writes the section of the findings; nothing where there are none. An entry that nobody has signed yet says so.
pub(crate) fn findings(view: &Value, words: &Words) -> Option<String> {
    let said = &words.in_spite;
    let rows = view.pointer("/derived/signed_in_spite_of").and_then(Value::as_array)?;
    if rows.is_empty() {
        return None;
    }
    let is_signed = text(view, "/paper/signed_by").is_some();
    let heading = if is_signed { &said.heading } else { &said.heading_of_draft };
    let items: Vec<_> = rows.iter().map(|row| item(row, words)).collect();
    Some(format!("## {heading}\n\n{}", items.join("\n")))
}

fn item(row: &Value, words: &Words) -> String {
    let said = &words.in_spite;
    let of = |name: &str| text(row, &format!("/{name}")).unwrap_or_else(|| words.not_recorded.clone());
    let about = texts(row, "/about").join("; ");
    let values = [
        ("finding", of("finding")),
        ("reason", with_stop(of("reason"))),
        ("by", of("by")),
        ("on", of("on")),
        ("at", of("at")),
        ("about", if about.is_empty() { words.not_recorded.clone() } else { about }),
        ("rule", of("rule")),
    ];
    let values: Vec<_> = values.iter().map(|(name, value)| (*name, value.as_str())).collect();
    format!("- {}", said.item.fill(&values))
}

/// Says into which sections usual answers were filled, and whether somebody confirmed them.
pub(crate) fn filled(view: &Value, words: &Words) -> Option<String> {
    let said = &words.in_spite;
    let sentences = [("filled_confirmed", &said.filled), ("filled_unconfirmed", &said.filled_unconfirmed)];
    let sentences = sentences.into_iter().filter_map(|(name, pattern)| {
        let sections = texts(view, &format!("/derived/{name}"));
        (!sections.is_empty()).then(|| pattern.fill(&[("sections", &sections.join(", "))]))
    });
    Some(sentences.collect::<Vec<_>>().join(" ")).filter(|sentences| !sentences.is_empty())
}

/// Writes the first 16 hexadecimal digits of a fingerprint in groups of four, as the note prints them; nothing where it
/// holds none.
pub fn grouped_fingerprint(fingerprint: &str) -> Option<String> {
    let signs: Vec<char> = fingerprint.chars().filter(char::is_ascii_hexdigit).take(16).collect();
    let groups: Vec<String> = signs.chunks(4).map(|group| group.iter().collect()).collect();
    Some(groups.join(" ")).filter(|groups| !groups.is_empty())
}
