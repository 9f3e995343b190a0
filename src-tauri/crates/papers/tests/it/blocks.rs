//! Markdown to blocks: each form, and what never becomes one.

use std::collections::BTreeMap;

use evengap_papers::blocks::{self, Align, Block, Inline, Table};
use evengap_papers::drawing::Drawing;

use crate::sample::balance;

fn check(markdown: &str, expected: &[Block], reason: &str) {
    let drawings = BTreeMap::from([("balance".to_owned(), balance())]);
    assert_eq!(blocks::parse(markdown, &drawings).unwrap(), expected, "{reason}");
}

fn plain(words: &str) -> Vec<Inline> {
    vec![Inline::plain(words)]
}

fn words(text: &str, strong: bool, emphasis: bool) -> Inline {
    Inline::Text { text: text.to_owned(), strong, emphasis }
}

#[test]
fn headings_paragraphs_and_rules() {
    check(
        "# Note\n\nOne\ntwo.\n\n---\n\n### Small",
        &[
            Block::Heading { level: 1, inlines: plain("Note") },
            Block::Paragraph(plain("One two.")),
            Block::Rule,
            Block::Heading { level: 3, inlines: plain("Small") },
        ],
        "a line feed of the template is a space",
    );
}

#[test]
fn faces_of_text() {
    check(
        "a **b *c*** *d* `e`",
        &[Block::Paragraph(vec![
            words("a ", false, false),
            words("b ", true, false),
            words("c", true, true),
            words(" ", false, false),
            words("d", false, true),
            words(" e", false, false),
        ])],
        "strong and emphasis nest; code is plain",
    );
}

#[test]
fn lists_nest_and_keep_their_number() {
    check(
        "4. one\n   - inner\n5. two\n",
        &[Block::List {
            ordered_from: Some(4),
            items: vec![
                vec![
                    Block::Paragraph(plain("one")),
                    Block::List { ordered_from: None, items: vec![vec![Block::Paragraph(plain("inner"))]] },
                ],
                vec![Block::Paragraph(plain("two"))],
            ],
        }],
        "an inner list belongs to its item",
    );
}

#[test]
fn tables_have_header_rows_and_sides() {
    check(
        "| a | b | c |\n|:--|:-:|--:|\n| 1 | **2** | |\n",
        &[Block::Table(Table {
            header: vec![plain("a"), plain("b"), plain("c")],
            rows: vec![vec![plain("1"), vec![words("2", true, false)], vec![]]],
            align: vec![Align::Left, Align::Centre, Align::Right],
        })],
        "an empty cell stays a cell",
    );
}

#[test]
fn a_quotation_is_a_box() {
    check(
        "> **Call** now\n>\n> - one\n",
        &[Block::Boxed(vec![
            Block::Paragraph(vec![words("Call", true, false), words(" now", false, false)]),
            Block::List { ordered_from: None, items: vec![vec![Block::Paragraph(plain("one"))]] },
        ])],
        "a box holds blocks",
    );
}

#[test]
fn a_typed_line_feed_ends_the_line() {
    check(
        "one&#10;two  \nthree",
        &[Block::Paragraph(vec![
            Inline::plain("one"),
            Inline::Break,
            Inline::plain("two"),
            Inline::Break,
            Inline::plain("three"),
        ])],
        "as an entity or as a Markdown break",
    );
    check(
        "| a |\n|--|\n| x&#10;y |\n",
        &[Block::Table(Table {
            header: vec![plain("a")],
            rows: vec![vec![vec![Inline::plain("x"), Inline::Break, Inline::plain("y")]]],
            align: vec![Align::Left],
        })],
        "in a cell as well",
    );
}

#[test]
fn raw_html_is_only_words() {
    check("a <b>c</b> &lt;i&gt;", &[Block::Paragraph(plain("a <b>c</b> <i>"))], "inside a line");
    check(
        "<script>\nx()\n</script>\n\nAfter",
        &[
            Block::Paragraph(vec![
                Inline::plain("<script>"),
                Inline::Break,
                Inline::plain("x()"),
                Inline::Break,
                Inline::plain("</script>"),
            ]),
            Block::Paragraph(plain("After")),
        ],
        "as a block",
    );
}

#[test]
fn only_a_drawing_that_stands_alone_is_one() {
    check("![the gaps](drawing:balance)", &[Block::Drawing(balance())], "alone in its paragraph");
    check(
        "see ![the gaps](drawing:balance) and [there](https://example.org) ![pic](x.png)",
        &[Block::Paragraph(plain("see the gaps and there pic"))],
        "otherwise links and pictures are their words",
    );
}

#[test]
fn a_cell_may_hold_one_drawing() {
    check(
        "| a | b |\n|--|--|\n| ![the gaps](drawing:balance) | x ![the gaps](drawing:balance) |\n",
        &[Block::Table(Table {
            header: vec![plain("a"), plain("b")],
            rows: vec![vec![vec![Inline::Drawing(Box::new(balance()))], plain("x the gaps")]],
            align: vec![Align::Left, Align::Left],
        })],
        "alone in its cell; beside words it is words",
    );
}

#[test]
fn an_unknown_drawing_is_named() {
    let drawings = BTreeMap::from([("balance".to_owned(), Drawing::default())]);
    let error = blocks::parse("![x](drawing:balanse)", &drawings).unwrap_err();
    assert_eq!(
        error.to_string(),
        "the template asks for the drawing \"balanse\", which this paper does not have; \
         known drawings: balance",
        "the name asked for and the names there are"
    );
}
