//! Signs of a template that stayed signs when its Markdown was read: rows that are no table, stars that
//! make nothing strong. Typed signs are escaped in the Markdown, so they are told apart by what stands there.

use pulldown_cmark::{Event, Options, Parser, Tag, TagEnd};
use serde_json::Value;

use super::flaw::Found;
use super::shape::{Shape, VIEW};

/// How many bytes before a sign are compared with the template to find its place.
const BEFORE: usize = 40;

/// Finds the first sign that was meant to shape the paper and stayed a sign, at its likely place in the template.
pub(super) fn left_over(markdown: &str, source: &str) -> Option<Found> {
    let mut in_code = false;
    for (event, range) in Parser::new_ext(markdown, Options::ENABLE_TABLES).into_offset_iter() {
        match event {
            Event::Start(Tag::CodeBlock(_) | Tag::HtmlBlock) => in_code = true,
            Event::End(TagEnd::CodeBlock | TagEnd::HtmlBlock) => in_code = false,
            Event::Start(Tag::Paragraph) => {
                let rows = markdown[range].lines().map(|line| line.trim_matches([' ', '\t', '>']));
                let mut rows = rows.filter(|line| line.len() > 1 && line.starts_with('|'));
                if let Some(row) = rows.find(|line| line.ends_with('|') && !line.ends_with("\\|")) {
                    let found = Found::new(row_in(source, row), "This row of a table became a line of text.");
                    return Some(found.hint(
                        "Begin the table with | a | b | and |---|---|, and stand {% filter lines %} around all its rows.",
                    ));
                }
            }
            Event::Text(_) if !in_code => {
                let Some(at) = bare_stars(markdown, range) else { continue };
                let place = stars_in(source, markdown, at);
                if markdown[at..].starts_with("****") {
                    let found = Found::new(place, "Nothing stands between the stars here, so they print as stars.");
                    return Some(found.hint("Ask first: {% if name %}**{{ name }}**{% endif %}."));
                }
                let found = Found::new(place, "The stars ** print as stars here.");
                return Some(
                    found.hint(
                        "Write **words** with no blank inside the stars, and a blank or a comma outside of them.",
                    ),
                );
            }
            _ => {}
        }
    }
    None
}

/// Two stars in a row that nobody typed: typed ones have a backslash each.
fn bare_stars(markdown: &str, range: std::ops::Range<usize>) -> Option<usize> {
    let bytes = markdown.as_bytes();
    let is_bare = |at: usize| bytes.get(at..at + 2) == Some(b"**") && (at == 0 || bytes[at - 1] != b'\\');
    range.into_iter().find(|at| is_bare(*at))
}

/// Finds the row in the template: as it stands there, up to its first tag, or by its label.
fn row_in(source: &str, row: &str) -> usize {
    let up_to_tag = row
        .char_indices()
        .skip(1)
        .map_while(|(at, _)| source.contains(&row[..at]).then(|| source.find(&format!("{}{{", &row[..at]))));
    let label = row.split('|').nth(1).map(|cell| format!("row(label=\"{}\"", cell.trim()));
    source
        .find(row)
        .or_else(|| up_to_tag.flatten().last())
        .or_else(|| source.find(&label?))
        .or_else(|| source.find('|'))
        .unwrap_or(0)
}

/// Finds stars in the template by what stands before them.
fn stars_in(source: &str, markdown: &str, at: usize) -> usize {
    let mut place = source.find("**").unwrap_or(0);
    for (start, _) in markdown[..at].char_indices().rev().take(BEFORE) {
        match source.find(&markdown[start..at + 2]) {
            Some(found) => place = found + (at - start),
            None => break,
        }
    }
    place
}

/// Puts every text of a view in brackets: beside marks, stars need more room than beside letters.
pub(super) fn in_brackets(view: &mut Value) {
    bracket(&VIEW, view);
}

fn bracket(shape: &Shape, value: &mut Value) {
    match (shape, value) {
        (Shape::Text, Value::String(text)) => *text = format!("({text})"),
        (Shape::List(of), Value::Array(items)) => items.iter_mut().for_each(|item| bracket(of, item)),
        (Shape::Record(parts), Value::Object(map)) => {
            for part in parts {
                if let Some(value) = map.get_mut(&part.name) {
                    bracket(&part.shape, value);
                }
            }
        }
        _ => {}
    }
}
