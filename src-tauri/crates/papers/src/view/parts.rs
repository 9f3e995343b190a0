//! The components as papers need them: numbered, with the mark of their label, and sorted by what became
//! of them.

use evengap_case::sections::Fate;
use evengap_case::{Case, LocalTime};
use serde_json::{Map, Value, json};

use crate::drawings::{mark_name, mark_of};

/// Adds the lists of components to `derived`.
pub(super) fn add(root: &mut Map<String, Value>, case: &Case, written: LocalTime) {
    let parts = numbered(root, case, written);
    let with = |fate: Option<Fate>| -> Value {
        let of_fate = parts.iter().zip(&case.components).filter(|(_, component)| component.fate == fate);
        of_fate.map(|(part, _)| part.clone()).collect()
    };
    let lists = [
        ("implanted", with(Some(Fate::Implanted))),
        ("removed", with(Some(Fate::Removed))),
        ("opened_not_used", with(Some(Fate::OpenedNotUsed))),
        ("fate_not_recorded", with(None)),
        ("components", Value::Array(parts)),
    ];
    if let Some(Value::Object(derived)) = root.get_mut("derived") {
        derived.extend(lists.map(|(name, list)| (name.to_owned(), list)));
    }
}

fn numbered(root: &Map<String, Value>, case: &Case, written: LocalTime) -> Vec<Value> {
    let words = root.get("components").and_then(Value::as_array).map(Vec::as_slice).unwrap_or_default();
    let parts = words.iter().zip(&case.components).enumerate();
    parts
        .map(|(index, (words, component))| {
            let mut part = words.clone();
            let mark = mark_of(component, written);
            part["number"] = json!((index + 1).to_string());
            part["mark"] = json!(mark.is_ok().then(|| mark_name(index)));
            part["mark_kind"] = json!(mark.as_ref().ok().map(|mark| mark.kind));
            part["mark_words"] = json!(mark.as_ref().ok().map(|mark| &mark.words));
            part["no_mark_because"] = json!(mark.as_ref().err());
            part
        })
        .collect()
}
