//! Text that looks like Markdown, HTML or Tera prints as typed and moves nothing.

use evengap_case::dictionary::{self, Kind as AnswerKind};
use evengap_case::{Case, read_value};
use evengap_papers::blocks::Block;
use evengap_papers::{Kind, Paper, render};
use evengap_tests::{demo, demos, paper, with_addendum};
use serde_json::{Value, json};

const HOSTILE: [&str; 24] = [
    "# Heading",
    "plain\n# Heading\n\nnew paragraph",
    "| a | b |\n|---|---|\n| c | d |",
    "a | b",
    "- one\n- two",
    "1. one\n2. two",
    "12)",
    "+ plus",
    "> quoted",
    "```\ncode\n```",
    "    four blanks",
    "\ttab",
    "---",
    "===",
    "title\n===",
    "<h1>big</h1><script>alert(1)</script><!-- gone -->",
    "{{ patient.given_name }}{% raw %}{# gone #}{% endfilter %}",
    "[words](https://example.org) ![words](drawing:balance) [^1]: x",
    "***strong*** __under__ ~~struck~~ `code` \\",
    "&lt;b&gt; &#35; &amp;",
    "@cautions",
    "before\u{2028}# after\u{2029}- last\r\n> end",
    "DRAFT, NOT SIGNED Page 9 of 9",
    "<https://example.org> <a@example.org> :--- $x$",
];

/// Puts a text into every text answer of an entry; `only` keeps the rest as it is.
fn filled(case: &Case, text: &str) -> Case {
    fn walk(value: &mut Value, path: &str, text: &str) {
        match value {
            Value::Object(map) => {
                for (key, value) in map {
                    let path = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
                    walk(value, &path, text);
                }
            }
            Value::Array(items) => items.iter_mut().for_each(|value| walk(value, path, text)),
            _ => {
                let kind = dictionary::field(path).map(|field| field.kind);
                let is_text = matches!(kind, Some(AnswerKind::Text | AnswerKind::List { of: AnswerKind::Text }));
                if is_text && path.ends_with("_phone") {
                    // A text without a number is no telephone number, and the letter says so in a box.
                    *value = json!(format!("01632 960 114 {text}"));
                } else if is_text && path != "format" {
                    *value = json!(text);
                }
            }
        }
    }
    let mut value = case.to_value();
    walk(&mut value, "", text);
    read_value(value).unwrap_or_else(|refusal| panic!("{refusal}")).case
}

/// The structure of a paper without its words.
fn skeleton(blocks: &[Block]) -> Vec<String> {
    let mut lines = Vec::new();
    for block in blocks {
        match block {
            Block::Heading { level, inlines } => lines.push(format!("heading {level} {inlines:?}")),
            Block::Paragraph(_) => lines.push("paragraph".into()),
            Block::List { items, .. } => {
                lines.push(format!("list of {}", items.len()));
                items.iter().for_each(|item| lines.extend(skeleton(item)));
            }
            Block::Table(table) => {
                lines.push(format!("table {} × {}", table.header.len(), table.rows.len()));
                let columns = table.header.len();
                assert!(table.rows.iter().all(|row| row.len() == columns), "every row has a cell for each column");
            }
            Block::Boxed(inner) => {
                lines.push("box".into());
                lines.extend(skeleton(inner));
            }
            Block::Drawing(_) => lines.push("drawing".into()),
            Block::Rule => lines.push("rule".into()),
        }
    }
    lines
}

/// The structure of a paper after the box that says why it is not finished: one text in the place of every drug
/// and every allergy makes conflicts, and which ones depends on its words.
fn shape(paper: &Paper) -> Vec<String> {
    let blocks = &paper.document.blocks;
    if paper.unfinished.is_empty() {
        return skeleton(blocks);
    }
    let Some((Block::Boxed(inner), rest)) = blocks.split_first() else { panic!("no box is first: {blocks:?}") };
    let [Block::Paragraph(_), Block::List { items, .. }] = inner.as_slice() else { panic!("moved: {inner:?}") };
    assert_eq!(items.len(), paper.unfinished.len(), "one item for each reason");
    let is_line = |item: &Vec<Block>| matches!(item.as_slice(), [Block::Paragraph(_)]);
    assert!(items.iter().all(is_line), "each reason is one paragraph: {items:?}");
    skeleton(rest)
}

fn squeezed(text: &str) -> String {
    text.chars()
        .filter(|c| !c.is_whitespace() && *c != '\u{2028}' && *c != '\u{2029}')
        .flat_map(char::to_lowercase)
        .collect()
}

#[test]
fn hostile_text_in_every_answer_moves_nothing() {
    for name in ["whole-knee-cemented", "infected-revision-first-stage", "half-filled-draft"] {
        let case = demo(name);
        for kind in Kind::ALL {
            let tame = shape(&paper(&filled(&case, "words"), kind));
            for hostile in HOSTILE {
                let written = paper(&filled(&case, hostile), kind);
                assert_eq!(shape(&written), tame, "{name}, {}: {hostile:?} moved something", kind.name());
                for text in [
                    written.text(),
                    written
                        .html()
                        .replace("&lt;", "<")
                        .replace("&gt;", ">")
                        .replace("&quot;", "\"")
                        .replace("&#39;", "'")
                        .replace("<br>", "")
                        .replace("&amp;", "&"),
                ] {
                    assert!(
                        squeezed(&text).contains(&squeezed(hostile)),
                        "{name}, {}: {hostile:?} must print as typed",
                        kind.name()
                    );
                }
                assert!(!written.html().contains("<script"), "{name}: no script ever");
            }
        }
    }
}

#[test]
fn hostile_text_in_an_addendum_moves_nothing() {
    let case = demo("whole-knee-cemented");
    let (_, occasion) = with_addendum("whole-knee-cemented", &case);
    let written = |text: &str| {
        let mut occasion = occasion.clone();
        let addendum = occasion.addendum.as_mut().unwrap();
        addendum.before = filled(&case, &format!("before {text}"));
        (addendum.text, addendum.by) = (text.to_owned(), text.to_owned());
        render(&filled(&case, text), Kind::Addendum, &occasion).unwrap()
    };
    let tame = skeleton(&written("words").document.blocks);
    assert!(tame.iter().any(|line| line.starts_with("table 4 ×")), "the changes are a table: {tame:?}");
    for hostile in HOSTILE {
        let paper = written(hostile);
        assert_eq!(skeleton(&paper.document.blocks), tame, "{hostile:?} moved something");
        assert!(squeezed(&paper.text()).contains(&squeezed(hostile)), "{hostile:?} must print as typed");
    }
}

#[test]
fn the_hostile_patient_prints_as_typed() {
    let (_, case) = demos().into_iter().find(|(name, _)| name == "kneecap-joint").unwrap();
    let given = case.patient.given_name.clone().unwrap();
    assert!(given.contains("<script>"), "the demo is hostile");
    for kind in Kind::ALL {
        let text = paper(&case, kind).text();
        assert!(squeezed(&text).contains(&squeezed(&given)), "{}: the name prints as typed", kind.name());
    }
}
