//! One block after the other as HTML elements.

use super::escape;
use crate::blocks::{Align, Block, Inline, Table};
use crate::drawing::svg;

/// Writes blocks as HTML elements.
pub(super) fn blocks(out: &mut String, blocks: &[Block]) {
    for block in blocks {
        write(out, block);
    }
}

fn write(out: &mut String, block: &Block) {
    match block {
        Block::Heading { level, inlines: words } => {
            let level = (*level).clamp(1, 6);
            out.push_str(&format!("<h{level}>"));
            inlines(out, words);
            out.push_str(&format!("</h{level}>\n"));
        }
        Block::Paragraph(words) => {
            out.push_str("<p>");
            inlines(out, words);
            out.push_str("</p>\n");
        }
        Block::List { ordered_from, items } => list(out, *ordered_from, items),
        Block::Table(content) => table(out, content),
        Block::Boxed(content) => {
            out.push_str("<aside class=\"boxed\">\n");
            blocks(out, content);
            out.push_str("</aside>\n");
        }
        Block::Drawing(drawing) => {
            out.push_str("<figure>");
            out.push_str(&svg(drawing));
            out.push_str("</figure>\n");
        }
        Block::Rule => out.push_str("<hr>\n"),
    }
}

fn list(out: &mut String, ordered_from: Option<u64>, items: &[Vec<Block>]) {
    match ordered_from {
        None => out.push_str("<ul>\n"),
        Some(1) => out.push_str("<ol>\n"),
        Some(first) => out.push_str(&format!("<ol start=\"{first}\">\n")),
    }
    for item in items {
        out.push_str("<li>");
        match item.as_slice() {
            // A tight item reads as one line, without a paragraph of its own.
            [Block::Paragraph(words), rest @ ..] => {
                inlines(out, words);
                blocks(out, rest);
            }
            all => blocks(out, all),
        }
        out.push_str("</li>\n");
    }
    out.push_str(if ordered_from.is_some() { "</ol>\n" } else { "</ul>\n" });
}

fn table(out: &mut String, table: &Table) {
    out.push_str("<table>\n");
    let class = |n: usize| match table.align.get(n) {
        Some(Align::Right) => " class=\"right\"",
        Some(Align::Centre) => " class=\"centre\"",
        _ => "",
    };
    if table.has_header() {
        out.push_str("<thead>\n<tr>");
        for (n, cell) in table.header.iter().enumerate() {
            out.push_str(&format!("<th scope=\"col\"{}>", class(n)));
            inlines(out, cell);
            out.push_str("</th>");
        }
        out.push_str("</tr>\n</thead>\n");
    }
    out.push_str("<tbody>\n");
    for row in &table.rows {
        out.push_str("<tr>");
        for (n, cell) in row.iter().enumerate() {
            // Without a header row the first column names what the others hold.
            let (open, close) = if n == 0 && !table.has_header() { ("th scope=\"row\"", "th") } else { ("td", "td") };
            out.push_str(&format!("<{open}{}>", class(n)));
            inlines(out, cell);
            out.push_str(&format!("</{close}>"));
        }
        out.push_str("</tr>\n");
    }
    out.push_str("</tbody>\n</table>\n");
}

fn inlines(out: &mut String, inlines: &[Inline]) {
    for inline in inlines {
        match inline {
            Inline::Break => out.push_str("<br>"),
            Inline::Text { text, strong, emphasis } => {
                if *strong {
                    out.push_str("<strong>");
                }
                if *emphasis {
                    out.push_str("<em>");
                }
                out.push_str(&escape(text));
                if *emphasis {
                    out.push_str("</em>");
                }
                if *strong {
                    out.push_str("</strong>");
                }
            }
        }
    }
}
