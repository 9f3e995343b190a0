//! One block after the other as HTML elements.

use super::escape;
use crate::blocks::{Align, Block, Inline, Table, words_of};
use crate::drawing::{Drawing, svg};

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
            figure(out, drawing);
            out.push('\n');
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

/// Letters of the longest word that a cell keeps whole, where there is room.
const LONG: usize = 24;
/// Letters that stand side by side on a sheet; where columns ask for more, each has its share.
const WIDE: usize = 80;

fn table(out: &mut String, table: &Table) {
    let rows = || std::iter::once(&table.header).chain(&table.rows);
    let columns = (0..table.align.len()).map(|n| {
        let longest = rows().filter_map(|row| row.get(n)).map(|cell| longest_word(cell)).max().unwrap_or(0);
        longest.min(LONG) + 2
    });
    let whole = if columns.sum::<usize>() > WIDE { WIDE / table.align.len().max(1) } else { LONG };
    out.push_str("<table>\n");
    let class = |n: usize, cell: &[Inline]| {
        let side = match table.align.get(n) {
            Some(Align::Right) => "right",
            Some(Align::Centre) => "centre",
            _ => "",
        };
        match (side, longest_word(cell) > whole) {
            ("", false) => String::new(),
            ("", true) => " class=\"long\"".to_owned(),
            (side, false) => format!(" class=\"{side}\""),
            (side, true) => format!(" class=\"{side} long\""),
        }
    };
    if table.has_header() {
        out.push_str("<thead>\n<tr>");
        for (n, cell) in table.header.iter().enumerate() {
            out.push_str(&format!("<th scope=\"col\"{}>", class(n, cell)));
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
            out.push_str(&format!("<{open}{}>", class(n, cell)));
            inlines(out, cell);
            out.push_str(&format!("</{close}>"));
        }
        out.push_str("</tr>\n");
    }
    out.push_str("</tbody>\n</table>\n");
}

fn longest_word(cell: &[Inline]) -> usize {
    match cell {
        [Inline::Drawing(_)] => 0,
        words => words_of(words).split_whitespace().map(|word| word.chars().count()).max().unwrap_or(0),
    }
}

fn figure(out: &mut String, drawing: &Drawing) {
    out.push_str("<figure>");
    out.push_str(&svg(drawing));
    out.push_str("</figure>");
}

fn inlines(out: &mut String, inlines: &[Inline]) {
    for inline in inlines {
        match inline {
            Inline::Break => out.push_str("<br>"),
            Inline::Drawing(drawing) => figure(out, drawing),
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
