//! Pages: what stands on each, what stays together, what is never lost.

use std::sync::LazyLock;

use evengap_papers::document::{Document, Page};
use evengap_papers::fonts::Fonts;
use evengap_papers::pdf::{self, Pdf};

use crate::boxes;
use crate::read::{pages, words};
use crate::sample::{LONG_NOTE, document};

pub static FONTS: LazyLock<Fonts> = LazyLock::new(|| Fonts::built_in().unwrap());

pub fn set(document: &Document) -> Pdf {
    pdf::write(document, &FONTS).unwrap()
}

pub fn set_markdown(markdown: &str) -> Pdf {
    set(&document(markdown))
}

/// Lines of filling text, each a paragraph of one line.
fn filler(lines: usize) -> String {
    "Filling.\n\n".repeat(lines)
}

/// Makes `count` different words, `w0000` and so on.
pub fn numbered(count: usize) -> Vec<String> {
    (0..count).map(|n| format!("w{n:04}")).collect()
}

/// Finds the words made by [`numbered`] in the order in which a reader meets them.
fn numbered_in(pdf: &Pdf) -> Vec<String> {
    pages(&pdf.bytes, &[])
        .join(" ")
        .split_whitespace()
        .filter(|word| word.len() == 5 && word.starts_with('w'))
        .map(str::to_owned)
        .collect()
}

#[test]
fn every_page_says_who_what_and_which_page() {
    for sheet in [Page::A4, Page::Letter] {
        let paper = set(&Document { page: sheet, ..document(LONG_NOTE) });
        let texts = pages(&paper.bytes, &["-layout"]);
        assert!(texts.len() > 1, "the sample must have several pages");
        assert_eq!(texts.len(), paper.pages, "the count given is the count in the file");
        for (n, text) in texts.iter().enumerate() {
            for wanted in [
                "Sigríður Nguyễn-Παππά",
                "Born 3 May 1950",
                "Hospital number LH-204417",
                "Left knee",
                "DRAFT, NOT SIGNED",
                "Demonstration: invented patient",
                "written by Людмила Щербакова",
                &format!("Page {} of {}", n + 1, texts.len()),
            ] {
                assert!(text.contains(wanted), "page {} lacks {wanted:?}", n + 1);
            }
        }
    }
}

#[test]
fn a_table_carries_its_header_over_the_page_and_loses_no_cell() {
    let mut markdown = "# Parts\n\n| Part | Reference |\n|--|--:|\n".to_owned();
    for (n, word) in numbered(80).iter().enumerate() {
        markdown.push_str(&if n % 2 == 0 { format!("| {word} ") } else { format!("| {word} |\n") });
    }
    let markdown = format!("{}{markdown}", filler(20));
    let paper = set_markdown(&markdown);
    assert!(paper.pages > 1, "the table must cross a page");
    let texts = pages(&paper.bytes, &["-layout"]);
    for text in &texts {
        assert_eq!(text.matches("Reference").count(), 1, "one header on each page");
    }
    let mut found = numbered_in(&paper);
    found.sort();
    assert_eq!(found, numbered(80), "forty rows, every cell once");
}

#[test]
fn a_row_of_several_lines_is_never_cut() {
    let mut markdown = "| Part | Words |\n|--|--|\n".to_owned();
    for n in 0..40 {
        let name = format!("r{n:02}");
        markdown.push_str(&format!("| {name} | {} |\n", format!("{name} ").repeat(60)));
    }
    let paper = set_markdown(&markdown);
    assert!(paper.pages > 1, "the table must cross a page");
    for n in 0..40 {
        let name = format!("r{n:02}");
        let texts = pages(&paper.bytes, &[]);
        let with: Vec<&String> = texts.iter().filter(|text| text.contains(&name)).collect();
        assert_eq!(with.len(), 1, "row {name} stands on one page");
        assert_eq!(with[0].matches(&name).count(), 61, "row {name} is whole");
    }
}

#[test]
fn a_row_taller_than_a_page_loses_nothing() {
    let row = numbered(2500).join(" ");
    let paper = set_markdown(&format!("| Part | Words |\n|--|--|\n| one | {row} |\n"));
    assert!(paper.pages > 2, "the row must be taller than a page");
    assert_eq!(numbered_in(&paper), numbered(2500), "every word once, in order");
}

