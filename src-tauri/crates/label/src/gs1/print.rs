//! The printed form `(01)…(10)…` of a GS1 label.

use super::split::{begins_element, looks_like_element};
use crate::{Label, Scheme};

const SEPARATOR: char = '\u{1d}';

/// Writes a GS1 label in its printed form; other labels come back as scanned.
///
/// Reading it back gives the same elements. Where a value itself holds something like `(21)` or begins or ends
/// in a blank, every element ends in a separator (ASCII 29) so that the value stays one.
#[must_use]
pub fn printed(label: &Label) -> String {
    if label.scheme != Scheme::Gs1 {
        return label.raw.clone();
    }
    let ambiguous = label.elements.iter().any(|element| {
        !looks_like_element(&element.code)
            || element.value.trim_matches(' ') != element.value
            || element.value.match_indices('(').any(|(at, _)| begins_element(&element.value[at..]))
    });
    let mut text = String::with_capacity(label.raw.len() + 8 * label.elements.len());
    if label.elements.first().is_some_and(|first| first.code.is_empty()) {
        text.push(SEPARATOR);
    }
    for element in &label.elements {
        text.push('(');
        text.push_str(&element.code);
        text.push(')');
        text.push_str(&element.value);
        if ambiguous {
            text.push(SEPARATOR);
        }
    }
    text
}
