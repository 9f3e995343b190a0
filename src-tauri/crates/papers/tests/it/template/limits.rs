//! A template that loops without end or grows without bound is stopped with a sentence, and nothing
//! that anybody can write into one makes the program fall over or wait.

use std::fmt::Write;
use std::time::{Duration, Instant};

use evengap_case::Case;
use evengap_papers::template::{check as check_template, of};
use evengap_papers::{Kind, Language};
use proptest::prelude::*;

use super::{demo, written, written_of};

/// The longest that one template may take. Far more than any takes, so that a busy machine does not
/// fail the test; far less than what a template without limits would.
const PATIENCE: Duration = Duration::from_secs(4);

/// Checks that a template is stopped, quickly, with this sentence.
fn check(source: &str, sentence: &str) {
    let start = Instant::now();
    let said = match written_of(&many_components(), Kind::OperativeNote, source) {
        Ok(paper) => panic!("it is not stopped: {} bytes", paper.markdown().len()),
        // Whoever sets the error into a sentence of its own ends that.
        Err(error) => format!("{error}."),
    };
    assert!(!said.ends_with(".."), "{said:?} ends with one stop");
    assert!(said.contains(sentence), "{said:?} says {sentence:?}");
    assert!(start.elapsed() < PATIENCE, "stopped after {:?}", start.elapsed());
}

/// An entry of 40 components.
fn many_components() -> Case {
    let mut case = demo("whole-knee-cemented").clone();
    let component = case.components[0].clone();
    case.components = vec![component; 40];
    case
}

fn repeated(piece: &str, times: usize) -> String {
    piece.repeat(times)
}

/// Tags of one kind inside each other, with something in the middle.
fn nested(open: impl Fn(usize) -> String, middle: &str, close: &str, deep: usize) -> String {
    let mut source: String = (0..deep).map(open).collect();
    source.push_str(middle);
    source + &close.repeat(deep)
}

#[test]
fn loops_inside_loops() {
    let open = |n| format!("{{% for c{n} in components %}}");
    check(
        &format!("One\n\n  {}", nested(open, "x", "{% endfor %}", 10)),
        "The template mine cannot be used. Line 3, column 237: The loops of this template go round too often: \
         stopped after 20001 rounds.",
    );
    check(&nested(open, "", "{% endfor %}", 15), "go round too often");
    check(&nested(|n| format!("{{%- for c{n} in components -%}}"), "  {{ c3.lot }}  ", "{% endfor %}", 6), "too often");
    let body = repeated("{{ components | length }}", 2000);
    check(
        &format!("{{% for a in components %}}{{% for b in components %}}{body}{{% endfor %}}{{% endfor %}}"),
        "too often",
    );
}

#[test]
fn text_that_doubles() {
    // Each level makes a line feed of each line feed into many.
    let open = |_| "{% filter clauses(sep=\"\\na\\na\\na\\na\\na\\na\\na\\na\\n\") %}".to_owned();
    check(&nested(open, "\na\nb\n", "{% endfilter %}", 19), "grows too long");
    let sep = repeated("a\\n", 9_000);
    let twice = format!("{{% filter clauses(sep=\"{sep}\") | clauses(sep=\"{sep}\") %}}\na\nb\n{{% endfilter %}}");
    check(&twice, "grows too long");
    let chain = repeated(" | clauses(sep=\"\\nb\\nb\\n\")", 60);
    check(&format!("{{% filter lines{chain} %}}\na\nb\n{{% endfilter %}}"), "grows too long");
}

#[test]
fn papers_without_end() {
    let long = repeated("word ", 10_000);
    check(&format!("{{% for a in components %}}{long}{{% endfor %}}"), "The paper grows too long: stopped at 1 MB");
    let mut case = demo("whole-knee-cemented").clone();
    case.approach.findings = Some(repeated("finding ", 50_000));
    let start = Instant::now();
    let error = written_of(&case, Kind::OperativeNote, &repeated("{{ approach.findings }}\n", 2000)).unwrap_err();
    assert!(error.to_string().contains("too long"), "a long answer, printed often: {error}");
    let inside = format!("{{% filter lines %}}{}{{% endfilter %}}", repeated("{{ approach.findings }}\n", 2000));
    let error = written_of(&case, Kind::OperativeNote, &inside).unwrap_err();
    assert!(error.to_string().contains("grows too long"), "inside of a filter as well: {error}");
    assert!(start.elapsed() < PATIENCE, "stopped after {:?}", start.elapsed());
}