#[test]
fn a_drawing_in_a_cell_has_its_size_and_moves_the_next_row() {
    let paper = set_markdown("| Part | Mark |\n|--|--|\n| first | ![x](drawing:balance) |\n| second | b |\n");
    let words = words(&paper.bytes);
    let find = |text: &str| words.iter().find(|word| word.text == text).unwrap();
    let drawn = 36.0 * 72.0 / 25.4;
    let down = find("second").y_min - find("first").y_min;
    assert!((drawn..drawn + 10.0).contains(&down), "the row is as tall as the drawing, not {down}");
    let across = find("Flexion").x_min - find("Extension").x_min;
    assert!((across - 60.0 * 72.0 / 25.4).abs() < 8.0, "drawn in its own size: {across}");
}

#[test]
fn a_drawing_beside_a_row_taller_than_a_page_loses_nothing() {
    let row = numbered(1500).join(" ");
    let paper = set_markdown(&format!("| Part | Mark |\n|--|--|\n| {row} | ![x](drawing:balance) |\n"));
    assert_eq!(numbered_in(&paper), numbered(1500), "every word once, in order");
    let text = pages(&paper.bytes, &[]).concat();
    assert_eq!(text.matches("Extension").count(), 1, "and the drawing once");
}

#[test]
fn a_paragraph_of_3000_words_loses_none() {
    let paper = set_markdown(&numbered(3000).join(" "));
    assert!(paper.pages > 3, "it must cross pages");
    assert_eq!(numbered_in(&paper), numbered(3000), "every word once, in order");
}

#[test]
fn what_stands_under_a_line_never_begins_a_page_alone() {
    let mut turned = 0;
    for lines in 30..70 {
        let paper = set_markdown(&format!("{}---\n\nClosing words.\n", filler(lines)));
        let texts = pages(&paper.bytes, &["-layout"]);
        let last = texts.iter().find(|text| text.contains("Closing words")).unwrap();
        assert!(last.contains("Filling."), "{lines} lines: the close stands below a line of the text: {last}");
        turned = turned.max(texts.len());
    }
    assert!(turned > 1, "some of them reach a second page");
}

#[test]
fn a_heading_never_ends_a_page() {
    for lines in 20..50 {
        let follows = "Follows. ".repeat(60);
        let table = "| Follows. |\n|--|\n| one |\n| two |\n";
        for next in [follows.as_str(), table, "- Follows.\n- two\n", "> Follows.\n"] {
            let paper = set_markdown(&format!("{}## Standing\n\n{next}", filler(lines)));
            let texts = pages(&paper.bytes, &[]);
            let text = texts.iter().find(|text| text.contains("Standing")).unwrap();
            assert!(text.contains("Follows."), "after {lines} lines the heading stands alone before {next:.20}");
        }
    }
}

#[test]
fn no_line_of_a_paragraph_stands_alone_on_a_page() {
    for lines in 25..45 {
        let paper = set_markdown(&format!("{}{}", filler(lines), "alone ".repeat(120)));
        for text in pages(&paper.bytes, &[]) {
            let count = text.lines().filter(|line| line.contains("alone")).count();
            assert_ne!(count, 1, "after {lines} lines a single line is left over");
        }
    }
}

#[test]
fn a_caution_is_kept_in_one_piece() {
    for lines in 20..45 {
        let caution = "> Beware of this.\n>\n> - one\n> - two\n>\n> Ends here.\n";
        let paper = set_markdown(&format!("{}{caution}", filler(lines)));
        let texts = pages(&paper.bytes, &[]);
        let text = texts.iter().find(|text| text.contains("Beware")).unwrap();
        assert!(text.contains("Ends here."), "after {lines} lines the box is cut");
    }
}

#[test]
fn a_box_longer_than_a_page_loses_nothing() {
    let text: Vec<String> = numbered(1500).chunks(50).map(|words| format!("> {}\n>\n", words.join(" "))).collect();
    let paper = set_markdown(&text.concat());
    assert!(paper.pages > 1, "the box must cross a page");
    assert_eq!(numbered_in(&paper), numbered(1500), "every word once, in order");
}

