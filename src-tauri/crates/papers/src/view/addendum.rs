//! What an addendum adds, for the paper that prints it: its words, and every answer that differs.

use evengap_case::{Case, Change, changes};
use serde_json::{Value, json};

use super::{Printer, in_words};
use crate::Occasion;

/// Gives `addendum` of the view; every name is there, with or without an addendum.
pub(super) fn of(case: &Case, occasion: &Occasion, now: &Printer) -> Value {
    let addendum = occasion.addendum.as_ref();
    let changed = addendum.map(|addendum| {
        let before = Printer { case: &addendum.before, ..*now };
        // Which sections were filled and confirmed is a state of the entry and no answer.
        let is_state = |change: &Change| ["filled", "confirmed"].iter().any(|state| change.path.starts_with(state));
        let answers = changes(&addendum.before, case).into_iter().filter(|change| !is_state(change));
        answers.map(|change| row(&change, &before, now)).collect::<Vec<_>>()
    });
    json!({
        "number": addendum.map(|addendum| addendum.number.to_string()),
        "text": addendum.map(|addendum| &addendum.text),
        "by": addendum.map(|addendum| &addendum.by),
        "on": addendum.map(|addendum| now.date(addendum.at.0.date())),
        "at": addendum.map(|addendum| now.clock(addendum.at.0.time())),
        "changes": changed.unwrap_or_default(),
    })
}

fn row(change: &Change, before: &Printer, now: &Printer) -> Value {
    let (section, answer) = change.labels.split_first().map_or(("", [].as_slice()), |(first, rest)| (first, rest));
    let named = component(change, before, now);
    json!({
        "section": section,
        "answer": named.iter().chain(answer).map(String::as_str).collect::<Vec<_>>().join(", "),
        "before": change.before.as_ref().and_then(|value| written(change, value, before)),
        "now": change.now.as_ref().and_then(|value| written(change, value, now)),
    })
}

/// Names the component that a change is about: as it is now, or as it was where it is gone.
fn component(change: &Change, before: &Printer, now: &Printer) -> Option<String> {
    let index = change.path.strip_prefix("components[")?.split(']').next()?.parse().ok()?;
    now.named_component(index).or_else(|| before.named_component(index))
}

/// Writes a value as the papers do, with its unit.
fn written(change: &Change, value: &Value, printer: &Printer) -> Option<String> {
    let words = match change.kind {
        Some(kind) => in_words(kind, Some(value), printer, None),
        None => Value::Null,
    };
    let words = match words {
        Value::String(words) => words,
        // A group without answers, or a key that the dictionary does not know.
        _ => value.to_string(),
    };
    Some(match change.unit {
        Some("°") => format!("{words}°"),
        Some(unit) => format!("{words} {unit}"),
        None => words,
    })
}
