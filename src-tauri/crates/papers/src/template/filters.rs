//! The few filters that templates use to set sentences: the only ones there are. None reads anything
//! but its argument, and each accounts for the text that it makes.
//!
//! Invariant: typed text that reaches a filter's option is escaped; only words that stand in quotation
//! marks in the template itself may hold Markdown.

use tera::{Error, Kwargs, State, Tera, TeraResult, Value};

use super::budget;
use super::escape::{self, guard_start};

/// A filter, as a template may use it.
pub(super) struct Filter {
    pub name: &'static str,
    /// How it is written, and what it does, for the person who writes a template.
    pub written: &'static str,
    pub meaning: &'static str,
    pub takes: Takes,
    pub gives: Gives,
    pub options: &'static [FilterOption],
    /// It makes Markdown, so it stands around text: a typed value would show its signs as words.
    pub around: bool,
    run: fn(&Value, &Kwargs) -> TeraResult<Value>,
}

/// What a filter takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Takes {
    /// A text, or the text of a section.
    Text,
    /// A list of texts.
    Texts,
    /// Any list.
    List,
}

impl Takes {
    pub fn words(self) -> &'static str {
        match self {
            Self::Text => "a text",
            Self::Texts => "a list of texts",
            Self::List => "a list",
        }
    }
}

/// What a filter gives.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Gives {
    Text,
    Number,
}

/// An option of a filter.
pub(super) struct FilterOption {
    pub name: &'static str,
    pub needed: bool,
    /// It is the level of a heading; all others are texts.
    pub level: bool,
}

const fn may(name: &'static str) -> FilterOption {
    FilterOption { name, needed: false, level: false }
}

const fn must(name: &'static str) -> FilterOption {
    FilterOption { name, needed: true, level: false }
}

const LEVEL: FilterOption = FilterOption { name: "level", needed: false, level: true };

type Run = fn(&Value, &Kwargs) -> TeraResult<Value>;

