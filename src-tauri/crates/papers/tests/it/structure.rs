//! The logical structure: what a reader that follows it finds, against the blocks of the paper.
//!
//! `pdfinfo -struct-text` (poppler) reads the elements with their words; the file's own parts are
//! looked up in `tree`.

use evengap_papers::blocks::{Block, Inline, Inlines, Table, words_of};
use evengap_papers::document::{Document, Page};
use evengap_papers::fonts::Fonts;
use evengap_papers::pdf;

use crate::read::structure;
use crate::sample::{LONG_NOTE, document};

/// An element's name and its own words.
type Found = (String, String);

/// Lists what a paper's blocks should become, in reading order.
fn expected(document: &Document) -> Vec<Found> {
    let mut out = vec![("Document".to_owned(), String::new())];
    let mark = document.mark.as_deref().unwrap_or_default();
    let mut facts = document.head.iter();
    let name = facts.next().map(|fact| fact.value.clone()).unwrap_or_default();
    let rest: Vec<String> = facts.map(|fact| format!("{} {}", fact.label, fact.value).trim().to_owned()).collect();
    for words in [&document.title, &name, mark, &rest.join(" · ")] {
        if !words.is_empty() {
            push(&mut out, "P", words);
        }
    }
    let mut levels = Vec::new();
    blocks(&mut out, &document.blocks, &mut levels, 0);
    if document.demonstration {
        push(&mut out, "P", &document.words.demonstration);
    }
    push(&mut out, "P", &document.foot);
    out
}

fn blocks(out: &mut Vec<Found>, content: &[Block], levels: &mut Vec<u8>, depth: usize) {
    for block in content {
        match block {
            Block::Heading { level, inlines } => {
                levels.retain(|above| above < level);
                levels.push(*level);
                push(out, &format!("H{}", levels.len()), &words_of(inlines));
            }
            Block::Paragraph(inlines) => push(out, "P", &words_of(inlines)),
            Block::List { ordered_from, items } => {
                push(out, "L", "");
                for (n, item) in items.iter().enumerate() {
                    push(out, "LI", "");
                    let label = match ordered_from {
                        Some(first) => format!("{}.", first + n as u64),
                        None if depth > 0 => "–".to_owned(),
                        None => "•".to_owned(),
                    };
                    push(out, "Lbl", &label);
                    push(out, "LBody", "");
                    blocks(out, item, levels, depth + 1);
                }
            }
            Block::Table(content) => table(out, content),
            Block::Boxed(content) => {
                push(out, "Sect", "");
                blocks(out, content, levels, depth);
            }
            Block::Drawing(_) => push(out, "Figure", "…"),
            Block::Rule => {}
        }
    }
}

fn table(out: &mut Vec<Found>, content: &Table) {
    push(out, "Table", "");
    let cell = |out: &mut Vec<Found>, header: bool, words: &Inlines| {
        let spoken = words_of(words);
        let drawn = words.iter().any(|inline| matches!(inline, Inline::Drawing(_)));
        push(out, if header { "TH" } else { "TD" }, if drawn { "" } else { &spoken });
        if drawn {
            push(out, "Figure", "…");
        }
    };
    let headed = content.has_header();
    if headed {
        push(out, "THead", "");
        push(out, "TR", "");
        content.header.iter().for_each(|words| cell(out, true, words));
    }
    push(out, "TBody", "");
    for row in &content.rows {
        push(out, "TR", "");
        row.iter().enumerate().for_each(|(n, words)| cell(out, !headed && n == 0, words));
    }
}

fn push(out: &mut Vec<Found>, name: &str, words: &str) {
    out.push((name.to_owned(), words.split_whitespace().collect::<Vec<_>>().join(" ")));
}

/// Asserts that a reader finds the paper's blocks, all of them and in their order.
pub fn check(document: &Document) {
    let paper = pdf::write(document, &Fonts::built_in().unwrap()).unwrap();
    let mut found = structure(&paper.bytes);
    // The words inside a drawing are the drawing's own.
    found.iter_mut().filter(|(name, _)| name == "Figure").for_each(|(_, words)| "…".clone_into(words));
    let expected = expected(document);
    for (n, (found, expected)) in found.iter().zip(&expected).enumerate() {
        assert_eq!(found, expected, "element {n} of {}", document.title);
    }
    assert_eq!(found.len(), expected.len(), "nothing more and nothing less");
}

#[test]
fn a_reader_finds_every_block_in_its_order() {
    check(&document(LONG_NOTE));
    check(&Document { page: Page::Letter, ..document(LONG_NOTE) });
    check(&Document { page: Page::Wallet, ..document(LONG_NOTE) });
}

#[test]
fn nested_blocks_stay_nested() {
    check(&document(
        "> ## Box\n>\n> - one\n>\n>   more of one\n>   1. two\n>      - three\n>\n>      | a | b |\n>      |---|---|\n>      | c | d |\n>\n> > inner\n\nAfter.\n",
    ));
}

#[test]
fn a_table_without_a_header_is_named_by_its_first_column() {
    check(&document("| | |\n|---|---|\n| Side | left |\n| Surgeon | Ms Example |\n"));
}

#[test]
fn headings_leave_no_level_out() {
    check(&document("### One\n\n# Two\n\n#### Three\n\n## Four\n\n##### Five\n\n# Six\n"));
}

#[test]
fn what_goes_over_the_page_is_one_element() {
    let long = "word ".repeat(1500);
    let rows: String = (0..120).map(|n| format!("| {n} | Component {n} | LOT-{n:05} |\n")).collect();
    check(&document(&format!(
        "{long}\n\n| A | B |\n|---|---|\n| one | {long} |\n\n| N | What | Lot |\n|---|---|---|\n{rows}"
    )));
}

#[test]
fn words_at_the_end_of_a_line_are_two_words() {
    let words: Vec<String> = (0..400).map(|n| format!("word{n}")).collect();
    let paper = pdf::write(&document(&words.join(" ")), &Fonts::built_in().unwrap()).unwrap();
    let found = structure(&paper.bytes);
    let text = &found.iter().find(|(_, text)| text.starts_with("word0")).unwrap().1;
    assert_eq!(*text, words.join(" "), "no two words run together");
    check(&document("one\\\ntwo\\\n**three**\u{2028}four\n\n| a | b |\n|---|---|\n| c | d |\n"));
}