#[test]
fn sources_without_end() {
    check(&repeated("a", 64 * 1024 + 1), "Line 1, column 1: This template is too long: 65 kB; the limit is 64 kB.");
    check(&repeated("{{", 32 * 1024), "Line 1, column 1: This {{ is never closed.");
    check(&repeated("{%", 32 * 1024), "Line 1, column 1: This {% is never closed.");
    check(&repeated("{#", 32 * 1024), "This comment is never closed.");
    check(&repeated("{{\"", 20 * 1024), "This {{ is never closed.");
    check(&format!("{{{{ \"{}", repeated("a\n", 20 * 1024)), "The words that begin with \" here have no end.");
    check(&repeated("{{ x }}", 9 * 1024), "There is no name \"x\" here.");
    check(&repeated("{% endif %}", 5_000), "This {% endif %} closes nothing.");
    written(Kind::OperativeNote, &repeated("}}", 32 * 1024)).unwrap();
}

#[test]
fn depths_without_end() {
    let ifs = nested(|_| "{% if knee.side %}".into(), "x", "{% endif %}", 2000);
    check(&ifs, "Line 1, column 361: Tags stand more than 20 deep here.");
    let filters = nested(|_| "{% filter lines %}".into(), "x", "{% endfilter %}", 1500);
    check(&filters, "Tags stand more than 20 deep here.");
    let elifs = repeated("{% elif knee.side %}", 3000);
    check(&format!("{{% if knee.side %}}{elifs}{{% endif %}}"), "This {% if %} has more than 50 {% elif %}.");
    check(&format!("{{{{ {}knee.side{} }}}}", repeated("(", 20_000), repeated(")", 20_000)), "more than 8 deep");
    check(&format!("{{{{ knee.side{} }}}}", repeated(" or knee.side", 4000)), "This tag is too long.");
    check(&format!("{{{{ knee.side{} }}}}", repeated(" | cap", 8000)), "This tag is too long.");
    check(&format!("{{{{ knee{} }}}}", repeated(".a", 20_000)), "There is no name \"knee.a\".");
    check(&format!("{{{{ {}knee.side }}}}", repeated("not ", 10_000)), "Here a name is missing.");
    check(&format!("{{{{ \"a\"{} }}}}", repeated(" ~ \"a\"", 8000)), "~ joins 5 pieces at most.");
    check(&format!("{{{{ \"a\"{} }}}}", repeated(" == \"a\"", 8000)), "Two comparisons stand side by side.");
    let words = repeated("\"total\", ", 6000);
    check(&format!("{{% if choice.procedure_code in [{words}\"total\"] %}}{{% endif %}}"), "This tag is too long.");
}

#[test]
fn markdown_that_no_page_can_show() {
    let deep = "lists and boxes stand more than 16 deep inside each other";
    check(&repeated("> ", 30_000), deep);
    check(&format!("{}a", repeated("- ", 30_000)), deep);
    check(
        &(0..200).fold(String::new(), |mut list, n| {
            writeln!(list, "{}- a", "  ".repeat(n)).unwrap();
            list
        }),
        deep,
    );
    let row = repeated("| a ", 2000);
    check(
        &format!("{row}|\n{}|\n{row}|\n", repeated("|---", 2000)),
        "a table has 2000 columns; a page holds 16 at most",
    );
    // Many of something small is fine.
    for piece in [
        "*", "**", "_", "[", "![", "](", "`", "<", "&", "\\", "#\n", ">\n", "-\n", "|\n", "---\n", "<!--\n", "[a]: b\n",
    ] {
        let start = Instant::now();
        let _ = written(Kind::DischargeLetter, &repeated(piece, 60_000 / piece.len()));
        assert!(start.elapsed() < PATIENCE, "{piece:?} takes {:?}", start.elapsed());
    }
}

