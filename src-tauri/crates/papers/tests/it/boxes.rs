//! What every page must satisfy, told from the boxes of its words as an outside reader gives them.

use evengap_papers::blocks::{Block, Inline, words_of};
use evengap_papers::document::{Document, Page};
use evengap_papers::pdf::Pdf;

use crate::read::{Word, pages, words};

/// Narrowest margin at each side and above and below, in points.
fn margins(page: Page) -> (f32, f32) {
    match page {
        Page::A4 | Page::Letter => (64.0, 25.0),
        Page::Wallet => (16.0, 8.0),
    }
}

/// Checks margins, overlaps, identity, page numbers and that every word of the blocks is there, in order.
pub fn check(document: &Document, pdf: &Pdf, what: &str) {
    let words = words(&pdf.bytes);
    within_margins(&words, document.page, what);
    apart(&words, what);
    identified(document, pdf, what);
    whole(document, &words, what);
    headings_lead(document, &words, what);
}

pub fn within_margins(words: &[Word], page: Page, what: &str) {
    let (width, height) = page.size_pt();
    let (side, end) = margins(page);
    for word in words {
        let inside =
            word.x_min >= side && word.x_max <= width - side && word.y_min >= end && word.y_max <= height - end;
        assert!(inside, "{what}: {word:?} leaves the margins");
    }
}

pub fn apart(words: &[Word], what: &str) {
    for (n, a) in words.iter().enumerate() {
        for b in words[n + 1..].iter().take_while(|b| b.page == a.page) {
            let across = a.x_max.min(b.x_max) - a.x_min.max(b.x_min);
            let down = a.y_max.min(b.y_max) - a.y_min.max(b.y_min);
            // A reader's boxes are as tall as the font's tallest letters, which few words have.
            let small = (a.y_max - a.y_min).min(b.y_max - b.y_min);
            assert!(across <= 0.5 || down <= small * 0.25, "{what}: {a:?} lies on {b:?}");
        }
    }
}

fn identified(document: &Document, pdf: &Pdf, what: &str) {
    let texts = pages(&pdf.bytes, &["-raw"]);
    assert_eq!(texts.len(), pdf.pages, "{what}: the count given is the count in the file");
    for (n, text) in texts.iter().enumerate() {
        let text = squeezed(text);
        let number = document.words.page(n + 1, texts.len());
        let marks =
            [Some(number), document.mark.clone(), document.demonstration.then(|| document.words.demonstration.clone())];
        let facts = document.head.iter().map(|fact| fact.value.clone());
        for wanted in facts.chain(marks.into_iter().flatten()).chain([document.foot.clone()]) {
            // What would fill the page is cut short in the head, and said in full in the text.
            let wanted: String = squeezed(&wanted).chars().take(30).collect();
            assert!(text.contains(&wanted), "{what}: page {} of {} lacks {wanted:?}", n + 1, texts.len());
        }
    }
}

/// Looks for every word of the document one after the other; a table's header, which may be said
/// again, and what stands around the text may come between.
fn whole(document: &Document, words: &[Word], what: &str) {
    let all: String = words.iter().map(|word| word.text.as_str()).collect();
    for header in headers(&document.blocks) {
        // A long word may be broken at a line's end.
        let found = words.iter().any(|word| word.text == header) || (header.len() > 6 && all.contains(&header));
        assert!(found, "{what}: the header {header:?} is missing");
    }
    let mut found = words.iter().map(|word| word.text.as_str());
    let mut rest = String::new();
    for wanted in expected(&document.blocks) {
        let wanted = wanted.as_str();
        // A long word broken at a line's end comes in parts; a letter of the foot is no part of one.
        let long = wanted.chars().count() > 6;
        let mut left = wanted;
        loop {
            if rest.is_empty() {
                let Some(next) = found.next() else { panic!("{what}: {wanted:?} is missing or out of order") };
                rest = next.to_owned();
            }
            let part = long && rest.chars().nth(1).is_some();
            if rest == left || (part && left.starts_with(rest.as_str())) {
                left = &left[rest.len()..];
                rest.clear();
            } else if let Some(after) = rest.strip_prefix(left) {
                rest = after.to_owned();
                left = "";
            } else {
                rest.clear();
            }
            if left.is_empty() {
                break;
            }
        }
    }
}

fn expected(blocks: &[Block]) -> Vec<String> {
    let mut out = Vec::new();
    for block in blocks {
        match block {
            Block::Heading { inlines, .. } | Block::Paragraph(inlines) => put(&mut out, inlines),
            Block::List { items, .. } => items.iter().for_each(|item| out.extend(expected(item))),
            Block::Boxed(inner) => out.extend(expected(inner)),
            Block::Table(table) => {
                for row in &table.rows {
                    row.iter().for_each(|cell| put(&mut out, cell));
                }
            }
            Block::Drawing(_) | Block::Rule => {}
        }
    }
    out
}

/// Looks at what stands last above each page's foot; only a paper's own end may be a heading.
fn headings_lead(document: &Document, words: &[Word], what: &str) {
    let foot = squeezed(if document.demonstration { &document.words.demonstration } else { &document.foot });
    let mut headings = Vec::new();
    heading_words(&document.blocks, &mut headings);
    let last_page = words.last().map_or(0, |word| word.page);
    for page in 1..last_page {
        let on_page: Vec<&Word> = words.iter().filter(|word| word.page == page).collect();
        let Some(at) = on_page.iter().rposition(|word| !foot.is_empty() && foot.starts_with(&word.text)) else {
            continue;
        };
        let Some(last) = on_page[..at].last() else { continue };
        let line: String =
            on_page[..at].iter().filter(|w| (w.y_min - last.y_min).abs() < 2.0).map(|w| w.text.as_str()).collect();
        assert!(!headings.contains(&line), "{what}: the heading {line:?} is the last line of page {page}");
    }
}

fn heading_words(blocks: &[Block], out: &mut Vec<String>) {
    for block in blocks {
        match block {
            Block::Heading { inlines, .. } => out.push(squeezed(&words_of(inlines))),
            Block::List { items, .. } => items.iter().for_each(|item| heading_words(item, out)),
            Block::Boxed(inner) => heading_words(inner, out),
            _ => {}
        }
    }
}

/// Gathers the words of all header cells.
fn headers(blocks: &[Block]) -> Vec<String> {
    let mut out = Vec::new();
    for block in blocks {
        match block {
            Block::Table(table) => table.header.iter().for_each(|cell| put(&mut out, cell)),
            Block::List { items, .. } => items.iter().for_each(|item| out.extend(headers(item))),
            Block::Boxed(inner) => out.extend(headers(inner)),
            _ => {}
        }
    }
    // What is broken into lines is not one word in the file.
    out.retain(|word| word.len() < 20);
    out
}

fn put(out: &mut Vec<String>, inlines: &[Inline]) {
    if !matches!(inlines, [Inline::Drawing(_)]) {
        out.extend(words_of(inlines).split_whitespace().map(str::to_owned));
    }
}

pub fn squeezed(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace()).collect()
}
