//! What a person typed stays words, wherever a template puts it.

use evengap_case::Case;
use evengap_papers::Kind;
use evengap_papers::blocks::{Block, words_of};

use super::{demo, written_of};

const HOSTILE: [&str; 10] = [
    "# Heading",
    "a\n\n# Heading\n\n- list",
    "a | b | c |\n|---|---|\n| d",
    "> boxed",
    "**strong** ![x](drawing:axis) <b>",
    "```",
    "<!-- gone",
    "@cautions",
    "{{ patient.family_name }}{% endfilter %}",
    "1. one",
];

/// Renders a template for a patient with this given name; gives the blocks of the paper.
fn blocks(name: &str, source: &str) -> Vec<Block> {
    let mut case: Case = demo("whole-knee-cemented").clone();
    case.patient.given_name = Some(name.to_owned());
    written_of(&case, Kind::OperativeNote, source).unwrap().document.blocks
}

/// Checks that a hostile name gives the same structure as a tame one, and that it prints as typed.
fn check(source: &str, reason: &str) {
    for hostile in HOSTILE {
        let (tame, wild) = (blocks("Tame", source), blocks(hostile, source));
        let shape = |blocks: &[Block]| blocks.iter().map(shape).collect::<Vec<_>>();
        assert_eq!(shape(&wild), shape(&tame), "{reason}: {hostile:?} makes no structure");
        let words = wild.iter().map(words).collect::<String>();
        let squeezed = |text: &str| text.split_whitespace().collect::<String>().to_lowercase();
        assert!(squeezed(&words).contains(&squeezed(hostile)), "{reason}: {hostile:?} prints as typed, in {words:?}");
    }
}

fn shape(block: &Block) -> String {
    match block {
        Block::Heading { level, .. } => format!("heading {level}"),
        Block::Paragraph(_) => "paragraph".into(),
        Block::List { items, .. } => format!("list of {}", items.len()),
        Block::Table(table) => format!("table {} by {}", table.header.len(), table.rows.len()),
        Block::Boxed(inner) => format!("box {:?}", inner.iter().map(shape).collect::<Vec<_>>()),
        Block::Drawing(_) => "drawing".into(),
        Block::Rule => "rule".into(),
    }
}

fn words(block: &Block) -> String {
    match block {
        Block::Heading { inlines, .. } | Block::Paragraph(inlines) => words_of(inlines),
        Block::List { items, .. } => items.iter().flatten().map(words).collect(),
        Block::Table(table) => {
            table.header.iter().chain(table.rows.iter().flatten()).map(|cell| words_of(cell)).collect()
        }
        Block::Boxed(inner) => inner.iter().map(words).collect(),
        Block::Drawing(_) | Block::Rule => String::new(),
    }
}

#[test]
fn in_the_options_of_filters() {
    check("{% filter section(title=patient.given_name) %}Body{% endfilter %}", "title of a section");
    check(
        "{% filter lines %}\n| a | b |\n|---|---|\n{% filter row(label=patient.given_name) %}x{% endfilter %}\n{% endfilter %}",
        "label of a row",
    );
    let clauses =
        "{% filter paragraph %}{% filter clauses(OPTION=patient.given_name) %}\na\nb\n{% endfilter %}{% endfilter %}";
    for option in ["start", "sep", "end"] {
        check(&clauses.replace("OPTION", option), option);
    }
    check("{% filter section(title=patient.given_name | cap) %}Body{% endfilter %}", "through a filter");
    check("{% filter section(title=(patient.given_name)) %}Body{% endfilter %}", "in brackets");
    check("{% filter section(title=\"For \" ~ patient.given_name) %}Body{% endfilter %}", "joined to words");
    check("{% filter section(title=patient.given_name or \"x\") %}Body{% endfilter %}", "one of two");
    check("{% set name = patient.given_name %}{% filter section(title=name) %}Body{% endfilter %}", "by a short name");
    check("{{ derived.operating | join(sep=patient.given_name) }} {{ patient.given_name }}", "between items");
}

#[test]
fn as_the_text_of_a_filter() {
    for filter in ["lines", "paragraph", "clauses", "sentence", "cap", "lower", "paragraph | lines | stop"] {
        check(&format!("a\n\n{{{{ patient.given_name | {filter} }}}}\n\nb {{{{ patient.given_name }}}}"), filter);
    }
}

#[test]
fn the_words_of_a_template_may_hold_markdown() {
    let made = blocks("Tame", "{% filter clauses(start=\"**Strong:** \", end=\"\\n\\n# More\") %}\na\n{% endfilter %}");
    let shapes: Vec<_> = made.iter().take(2).map(shape).collect();
    assert_eq!(shapes, ["paragraph", "heading 1"], "it is their template");
    assert_eq!(words(&made[0]), "Strong: a", "and strong is strong");
}