#[test]
fn nothing_leaves_the_margins() {
    let deep: String = (0..14).map(|n| format!("{}- deep down\n", " ".repeat(2 * n))).collect();
    let boxes = format!("{} boxed", "> ".repeat(14));
    let endless = "Ω".repeat(400) + &"unbroken".repeat(60);
    let paper = set_markdown(&format!(
        "# {endless}\n\n{endless}\n\n- {endless}\n\n> {endless}\n\n\
         | Part | {endless} |\n|--|--|\n| {endless} | b |\n\n{deep}\n\n{boxes}\n\n{LONG_NOTE}"
    ));
    boxes::within_margins(&words(&paper.bytes), Page::A4, "endless words");
    let text: String = pages(&paper.bytes, &["-raw"]).concat().split_whitespace().collect();
    assert_eq!(text.matches('Ω').count(), 6 * 400, "no letter of an endless word is lost");
}

#[test]
fn lines_do_not_lie_on_each_other() {
    let paper = set_markdown(LONG_NOTE);
    boxes::apart(&words(&paper.bytes), "long note");
}

#[test]
fn a_unit_stays_in_one_piece() {
    for words in 1..40 {
        let paper = set_markdown(&format!("{}(before it was 154 g/l); then less.", "fill ".repeat(words)));
        let text = pages(&paper.bytes, &["-layout"]).join("\n");
        assert!(text.lines().any(|line| line.contains("154 g/l);")), "{words} words: {text}");
    }
}

#[test]
fn a_number_stays_with_its_unit_and_a_part_number_in_one_piece() {
    for lead in 0..90 {
        let kept = "105 mm 14 May 6.5 × 25 KX-44-1207-L";
        let paper = set_markdown(&format!("{} {kept}", "a ".repeat(lead)));
        let text = pages(&paper.bytes, &["-raw"]).concat();
        for whole in ["105 mm", "14 May", "6.5 × 25", "KX-44-1207-L"] {
            assert!(text.contains(whole), "after {lead} letters {whole:?} is broken");
        }
    }
}

#[test]
fn an_empty_paper_is_one_page() {
    let paper = set_markdown("");
    assert_eq!(paper.pages, 1, "with head and foot");
    let text = pages(&paper.bytes, &[]).concat();
    assert!(text.contains("Page 1 of 1"), "{text}");
}

#[test]
fn no_mixture_of_blocks_loses_a_word() {
    for seed in 0..40 {
        let (markdown, count) = mixture(seed);
        let paper = set_markdown(&markdown);
        let mut found = numbered_in(&paper);
        found.sort();
        assert_eq!(found, numbered(count), "mixture {seed}:\n{markdown}");
        boxes::within_margins(&words(&paper.bytes), Page::A4, &format!("mixture {seed}"));
    }
}

/// Makes a paper of blocks in an order that follows from `seed`, with so many different words.
fn mixture(seed: u64) -> (String, usize) {
    let (mut state, mut count) = (seed * 2 + 1, 0);
    let mut roll = |below: u64| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((state >> 33) % below) as usize
    };
    let mut out = String::new();
    for _ in 0..12 {
        let kind = roll(7);
        let size = 1 + roll(60);
        let mut next = |many: usize| -> String {
            let words: Vec<String> = (count..count + many).map(|n| format!("w{n:04}")).collect();
            count += many;
            words.join(" ")
        };
        out.push_str(&match kind {
            0 => format!("## {}\n\n", next(2)),
            1 => format!("{}\n\n", next(size * 3)),
            2 => format!("- {}\n  1. {}\n\n     {}\n- {}\n\n", next(3), next(size), next(2), next(1)),
            3 => format!("> **{}**\n>\n> - {}\n>   > {}\n\n", next(2), next(size), next(2)),
            4 => format!("> {}\n\n", next(size * 12)),
            5 => (0..size).fold("| A | B | C |\n|--|:-:|--:|\n".to_owned(), |table, _| {
                format!("{table}| {} | {} | {} |\n", next(1), next(3), next(1))
            }),
            _ => format!("> | A | B |\n> |--|--|\n> | {} | {} |\n\n---\n\n", next(size), next(2)),
        });
        out.push('\n');
    }
    (out, count)
}
