//! What the checks pass, the template library runs: templates that are grown at random, well formed,
//! from the contract's own names.

use evengap_papers::template::{What, check, contract};
use evengap_papers::{Kind, Language};

use super::{demo, written};

/// Grows templates; the same seed grows the same one.
struct Grower {
    seed: u64,
    texts: Vec<String>,
    /// Lists of texts, for filters, and lists of records with the texts in each.
    text_lists: Vec<String>,
    lists: Vec<(String, Vec<String>)>,
    /// Names that open loops gave.
    items: Vec<String>,
    names: usize,
}

impl Grower {
    fn new(seed: u64) -> Self {
        let names = contract(Kind::DischargeLetter);
        let is_text = |what: What| !matches!(what, What::List | What::Record | What::Truth);
        let outside = |name: &str| !name.contains("[]");
        let inside = |list: &str| -> Vec<String> {
            let list = format!("{list}[].");
            let items = names.iter().filter(|name| is_text(name.what));
            let items = items.filter_map(|name| name.name.strip_prefix(&list).map(str::to_owned));
            items.filter(|name| !name.contains(['.', '['])).collect()
        };
        let lists = names.iter().filter(|name| name.what == What::List && outside(&name.name));
        let (text_lists, lists): (Vec<_>, Vec<_>) =
            lists.map(|list| (list.name.clone(), inside(&list.name))).partition(|(_, inside)| inside.is_empty());
        Self {
            seed: seed.wrapping_mul(7919).wrapping_add(1),
            texts: names.iter().filter(|n| is_text(n.what) && outside(&n.name)).map(|n| n.name.clone()).collect(),
            text_lists: text_lists.into_iter().map(|(name, _)| name).collect(),
            lists,
            items: Vec::new(),
            names: 0,
        }
    }

    fn below(&mut self, limit: usize) -> usize {
        self.seed = self.seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((self.seed >> 33) as usize) % limit
    }

    fn one<T: Clone>(&mut self, of: &[T]) -> T {
        of[self.below(of.len())].clone()
    }

    fn text(&mut self) -> String {
        let from = if self.items.is_empty() || self.below(2) == 0 { self.texts.clone() } else { self.items.clone() };
        self.one(&from)
    }

    fn text_list(&mut self) -> String {
        let lists = self.text_lists.clone();
        self.one(&lists)
    }

    /// A question, or a text where `prints`.
    fn expression(&mut self, depth: usize, prints: bool) -> String {
        let text = self.text();
        match self.below(if depth == 0 {
            3
        } else if prints {
            6
        } else {
            11
        }) {
            0 => text,
            1 => self.one(&["\"a\"", "\"\\n\"", "'# x'", "`|`"]).to_owned(),
            2 => format!(
                "{text} | {}",
                self.one(&["cap", "stop", "sentence", "upper", "lower", "lines", "clauses(start=\"a\")"])
            ),
            3 => format!("{text} or {}", self.expression(depth - 1, prints)),
            4 => format!("({})", self.expression(depth - 1, prints)),
            5 => format!("{text} ~ {} ~ \"x\"", self.text()),
            6 => format!("{text} and {}", self.expression(depth - 1, prints)),
            7 => format!("not {text}"),
            8 => format!("{text} {} {}", self.one(&["in", "not in"]), self.text_list()),
            9 => format!(
                "{text} is {}",
                self.one(&["none", "not none", "containing(words=\"a\")", "not starting_with(words='b')"])
            ),
            _ => format!("{text} != {}", self.text()),
        }
    }

    fn body(&mut self, depth: usize) -> String {
        (0..=self.below(3)).map(|_| self.node(depth)).collect()
    }

    fn node(&mut self, depth: usize) -> String {
        let (open, close) = (self.one(&["{%", "{%-"]), self.one(&["%}", "-%}"]));
        let list = self.text_list();
        match self.below(if depth == 0 { 4 } else { 8 }) {
            0 => self
                .one(&["\n", "\n\n", " text ", "- ", "# ", "> ", "| a | b |\n|---|---|\n", "\n@cautions\n", "```\n"])
                .to_owned(),
            1 => format!("{{{{- {} }}}}", self.expression(2, true)),
            2 => format!(
                "{{{{ {list} | {} -}}}}",
                self.one(&["and_list", "join(sep=\"; \")", "length", "and_list | cap"])
            ),
            3 => {
                self.names += 1;
                let (name, text) = (format!("s{}", self.names), self.text());
                format!("{open} set {name} = {text} {close}{{{{ {name} }}}}")
            }
            4 | 5 => {
                let (question, yes, no) = (self.expression(3, false), self.body(depth - 1), self.body(depth - 1));
                let other = format!("{open} elif {} {close}{}", self.expression(1, false), self.body(depth - 1));
                format!("{open} if {question} {close}{yes}{other}{open} else {close}{no}{open} endif {close}")
            }
            6 => {
                let lists = self.lists.clone();
                let (list, inside) = self.one(&lists);
                self.names += 1;
                let (item, outer) = (format!("i{}", self.names), self.items.len());
                self.items.extend(inside.iter().map(|name| format!("{item}.{name}")));
                let body = self.body(depth - 1);
                self.items.truncate(outer);
                let counted = "{% if loop.first or loop.index > 2 %}{{ loop.length }}{% endif %}";
                let none = self.body(depth - 1);
                format!(
                    "{open} for {item} in {list} {close}{body}{counted}{open} else {close}{none}{open} endfor {close}"
                )
            }
            _ => {
                let filters = [
                    "lines",
                    "paragraph",
                    "boxed",
                    "section(title=T, level=3)",
                    "row(label=T)",
                    "clauses(sep=T)",
                    "lines | boxed",
                ];
                let filter = self.one(&filters).replace('T', &self.text());
                format!("{open} filter {filter} {close}{}{open} endfilter {close}", self.body(depth - 1))
            }
        }
    }
}

#[test]
fn what_is_passed_runs() {
    let mut passed = 0;
    for seed in 0..150 {
        let source = Grower::new(seed).body(4);
        let flaws = check(Kind::DischargeLetter, Language::En, &source, &[("whole knee", demo("whole-knee-cemented"))]);
        for flaw in &flaws {
            // What a random template may well do wrong; every other flaw would be a disagreement.
            let known = [
                "@cautions stands alone",
                "The cautions cannot stand inside",
                "A block of code or HTML",
                "too often",
                "This row of a table",
                "prints nothing of the entry",
            ];
            assert!(known.iter().any(|known| flaw.message.contains(known)), "{flaw} in {source}");
        }
        if flaws.is_empty() {
            passed += 1;
            let paper = written(Kind::DischargeLetter, &source).unwrap();
            assert!(paper.text().contains("if you cough up blood"), "the cautions stand in {source}");
        }
    }
    assert!(passed > 50, "most templates that are grown pass: {passed}");
}
