//! No template can leave the cautions out, hide them, or put them where they are no longer boxed.

use evengap_papers::blocks::{Block, words_of};
use evengap_papers::{Kind, Language, Occasion, OwnTemplate, render};

use super::{demos, occasion, written};

/// The words of every box that stands by itself, and the index of each among the blocks.
fn boxes(blocks: &[Block]) -> Vec<(usize, String)> {
    fn words(blocks: &[Block]) -> String {
        let one = |block: &Block| match block {
            Block::Paragraph(inlines) | Block::Heading { inlines, .. } => words_of(inlines),
            Block::List { items, .. } => items.iter().map(|item| words(item)).collect::<Vec<_>>().join(" "),
            _ => String::new(),
        };
        blocks.iter().map(one).collect::<Vec<_>>().join(" ")
    }
    let boxed = blocks.iter().enumerate().filter_map(|(at, block)| match block {
        Block::Boxed(inner) => Some((at, words(inner))),
        _ => None,
    });
    boxed.collect()
}

/// Checks where the cautions stand in a letter: as many blocks before them, and as many after without the signature.
fn check(source: &str, before: usize, after: usize, reason: &str) {
    let paper = written(Kind::DischargeLetter, source).unwrap();
    let blocks = &paper.document.blocks;
    let boxes = boxes(blocks);
    let first = boxes.iter().find(|(_, words)| words.contains("Call an ambulance at once"));
    let (at, _) = first.unwrap_or_else(|| panic!("{reason}: the ambulance is boxed in {blocks:?}"));
    let next = boxes.iter().find(|(next, _)| *next == at + 1).map(|(_, words)| words.as_str()).unwrap_or_default();
    assert!(next.contains("Call us the same day"), "{reason}: the same-day advice follows");
    assert!(next.contains("Do not start any new antibiotic for your wound"), "{reason}: and the antibiotics");
    assert_eq!((*at, blocks.len() - at - 4), (before, after), "{reason}: blocks before and after, of {blocks:#?}");
    let printed = paper.text().split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(printed.matches("if you cough up blood").count(), 1, "{reason}: once on the paper");
    let markdown = paper.markdown();
    let line = markdown.lines().find(|line| line.contains("Call an ambulance at once")).unwrap();
    assert!(line.starts_with("> **"), "{reason}: boxed in the Markdown as well");
}

#[test]
fn they_stand_where_they_are_asked_for() {
    check("# A\n\n@cautions\n\nB", 1, 1, "between two blocks");
    check("A\n@cautions\nB", 1, 1, "between two lines of a paragraph");
    check("@cautions\n\nB", 0, 1, "first");
    check("- a\n\n@cautions\n\n- b", 1, 1, "between two lists");
    check("A\n\n@cautions\n===\n\nB", 1, 2, "a line under the mark makes no heading of it");
    check("A\n\n@cautions\n\nB\n\n@cautions\n", 1, 1, "only at the first of two places");
    check("{% if knee.side %}@cautions{% endif %}\n\nB", 0, 1, "inside a question that holds");
    check("{% filter section(title=\"Care\") %}\n@cautions\n{% endfilter %}\nB", 1, 1, "inside a section");
}

#[test]
fn they_stand_at_the_end_where_nothing_asks_for_them() {
    check("# A\n\nB", 2, 0, "left out");
    check("", 0, 0, "an empty template");
    check(
        "A\n\n{% if derived.same_sitting %}\n@cautions\n{% endif %}\n\nB",
        2,
        0,
        "inside a question that does not hold",
    );
    check("A\n\n{# @cautions #}", 1, 0, "inside a comment of the template");
    check("{{ \"@cautions\" }}\n\nA", 2, 0, "printed as words");
    check("A\n@cautions B", 1, 0, "not alone on its line");
}

#[test]
fn they_leave_what_would_swallow_them() {
    check("- a\n\n  @cautions\n", 1, 0, "inside a list");
    check("> a\n>\n> @cautions\n", 1, 0, "inside a box");
    check("{% filter boxed %}\n\n@cautions\n\n{% endfilter %}", 0, 0, "inside a box that is empty without them");
    check("| a |\n|---|\n| @cautions |\n", 1, 0, "inside a table");
    check("A\n\n    code\n\n    @cautions\n", 2, 0, "inside code");
    check("```\na\n\n@cautions\n\n```\n\nB", 2, 0, "inside a code fence");
    check("<!--\n\n@cautions\n\n-->\n\nB", 2, 0, "inside an HTML comment");
    check("{% filter row(label=\"x\") %}\n@cautions\n{% endfilter %}", 1, 0, "inside a row");
}

#[test]
fn they_stand_first_where_the_end_is_swallowed() {
    check("A\n\n```\ncode", 0, 2, "a code fence without an end");
    check("A\n\n<!-- hidden", 0, 2, "an HTML comment without an end");
    check("A\n\n<script>\nB", 0, 2, "a script without an end");
    check("A\n\n<!--\n@cautions", 0, 2, "and a place inside it");
}

#[test]
fn they_stand_in_every_letter_of_every_language() {
    for (name, case) in demos() {
        for &language in Kind::DischargeLetter.languages() {
            let template = OwnTemplate { name: "mine".into(), version: 1, source: "Nothing.".into() };
            let occasion = Occasion { language, template: Some(template), ..occasion() };
            let paper = render(case, Kind::DischargeLetter, &occasion).unwrap();
            let boxes = boxes(&paper.document.blocks);
            // A translation that nobody has checked has one more box, which says so, and so has an unfinished letter.
            let expected = 2 + usize::from(language != Language::En) + usize::from(!paper.unfinished.is_empty());
            assert_eq!(boxes.len(), expected, "{name}, {}: the boxes stand by themselves", language.words());
        }
    }
}

#[test]
fn the_template_is_named_on_the_paper() {
    let paper = written(Kind::DischargeLetter, "A").unwrap();
    assert!(paper.document.foot.contains("mine, version 3"), "in the foot: {}", paper.document.foot);
    assert_eq!(paper.document.mark.as_deref(), Some("DRAFT, NOT SIGNED"), "the mark is the program's");
}
