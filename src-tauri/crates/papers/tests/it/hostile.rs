//! Papers that no designer thought of: every sheet stays within its margins, nothing lies on
//! anything, no word is lost, every page says whose it is.

use evengap_papers::blocks::{Align, Block, Inline, Table};
use evengap_papers::document::{Document, Fact, Page};
use evengap_papers::pdf::Pdf;

use crate::boxes;
use crate::layout::{numbered, set};
use crate::read::{pages, words};
use crate::sample::{LONG_NOTE, document};

const SHEETS: [Page; 3] = [Page::A4, Page::Letter, Page::Wallet];

/// Sets a paper on every sheet and checks each page.
fn check(what: &str, document: &Document) -> Vec<Pdf> {
    SHEETS
        .into_iter()
        .map(|page| {
            let document = Document { page, ..document.clone() };
            let pdf = set(&document);
            boxes::check(&document, &pdf, &format!("{what}, {page:?}"));
            pdf
        })
        .collect()
}

/// Makes a table of so many columns and rows; each cell says where it is. Blocks, as Markdown may not
/// ask for so many columns.
fn wide(columns: usize, rows: usize, header: bool) -> Document {
    let row = |cell: &dyn Fn(usize) -> String| (0..columns).map(|n| vec![Inline::plain(cell(n))]).collect();
    let table = Table {
        header: if header { row(&|n| format!("Column{n}")) } else { vec![Vec::new(); columns] },
        rows: (0..rows).map(|at| row(&|n| format!("r{at}c{n} REF-{at}{n}-0042"))).collect(),
        align: vec![Align::Left; columns],
    };
    let mut document = document("# Many\n\nAfter.");
    document.blocks.insert(1, Block::Table(table));
    document
}

#[test]
fn the_long_note_on_every_sheet() {
    check("long note", &document(LONG_NOTE));
}

#[test]
fn long_names() {
    let long = "Þórarna-Wilhelmina Maximiliana Ōtsuka-Łukasiewicz ".repeat(6);
    for count in [1, 2, 4] {
        let name = long.repeat(count);
        let name = name.trim();
        check(
            &format!("a name of {} letters", name.len()),
            &Document {
                title: format!("Operative note {name}"),
                author: name.to_owned(),
                foot: format!("Operative note 1.0 · written by {name} · 14 May 2026"),
                head: vec![
                    Fact::new("", name),
                    Fact::new("Born", "3 May 1950"),
                    Fact::new("Hospital number", "LH-".to_owned() + &"204417".repeat(4 * count)),
                    Fact::new("", "Left knee"),
                ],
                ..document(&format!("# Operative note\n\n{}", numbered(200).join(" ")))
            },
        );
    }
}

#[test]
fn a_name_without_a_space() {
    let name = "Wolfeschlegelsteinhausenbergerdorff".repeat(8);
    let head = vec![Fact::new("", name.clone()), Fact::new("Born", "3 May 1950"), Fact::new("Number", name)];
    check("an endless name", &Document { head, ..document(&numbered(300).join(" ")) });
}

#[test]
fn forty_components_in_a_wide_table() {
    for columns in [5, 7, 9] {
        check(&format!("40 components, {columns} columns"), &wide(columns, 40, true));
    }
}

#[test]
fn more_columns_than_a_page_can_show() {
    for columns in [12, 16, 31, 60] {
        for header in [true, false] {
            check(&format!("{columns} columns"), &wide(columns, 4, header));
        }
    }
    // Numbers are short: sixteen of them still stand side by side on a desk's sheet.
    let numbers = (0..3).fold(format!("|{}\n|{}\n", "n|".repeat(16), "--|".repeat(16)), |table, row| {
        format!("{table}|{}\n", (0..16).map(|n| format!("{}|", row * 16 + n)).collect::<String>())
    });
    let paper = &check("numbers", &document(&numbers))[0];
    let text = pages(&paper.bytes, &["-layout"]).concat();
    assert!(text.lines().any(|line| line.contains("16 ") && line.contains(" 31")), "one row is one line: {text}");
}

#[test]
fn a_table_of_header_cells_only_keeps_them() {
    check("header alone", &wide(40, 0, true));
    check("small header alone", &wide(3, 0, true));
}

#[test]
fn a_header_taller_than_a_page() {
    let header = numbered(1200).join(" ");
    check("tall header", &document(&format!("| Part | {header} |\n|--|--|\n| one | two |\n| three | four |\n")));
}

#[test]
fn a_finding_of_3000_words() {
    let text = numbered(3000).join(" ");
    for markdown in
        [text.clone(), format!("- {text}"), format!("> {text}"), format!("> - {text}"), format!("1. a\n   - {text}")]
    {
        check(&format!("3,000 words in {:.4}", markdown), &document(&markdown));
    }
}

#[test]
fn a_row_taller_than_a_page() {
    let text = numbered(1500).join(" ");
    check("tall row", &document(&format!("| Part | Words |\n|--|--|\n| one | {text} |\n| two | after |\n")));
    check("tall row in a box", &document(&format!("> | Part | Words |\n> |--|--|\n> | one | {text} |\n")));
}

#[test]
fn empty_parts() {
    for markdown in ["", "#\n\n##\n\n-\n-\n\n>\n\n| | |\n|--|--|\n| | |\n", "| |\n|--|\n", "# \n\n***\n\n1.\n2.\n"] {
        check(&format!("empty: {markdown:?}"), &document(markdown));
    }
    let nobody = Document { head: Vec::new(), foot: String::new(), title: String::new(), ..document("Words.") };
    check("no head", &nobody);
}

