//! What belongs to the signature: usual answers that were filled in, and the findings that the entry was signed in
//! spite of.

use evengap_case::sections::Override;
use evengap_case::{Case, SectionName, dictionary};
use serde_json::{Map, Value, json};

use super::Printer;

/// Adds them to `derived`.
pub(super) fn add(root: &mut Map<String, Value>, case: &Case, printer: &Printer) {
    let open: Vec<_> = case.unconfirmed().collect();
    let filled = |is_open: bool| -> Vec<&str> {
        let sections = SectionName::ALL.iter().filter(|name| case.filled.contains(name));
        sections.filter(|name| open.contains(name) == is_open).map(|name| name.words()).collect()
    };
    let added = [
        ("filled_confirmed", json!(filled(false))),
        ("filled_unconfirmed", json!(filled(true))),
        ("signed_in_spite_of", case.overrides.iter().map(|one| row(one, printer)).collect()),
    ];
    if let Some(Value::Object(derived)) = root.get_mut("derived") {
        derived.extend(added.map(|(name, value)| (name.to_owned(), value)));
    }
}

fn row(one: &Override, printer: &Printer) -> Value {
    json!({
        "finding": one.finding,
        "reason": one.reason,
        "by": one.by,
        "on": one.at.map(|at| printer.date(at.0.date())),
        "at": one.at.map(|at| printer.clock(at.0.time())),
        "rule": one.rule.as_deref().map(|rule| rule.replace('_', " ")),
        "about": one.paths.iter().map(|path| place(path)).collect::<Vec<_>>(),
    })
}

/// Names the place of an answer: `components[2].lot` becomes "Components, no. 3, Lot". What is no place of an entry
/// stays as it is.
fn place(path: &str) -> String {
    let mut so_far = String::new();
    let mut words = Vec::new();
    for step in path.split('.') {
        let (name, index) = match step.split_once('[') {
            Some((name, index)) => (name, index.strip_suffix(']').and_then(|index| index.parse::<u32>().ok())),
            None => (step, None),
        };
        so_far.push_str(if so_far.is_empty() { "" } else { "." });
        so_far.push_str(name);
        match (dictionary::field(&so_far), step.contains('['), index) {
            (Some(field), false, _) => words.push(field.label.to_owned()),
            (Some(field), true, Some(index)) => {
                words.extend([field.label.to_owned(), format!("no. {}", u64::from(index) + 1)]);
            }
            _ => return path.to_owned(),
        }
    }
    words.join(", ")
}