/// Name, how it is written, what it does.
type Words = (&'static str, &'static str, &'static str);

const fn text((name, written, meaning): Words, options: &'static [FilterOption], run: Run) -> Filter {
    Filter { name, written, meaning, takes: Takes::Text, gives: Gives::Text, options, around: false, run }
}

const fn around(name: Words, options: &'static [FilterOption], run: Run) -> Filter {
    Filter { around: true, ..text(name, options, run) }
}

const fn list((name, written, meaning): Words, options: &'static [FilterOption], run: Run) -> Filter {
    Filter { name, written, meaning, takes: Takes::Texts, gives: Gives::Text, options, around: false, run }
}

const SECTION: Words = (
    "section",
    "{% filter section(title=\"…\", level=2) %} … {% endfilter %}",
    "Puts a heading over its text; an empty text prints nothing, not even the heading.",
);
const PARAGRAPH: Words =
    ("paragraph", "{% filter paragraph %} … {% endfilter %}", "Joins its text into one paragraph.");
const LINES: Words =
    ("lines", "{% filter lines %} … {% endfilter %}", "Keeps the lines that hold something: for lists and tables.");
const CLAUSES: Words = (
    "clauses",
    "{% filter clauses(start=\"…\", sep=\"; \", end=\".\") %} … {% endfilter %}",
    "Joins the lines that hold something; an empty text prints nothing, not even start and end.",
);
const ROW: Words = (
    "row",
    "{% filter row(label=\"…\") %} … {% endfilter %}",
    "Makes a row of a table of two columns; an empty text prints no row.",
);
const BOXED: Words = ("boxed", "{% filter boxed %} … {% endfilter %}", "Puts a frame round its text.");
const STOP: Words = ("stop", "{{ name | stop }}", "Ends a text with a full stop, where no mark stands there.");
const SENTENCE: Words =
    ("sentence", "{{ name | sentence }}", "Begins with a capital letter and ends with a full stop.");
const CAP: Words = ("cap", "{{ name | cap }}", "Begins with a capital letter.");
const UPPER: Words = ("upper", "{{ name | upper }}", "Writes all letters as capitals.");
const LOWER: Words = ("lower", "{{ name | lower }}", "Writes all letters small.");
const AND_LIST: Words =
    ("and_list", "{{ list | and_list(and=\"and\") }}", "Joins texts as in a sentence: \"a, b and c\".");
const JOIN: Words = ("join", "{{ list | join(sep=\", \") }}", "Joins texts with a sign or words between them.");
const LENGTH: Words = ("length", "{{ list | length }}", "Counts the items of a list.");

/// Every filter.
pub(super) const FILTERS: [Filter; 14] = [
    around(SECTION, &[must("title"), LEVEL], section),
    text(PARAGRAPH, &[], |body, _| changed(body, |text| guard_start(&one_line(text)))),
    text(LINES, &[], |body, _| changed(body, |text| kept_lines(text).join("\n"))),
    text(CLAUSES, &[may("start"), may("end"), may("sep")], clauses),
    around(ROW, &[must("label")], row),
    around(BOXED, &[], |body, _| changed(body, boxed)),
    text(STOP, &[], |text, _| changed(text, |text| with_stop(text.trim().to_owned()))),
    text(SENTENCE, &[], |text, _| changed(text, |text| with_stop(capital(text.trim())))),
    text(CAP, &[], |text, _| changed(text, capital)),
    text(UPPER, &[], |text, _| changed(text, str::to_uppercase)),
    text(LOWER, &[], |text, _| changed(text, str::to_lowercase)),
    list(AND_LIST, &[may("and")], and_list),
    list(JOIN, &[may("sep")], join),
    Filter { takes: Takes::List, gives: Gives::Number, ..list(LENGTH, &[], length) },
];

/// Marks words that stand in quotation marks in the template; the compiler adds it, no template may.
pub(super) const LITERAL: &str = "literal__";
/// Spends one round of a loop; the compiler adds it, no template may.
pub(super) const ROUND: &str = "round__";

/// Registers all filters and tests, and what the compiler adds.
pub(super) fn register(tera: &mut Tera) {
    for filter in FILTERS {
        let run = filter.run;
        tera.register_filter(filter.name, move |value: &Value, kwargs: Kwargs, _: &State| run(value, &kwargs));
    }
    tera.register_filter(LITERAL, |words: &Value, _: Kwargs, _: &State| {
        words.as_str().map_or_else(Value::none, Value::safe_string)
    });
    tera.register_function(ROUND, |kwargs: Kwargs, _: &State| -> TeraResult<&'static str> {
        let (body, at) = (kwargs.must_get::<usize>("body")?, kwargs.must_get::<usize>("at")?);
        budget::round(body, at).map_err(Error::message)?;
        Ok("")
    });
    let test = |tera: &mut Tera, name: &'static str, holds: fn(&str, &str) -> bool| {
        tera.register_test(name, move |value: &Value, kwargs: Kwargs, _: &State| -> TeraResult<bool> {
            let words: &str = kwargs.must_get("words")?;
            let Some(text) = value.as_str() else { return Ok(false) };
            budget::made(text.len()).map_err(Error::message)?;
            Ok(holds(text, words))
        });
    };
    test(tera, "starting_with", |text, words| text.starts_with(words));
    test(tera, "ending_with", |text, words| text.ends_with(words));
    test(tera, "containing", |text, words| text.contains(words));
}

/// Changes a text and keeps whether it is Markdown; what is not recorded stays not recorded.
fn changed(value: &Value, change: impl FnOnce(&str) -> String) -> TeraResult<Value> {
    if value.is_none() {
        return Ok(Value::none());
    }
    let Some(text) = value.as_str() else {
        return Err(Error::message(format!("This filter takes a text, not {}.", value.name())));
    };
    let text = change(text);
    budget::made(text.len()).map_err(Error::message)?;
    Ok(if value.is_safe() { Value::safe_string(&text) } else { Value::from(text) })
}

/// Gives an option's text, fit to stand beside the filter's text: where that is Markdown, a typed
/// option is escaped.
fn option(kwargs: &Kwargs, name: &'static str, beside: &Value) -> TeraResult<Option<String>> {
    let Some(value) = kwargs.get::<&Value>(name)? else { return Ok(None) };
    if value.is_none() {
        return Ok(Some(String::new()));
    }
    let text = value.to_string();
    budget::made(text.len()).map_err(Error::message)?;
    Ok(Some(if beside.is_safe() && !value.is_safe() { escape::escaped(&text) } else { text }))
}

