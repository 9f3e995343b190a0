//! The view's contract for people: every name that a template may use, its meaning, and what it holds
//! for one entry.

use std::collections::BTreeSet;

use evengap_case::Case;
use evengap_case::dictionary::Kind as Answer;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use ts_rs::TS;

use super::filters::{FILTERS, Filter};
use super::shape::{Shape, VIEW};
use crate::view::meanings::Sort;
use crate::{Kind, Occasion};

/// What a name of the view holds. Everything but lists, groups and `truth` is words, ready to print.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, TS)]
#[serde(rename_all = "snake_case")]
#[ts(rename = "ViewNameWhat")]
pub enum What {
    /// Words.
    Text,
    /// A number as it was recorded.
    Number,
    /// A day in the habit of clinic and language.
    Date,
    /// A time of day.
    Time,
    /// `yes` or `no`.
    YesNo,
    /// A code that does not depend on the language.
    Code,
    /// True or false: to be asked, not printed.
    Truth,
    /// Names that belong together.
    Record,
    /// Any number of the same: to go through with `for`.
    List,
}

impl What {
    pub(super) fn of_answer(kind: &Answer) -> Self {
        match kind {
            Answer::Text | Answer::Id | Answer::Component | Answer::Code { .. } => Self::Text,
            Answer::Whole | Answer::Number => Self::Number,
            Answer::YesNo => Self::YesNo,
            Answer::Date => Self::Date,
            Answer::Time => Self::Time,
            Answer::Record { .. } => Self::Record,
            Answer::List { .. } => Self::List,
        }
    }

    pub(super) fn of_added(sort: &Sort, shape: &Shape) -> Self {
        match (sort, shape) {
            (Sort::Text, _) => Self::Text,
            (Sort::Truth, _) => Self::Truth,
            (Sort::OneOf(_), _) => Self::Code,
            (_, Shape::Record(_)) => Self::Record,
            (_, Shape::List(_)) => Self::List,
            _ => Self::Text,
        }
    }
}

/// One name that a template may use.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, TS)]
pub struct ViewName {
    /// The name as a template writes it; `components[].lot` is `lot` of each item of the list.
    pub name: String,
    /// What it holds.
    pub what: What,
    /// What it means: label, unit and help of the answer.
    pub meaning: String,
    /// What it holds for an entry, in words; none where nothing is recorded or no entry was given.
    pub example: Option<String>,
}

/// One filter that a template may use.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, TS)]
pub struct FilterName {
    /// Its name.
    pub name: String,
    /// How a template writes it.
    pub written: String,
    /// What it does.
    pub meaning: String,
}

/// Lists every filter that templates may use.
pub fn filters() -> Vec<FilterName> {
    let words = |filter: &Filter| FilterName {
        name: filter.name.to_owned(),
        written: filter.written.to_owned(),
        meaning: filter.meaning.to_owned(),
    };
    FILTERS.iter().map(words).collect()
}

/// Lists every name that a template of this kind of paper may use, without examples.
pub fn contract(_kind: Kind) -> Vec<ViewName> {
    let mut names = Vec::new();
    list(&VIEW, "", None, &mut names);
    names
}

/// Lists every name that a template of this kind may use, with what it holds for an entry.
pub fn examples(case: &Case, kind: Kind, occasion: &Occasion) -> Vec<ViewName> {
    let (view, _) = crate::render::view_of(case, kind, occasion);
    let mut names = Vec::new();
    list(&VIEW, "", Some(&view), &mut names);
    names
}

fn list(record: &Shape, before: &str, value: Option<&Value>, names: &mut Vec<ViewName>) {
    for part in record.parts() {
        let name = format!("{before}{}", part.name);
        let value = value.and_then(|value| value.get(&part.name));
        let example = value.and_then(|value| in_words(&part.shape, value));
        names.push(ViewName { name: name.clone(), what: part.what, meaning: part.meaning.clone(), example });
        match &part.shape {
            Shape::Record(_) => list(&part.shape, &format!("{name}."), value, names),
            Shape::List(of) => list(of, &format!("{name}[]."), value.and_then(|value| value.get(0)), names),
            _ => {}
        }
    }
}

/// Shows a value in one line; a list by its texts or by how many items it has.
fn in_words(shape: &Shape, value: &Value) -> Option<String> {
    match (shape, value) {
        (_, Value::String(text)) => Some(text.clone()),
        (_, Value::Bool(truth)) => Some(truth.to_string()),
        (_, Value::Number(number)) => Some(number.to_string()),
        (Shape::List(of), Value::Array(items)) if of.is_text() => {
            let texts: Vec<_> = items.iter().filter_map(Value::as_str).collect();
            (!texts.is_empty()).then(|| texts.join(" · "))
        }
        (_, Value::Array(items)) => match items.len() {
            0 => None,
            1 => Some("1 item".to_owned()),
            many => Some(format!("{many} items")),
        },
        _ => None,
    }
}

/// Lists the names that the view of an entry really has; a list without items shows none of theirs.
///
/// The contract is written by hand in part; tests compare it with this.
#[doc(hidden)]
pub fn names_in_view(case: &Case, kind: Kind, occasion: &Occasion) -> BTreeSet<String> {
    fn walk(value: &Value, name: &str, names: &mut BTreeSet<String>) {
        match value {
            Value::Object(map) => {
                for (key, value) in map {
                    let name = if name.is_empty() { key.clone() } else { format!("{name}.{key}") };
                    walk(value, &name, names);
                    names.insert(name);
                }
            }
            Value::Array(items) => items.iter().for_each(|item| walk(item, &format!("{name}[]"), names)),
            _ => {}
        }
    }
    let mut names = BTreeSet::new();
    walk(&crate::render::view_of(case, kind, occasion).0, "", &mut names);
    names
}
