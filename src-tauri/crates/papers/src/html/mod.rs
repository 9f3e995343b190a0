//! Blocks to HTML: one self-contained page, or the fragment that a preview shows.
//!
//! No scripts, no links, nothing fetched. Everything that comes from a person passes `escape`.

mod body;

use crate::document::{Document, Page};

const STYLE: &str = include_str!("style.css");

/// Writes a whole HTML page.
pub fn write(document: &Document) -> String {
    let (sheet, margin, letters) = match document.page {
        Page::A4 => ("A4", "13mm 20mm 15mm", "10pt"),
        Page::Letter => ("letter", "13mm 20mm 15mm", "10pt"),
        Page::Wallet => ("105mm 74mm", "4mm 6mm 7mm", "7.5pt"),
    };
    let number = page_number(&document.words.page_of);
    format!(
        "<!DOCTYPE html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <meta name=\"author\" content=\"{}\">\n<meta name=\"description\" content=\"{}\">\n\
         <title>{}</title>\n<style>\n{STYLE}\
         @page {{ size: {sheet}; margin: {margin}; @bottom-right {{ content: {number}; font-size: 6.5pt; }} }}\n\
         @media print {{ :root {{ font-size: {letters}; }} }}\n</style>\n</head>\n<body>\n{}</body>\n</html>\n",
        escape(&document.language),
        escape(&document.author),
        escape(&document.subject),
        escape(&document.title),
        fragment(document)
    )
}

/// Writes the body only: one `article` with identity, content and foot, without styles.
pub fn fragment(document: &Document) -> String {
    let mut out = format!("<article class=\"paper\" lang=\"{}\">\n", escape(&document.language));
    if let Some(mark) = &document.mark {
        out.push_str(&format!("<div class=\"mark\" aria-hidden=\"true\">{}</div>\n", escape(mark)));
    }
    out.push_str("<header class=\"identity\">\n");
    for (n, fact) in document.head.iter().enumerate() {
        let class = if n == 0 { "fact name" } else { "fact" };
        out.push_str(&format!("<span class=\"{class}\">"));
        if !fact.label.is_empty() {
            out.push_str(&format!("<small>{}</small> ", escape(&fact.label)));
        }
        out.push_str(&format!("<b>{}</b></span>\n", escape(&fact.value)));
    }
    if let Some(mark) = &document.mark {
        out.push_str(&format!("<strong class=\"state\">{}</strong>\n", escape(mark)));
    }
    if document.demonstration {
        out.push_str(&format!("<strong class=\"state\">{}</strong>\n", escape(&document.words.demonstration)));
    }
    out.push_str("</header>\n<main>\n");
    body::blocks(&mut out, &document.blocks);
    out.push_str(&format!("</main>\n<footer>{}</footer>\n</article>\n", escape(&document.foot)));
    out
}

/// Turns the words around a page's number into a value of the style language, whose strings end at a
/// quotation mark and whose element ends at `<`; the engine that prints puts the numbers in.
fn page_number(page_of: &str) -> String {
    let safe: String = page_of.chars().filter(|c| !matches!(c, '"' | '\\' | '<') && !c.is_control()).collect();
    format!("\"{safe}\"").replace("{pages}", "\" counter(pages) \"").replace("{page}", "\" counter(page) \"")
}

/// Makes text safe between tags and inside quoted attributes.
pub(crate) fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            // Not allowed in HTML at all; shown rather than dropped.
            '\0'..='\u{8}' | '\u{b}' | '\u{c}' | '\u{e}'..='\u{1f}' | '\u{7f}' => {
                out.push('\u{fffd}');
            }
            c => out.push(c),
        }
    }
    out
}