fn one_line(text: &str) -> String {
    text.split_ascii_whitespace().collect::<Vec<_>>().join(" ")
}

fn kept_lines(text: &str) -> Vec<&str> {
    text.lines().map(str::trim).filter(|line| !line.is_empty()).collect()
}

/// Puts a heading over its body, or prints nothing where the body is empty.
fn section(body: &Value, kwargs: &Kwargs) -> TeraResult<Value> {
    let title = option(kwargs, "title", body)?.unwrap_or_default();
    let level = kwargs.get::<usize>("level")?.unwrap_or(2).clamp(1, 4);
    changed(body, |text| match text.trim() {
        "" => String::new(),
        text => format!("{} {title}\n\n{text}\n\n", "#".repeat(level)),
    })
}

/// Joins the lines of its body that hold something: "start first; second; third end".
///
/// An empty body prints nothing, not even `start` and `end`.
fn clauses(body: &Value, kwargs: &Kwargs) -> TeraResult<Value> {
    let part = |name| option(kwargs, name, body);
    let (start, end) = (part("start")?.unwrap_or_default(), part("end")?.unwrap_or_default());
    let sep = part("sep")?.unwrap_or_else(|| "; ".to_owned());
    let kept = body.as_str().map(kept_lines).unwrap_or_default();
    // The one filter that can make much out of little: asked before it does.
    budget::made(kept.len().saturating_mul(sep.len())).map_err(Error::message)?;
    changed(body, |_| if kept.is_empty() { String::new() } else { format!("{start}{}{end}", kept.join(&sep)) })
}

/// Makes a row of a two-column table; an empty body prints no row.
fn row(body: &Value, kwargs: &Kwargs) -> TeraResult<Value> {
    let label = option(kwargs, "label", body)?.unwrap_or_default();
    changed(body, |text| match one_line(text) {
        text if text.is_empty() => text,
        text => format!("| {label} | {text} |\n"),
    })
}

/// Frames its body as a box (a Markdown block quote); an empty body prints nothing.
fn boxed(text: &str) -> String {
    let framed: Vec<_> = text.trim().lines().map(|line| format!("> {line}").trim_end().to_owned()).collect();
    framed.join("\n")
}

pub(crate) fn with_stop(mut text: String) -> String {
    let last = text.chars().rev().find(|c| !matches!(c, '”' | '"' | ')' | '*'));
    if last.is_some_and(|last| !".!?:;…".contains(last)) || text.ends_with(')') {
        text.push('.');
    }
    text
}

fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map(|first| first.to_uppercase().chain(chars).collect()).unwrap_or_default()
}

fn texts(items: &Value) -> TeraResult<Vec<String>> {
    let items = items.as_array().ok_or_else(|| Error::message("This filter takes a list of texts."))?;
    let texts: Vec<_> = items.iter().filter(|item| !item.is_none()).map(Value::to_string).collect();
    budget::made(texts.iter().map(String::len).sum()).map_err(Error::message)?;
    Ok(texts)
}

/// Joins texts as in a sentence: "a", "a and b", "a, b and c".
fn and_list(items: &Value, kwargs: &Kwargs) -> TeraResult<Value> {
    let and = option(kwargs, "and", items)?.unwrap_or_else(|| "and".to_owned());
    Ok(Value::from(match texts(items)?.as_slice() {
        [] => String::new(),
        [only] => only.clone(),
        [firsts @ .., last] => format!("{} {and} {last}", firsts.join(", ")),
    }))
}

/// Joins texts with a sign or words between them.
fn join(items: &Value, kwargs: &Kwargs) -> TeraResult<Value> {
    let sep = option(kwargs, "sep", items)?.unwrap_or_else(|| ", ".to_owned());
    let texts = texts(items)?;
    budget::made(texts.len().saturating_mul(sep.len())).map_err(Error::message)?;
    Ok(Value::from(texts.join(&sep)))
}

fn length(items: &Value, _: &Kwargs) -> TeraResult<Value> {
    Ok(Value::from(items.len().unwrap_or(0)))
}
