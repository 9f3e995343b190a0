//! Text and HTML: nothing lost, nothing typed becomes structure.

use evengap_papers::document::{Document, Page};
use evengap_papers::{html, text};

use crate::sample::{LONG_NOTE, document};

#[test]
fn text_keeps_within_its_columns_and_names_the_patient() {
    let out = text::write(&document(LONG_NOTE));
    for line in out.lines() {
        assert!(line.chars().count() <= text::COLUMNS, "too wide: {line}");
    }
    for wanted in [
        "Sigríður Nguyễn-Παππά\nBorn 3 May 1950 | Hospital number LH-204417 | Left knee\n",
        "DRAFT, NOT SIGNED",
        "Demonstration: invented patient",
        "[Drawing: Extension: medial 1.0 mm",
        "BW-AM-4471-05L-CR",
        "Operative note 1.0 · written by Людмила Щербакова",
    ] {
        assert!(out.contains(wanted), "{wanted:?} is missing");
    }
}

#[test]
fn text_sets_tables_lists_and_boxes() {
    let out =
        text::write(&document("| Part | mm |\n|--|--:|\n| Insert | 10 |\n\n9. one\n10. two\n    - in\n\n> Careful\n"));
    let expected = "\
Part    mm
------  --
Insert  10

9.  one
10. two
    - in

+----------------------------------------------------------------------------+
| Careful                                                                    |
+----------------------------------------------------------------------------+
";
    assert!(out.contains(expected), "set as:\n{out}");
}

#[test]
fn a_table_too_wide_for_text_becomes_records() {
    let long = "REF-0123456789-0123456789-0123456789";
    let out = text::write(&document(&format!("| Part | Reference | Lot |\n|--|--|--|\n| Femur | {long} | {long} |\n")));
    let expected = format!("Part: Femur\n  Reference: {long}\n  Lot: {long}\n");
    assert!(out.contains(&expected), "set as:\n{out}");
}

#[test]
fn text_breaks_endless_words_without_losing_a_letter() {
    let out = text::write(&document(&"x".repeat(1000)));
    assert_eq!(out.matches('x').count(), 1000, "every letter once");
}

#[test]
fn a_drawing_in_a_cell_is_its_words_in_text_and_a_figure_in_html() {
    let table = document("| Part | Mark |\n|--|--|\n| Femur | ![x](drawing:balance) |\n");
    let out = text::write(&table);
    assert!(out.contains("[Drawing: Extension:"), "set as:\n{out}");
    let out = html::write(&table);
    assert!(out.contains("<td><figure><svg "), "a figure in its cell");
    assert!(out.contains("aria-label=\"Extension: medial 1.0 mm"), "with its words");
}

#[test]
fn html_is_one_page_of_its_own() {
    let out = html::write(&document(LONG_NOTE));
    for wanted in [
        "<html lang=\"en-GB\">",
        "<title>Operative note</title>",
        "<h2>Components</h2>",
        "<th scope=\"col\">Reference</th>",
        "<aside class=\"boxed\">",
        "role=\"img\"",
        "<title>Extension: medial 1.0 mm",
        "<ol>",
    ] {
        assert!(out.contains(wanted), "{wanted:?} is missing");
    }
    for unwanted in ["<script", "<link", "src=", "url(", "@import", "href="] {
        assert!(!out.contains(unwanted), "{unwanted:?} would fetch or run something");
    }
}

#[test]
fn printed_html_has_its_sheet_and_page_numbers_of_its_language() {
    let mut paper = Document { page: Page::Wallet, ..document("Words.") };
    paper.words.page_of = "Seite {page} \"von\" {pages}</style>".to_owned();
    let out = html::write(&paper);
    for wanted in [
        "size: 105mm 74mm;",
        "@bottom-right { content: \"Seite \" counter(page) \" von \" counter(pages) \"/style>\";",
        ".identity { display: table-header-group;",
    ] {
        assert!(out.contains(wanted), "{wanted:?} is missing");
    }
    assert_eq!(out.matches("</style>").count(), 1, "no words end the styles");
}

#[test]
fn html_breaks_long_words_in_cells_and_no_others() {
    let reference = "BW-AM-4471-05L-CR";
    let endless = "x".repeat(60);
    let out = html::write(&document(&format!("| Part | b |\n|--|--:|\n| {reference} | {endless} |\n")));
    assert!(out.contains(&format!("<td>{reference}</td>")), "a reference stays whole");
    assert!(out.contains(&format!("<td class=\"right long\">{endless}</td>")), "an endless word may be broken");
    let row = format!("|{}\n", format!("{reference}|").repeat(8));
    let out = html::write(&document(&format!("{row}|{}\n{row}", "--|".repeat(8))));
    assert!(out.contains(&format!("<td class=\"long\">{reference}</td>")), "eight references are wider than a sheet");
}

#[test]
fn html_shows_what_was_typed_as_words() {
    let hostile = "\"><script>alert('x')</script>&amp;";
    let out = html::write(&Document {
        title: hostile.to_owned(),
        foot: hostile.to_owned(),
        mark: Some(hostile.to_owned()),
        language: hostile.to_owned(),
        author: hostile.to_owned(),
        ..document("<script>alert('x')</script>\n\n\\<b\\> **x**")
    });
    assert!(!out.contains("<script"), "no field opens an element");
    assert!(!out.contains("<b>x"), "typed marks stay words");
    assert!(out.contains("&lt;b&gt; <strong>x</strong>"), "the template's own marks work");
}

#[test]
fn the_fragment_is_the_body_of_the_page() {
    let document = document(LONG_NOTE);
    let fragment = html::fragment(&document);
    assert!(fragment.starts_with("<article"), "one element");
    assert!(!fragment.contains("<style"), "the window brings its own look");
    assert!(html::write(&document).contains(&fragment), "the same content in both");
}