#[test]
fn one_endless_word() {
    let endless = "Ω".repeat(900) + &"unbroken".repeat(200);
    for form in
        ["X", "# X", "- X", "1. - X", "> X", "**X**", "| X | B |\n|--|--|\n| C | D |", "| A | B |\n|--|--|\n| X | D |"]
    {
        check(&format!("endless: {form:?}"), &document(&form.replace('X', &endless)));
    }
}

#[test]
fn lists_and_boxes_in_each_other() {
    let deep: String = (0..14).map(|n| format!("{}- item{n} words of it\n", " ".repeat(2 * n))).collect();
    check("deep list", &document(&deep));
    let deep: String = (0..14).map(|n| format!("{}1. item{n} words of it\n", " ".repeat(3 * n))).collect();
    check("deep numbers", &document(&deep));
    let boxes: String = (1..15).map(|n| format!("{} box{n}\n{}\n", "> ".repeat(n), "> ".repeat(n))).collect();
    check("boxes in boxes", &document(&boxes));
    check(
        "a table deep down",
        &document(&format!(
            "> > - - > | A | B | C |\n> > - - > |--|--|--|\n> > - - > | {} |",
            ["wordy", "b", "c"].join(" | ")
        )),
    );
    check("high numbers", &document("999999998. one\n1. two\n1. three\n"));
}

#[test]
fn boxes_over_page_breaks() {
    for lines in [20, 33, 47] {
        let long: Vec<String> = numbered(900).chunks(60).map(|words| format!("> {}\n>\n", words.join(" "))).collect();
        let filler = "Filling.\n\n".repeat(lines);
        let paper = &check("a box over pages", &document(&format!("{filler}{}\nAfter.", long.concat())))[0];
        assert!(paper.pages > 1, "the box must cross a page");
    }
}

#[test]
fn headings_and_lines_on_a_pocket_sheet() {
    for lines in 4..16 {
        let follows = "follows ".repeat(90);
        for next in [follows.as_str(), "| follows |\n|--|\n| one |\n| two |\n", "- follows\n- two\n", "> follows\n"] {
            let markdown = format!("{}## Standing\n\n{next}", "Filling.\n\n".repeat(lines));
            let paper = set(&Document { page: Page::Wallet, ..document(&markdown) });
            let texts = pages(&paper.bytes, &[]);
            let text = texts.iter().find(|text| text.contains("Standing")).unwrap();
            assert!(text.contains("follows"), "after {lines} lines the heading stands alone before {next:.20}");
            for text in texts.iter().filter(|_| next.len() > 90) {
                let count = text.lines().filter(|line| line.contains("follows")).count();
                assert_ne!(count, 1, "after {lines} lines a single line is left over");
            }
        }
    }
}

#[test]
fn no_letter_of_a_pocket_sheet_is_smaller_than_six_and_a_half_points() {
    // A drawing that is wider than the sheet shrinks with its letters.
    let note = LONG_NOTE.replace("(drawing:balance)", "");
    let paper = set(&Document { page: Page::Wallet, ..document(&note) });
    let file = lopdf::Document::load_mem(&paper.bytes).unwrap();
    let mut smallest = f32::MAX;
    for page in file.get_pages().into_values() {
        for operation in file.get_and_decode_page_content(page).unwrap().operations {
            if operation.operator == "Tf" {
                smallest = smallest.min(operation.operands[1].as_float().unwrap());
            }
        }
    }
    assert!((6.5..=7.0).contains(&smallest), "smallest size: {smallest}");
    assert!(!words(&paper.bytes).is_empty(), "the sheet has words");
}

/// Tells whether the check of `document` fails on a PDF of `other`.
fn is_noticed(document: &Document, other: &Document) -> bool {
    let pdf = set(other);
    std::panic::catch_unwind(|| boxes::check(document, &pdf, "wrong on purpose")).is_err()
}

#[test]
fn the_checks_notice_what_is_wrong() {
    let right = document("# One\n\nWords and words.\n\n| a | b |\n|--|--|\n| c | d |\n");
    assert!(!is_noticed(&right, &right), "nothing is wrong");
    for (other, reason) in [
        ("# One\n\nWords and.\n\n| a | b |\n|--|--|\n| c | d |\n", "a word is lost"),
        ("# One\n\nand Words words.\n\n| a | b |\n|--|--|\n| c | d |\n", "words are exchanged"),
        ("# One\n\nWords and words.\n\n| a | |\n|--|--|\n| c | d |\n", "a header is lost"),
        ("# One\n\nWords and words.\n\n| a | b |\n|--|--|\n| d | c |\n", "cells are exchanged"),
    ] {
        assert!(is_noticed(&right, &document(other)), "{reason}");
    }
    assert!(is_noticed(&right, &Document { head: vec![Fact::new("", "Other")], ..right.clone() }), "another person");
    assert!(is_noticed(&right, &Document { mark: None, ..right.clone() }), "no mark");
    assert!(
        is_noticed(&Document { page: Page::Letter, ..right.clone() }, &right),
        "another sheet: the foot is too low"
    );
    let note = document(LONG_NOTE);
    let mut all = words(&set(&note).bytes);
    all[90].x_min -= 12.0;
    assert!(std::panic::catch_unwind(|| boxes::apart(&all, "moved")).is_err(), "a word on the one before it");
}