#[test]
fn signs_that_an_editor_leaves_behind() {
    let same = |source: &str, reason: &str| {
        let plain = written(Kind::OperativeNote, "# A\n\nB {{ knee.side }}\n\n- c\n").unwrap();
        assert_eq!(written(Kind::OperativeNote, source).unwrap().document.blocks, plain.document.blocks, "{reason}");
    };
    same("\u{feff}# A\n\nB {{ knee.side }}\n\n- c\n", "a byte order mark");
    same("# A\r\n\r\nB {{ knee.side }}\r\n\r\n- c\r\n", "line ends of another system");
    same("# A\n\nB {{\tknee.side\t}}\n\n-\tc\n", "tabs");
    check("# A\r\n\r\n\tB {{ knee.sid }}", "Line 3, column 12: There is no name \"knee.sid\".");
    check("\u{feff}{{ knee.sid }}", "Line 1, column 9: There is no name \"knee.sid\".");
    check("a\u{0}b", "Line 1, column 2: The sign U+0000 cannot be printed.");
    check("a\rb", "Line 1, column 2: The sign U+000D cannot be printed.");
    check("a\u{1b}[31m", "The sign U+001B cannot be printed.");
}

/// Writes a letter with any source; only the time is asked.
fn survives(source: &str) {
    let start = Instant::now();
    let case = demo("whole-knee-cemented");
    let flaws = check_template(Kind::DischargeLetter, Language::En, source, &[("whole knee", case)]);
    let lines = source.replace("\r\n", "\n");
    for flaw in &flaws {
        let line = lines.split('\n').nth(flaw.line - 1);
        let line = line.unwrap_or_else(|| panic!("{flaw} stands in the template {source:?}"));
        assert!(flaw.column <= line.chars().count() + 1, "{flaw} stands in its line {line:?}");
        assert!(flaw.message.ends_with('.'), "{flaw} is a sentence");
    }
    if flaws.is_empty() {
        let paper = written_of(case, Kind::DischargeLetter, source).unwrap();
        assert!(paper.text().contains("if you cough up blood"), "the cautions stand in every letter: {source:?}");
    }
    assert!(start.elapsed() < PATIENCE, "{source:?} takes {:?}", start.elapsed());
}

/// Pieces from which a template might be put together.
const PIECES: [&str; 44] = [
    "{{ ",
    " }}",
    "{% ",
    " %}",
    "{%- ",
    " -%}",
    "{# ",
    " #}",
    "if ",
    "elif ",
    "else",
    "endif",
    "for c in components",
    "endfor",
    "filter lines",
    "filter section(title=\"T\")",
    "filter clauses(sep=\"\\n\")",
    "endfilter",
    "set x = knee",
    "patient.given_name",
    "knee.side",
    "c.lot",
    "x.side",
    "loop.index",
    "components",
    " | cap",
    " | and_list",
    " == ",
    "\"left\"",
    " and ",
    " or ",
    " not ",
    " in ",
    " is none",
    "(",
    ")",
    "\n",
    "\n\n",
    "@cautions\n",
    "> ",
    "- ",
    "```\n",
    "<!-- ",
    "| a | b |\n|---|---|\n",
];

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_survives(source in "\\PC{0,200}") {
        survives(&source);
    }

    #[test]
    fn any_bytes_survive(bytes in proptest::collection::vec(any::<u8>(), 0..300)) {
        survives(&String::from_utf8_lossy(&bytes));
    }

    #[test]
    fn any_pieces_survive(pieces in proptest::collection::vec(proptest::sample::select(&PIECES[..]), 0..60)) {
        survives(&pieces.concat());
    }

    /// A built-in template with one stretch taken out, doubled or replaced.
    #[test]
    fn any_change_survives(from in 0.0..1.0_f64, length in 0_usize..80, piece in proptest::sample::select(&PIECES[..]), twice in any::<bool>()) {
        let source = of(Kind::DischargeLetter, Language::En).source;
        let whole = |at: usize| (0..=at.min(source.len())).rev().find(|at| source.is_char_boundary(*at)).unwrap_or(0);
        let start = whole((source.len() as f64 * from) as usize);
        let end = whole(start + length);
        let stretch = if twice { &source[start..end] } else { "" };
        survives(&format!("{}{stretch}{piece}{stretch}{}", &source[..start], &source[end..]));
    }
}
