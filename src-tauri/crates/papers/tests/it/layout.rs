//! Pages: what stands on each, what stays together, what is never lost.

use std::sync::LazyLock;

use evengap_papers::document::{Document, Page};
use evengap_papers::fonts::Fonts;
use evengap_papers::pdf::{self, Pdf};

use crate::read::{pages, words};
use crate::sample::{LONG_NOTE, document};

static FONTS: LazyLock<Fonts> = LazyLock::new(|| Fonts::built_in().unwrap());

fn set(document: &Document) -> Pdf {
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
fn numbered(count: usize) -> Vec<String> {
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
fn a_paragraph_of_3000_words_loses_none() {
    let paper = set_markdown(&numbered(3000).join(" "));
    assert!(paper.pages > 3, "it must cross pages");
    assert_eq!(numbered_in(&paper), numbered(3000), "every word once, in order");
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
    let deep: String = (0..40).map(|n| format!("{}- deep down\n", " ".repeat(2 * n))).collect();
    let boxes = format!("{} boxed", "> ".repeat(20));
    let endless = "Ω".repeat(400) + &"unbroken".repeat(60);
    let paper = set_markdown(&format!(
        "# {endless}\n\n{endless}\n\n- {endless}\n\n> {endless}\n\n\
         | Part | {endless} |\n|--|--|\n| {endless} | b |\n\n{deep}\n\n{boxes}\n\n{LONG_NOTE}"
    ));
    let (width, height) = Page::A4.size_pt();
    for word in words(&paper.bytes) {
        let inside =
            word.x_min >= 64.0 && word.x_max <= width - 64.0 && word.y_min >= 25.0 && word.y_max <= height - 25.0;
        assert!(inside, "{word:?} leaves the margins");
    }
    let text: String = pages(&paper.bytes, &["-raw"]).concat().split_whitespace().collect();
    assert_eq!(text.matches('Ω').count(), 6 * 400, "no letter of an endless word is lost");
}

#[test]
fn lines_do_not_lie_on_each_other() {
    let paper = set_markdown(LONG_NOTE);
    let words = words(&paper.bytes);
    for (n, a) in words.iter().enumerate() {
        for b in &words[n + 1..] {
            let across = a.x_max.min(b.x_max) - a.x_min.max(b.x_min);
            let down = a.y_max.min(b.y_max) - a.y_min.max(b.y_min);
            let overlap = a.page == b.page && across > 0.5 && down > 4.0;
            assert!(!overlap, "{a:?} lies on {b:?}");
        }
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
        let (width, height) = Page::A4.size_pt();
        for word in words(&paper.bytes) {
            let inside = word.x_min >= 64.0 && word.x_max <= width - 64.0 && word.y_max <= height - 25.0;
            assert!(inside, "mixture {seed}: {word:?} leaves the margins");
        }
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
