//! The file of an addendum: words, who and when, and the answers that differ from then on.
//!
//! The answers come as a JSON merge patch (RFC 7396). The patched entry goes through the same reader as
//! every other entry, so a patch can break nothing that a file could not.

use serde_json::{Map, Value};

use crate::reader::{Problem, Reading, Refusal, read_value};
use crate::{Case, LocalTime};

/// An addendum that was read, and the entry as it is from then on.
#[derive(Debug, Clone, PartialEq)]
pub struct AddendumReading {
    /// What it says and why it was added.
    pub text: String,
    /// Who added it.
    pub by: String,
    /// When.
    pub at: LocalTime,
    /// The new version of the entry.
    pub case: Case,
    /// Paths of the keys of the new version that were kept but are not known.
    pub unknown: Vec<String>,
}

/// Reads the file of an addendum to `before`: `{ "text", "by", "at", "values" }`.
///
/// `values` is a JSON merge patch on the entry; an addendum of words alone leaves it out.
///
/// # Errors
/// All problems at once, each with its path.
pub fn read_addendum(json: &str, before: &Case) -> Result<AddendumReading, Refusal> {
    let value: Value = serde_json::from_str(json.trim_start_matches('\u{feff}')).map_err(|error| {
        whole_file(format!(
            "This is not JSON: {error}. An addendum file is {{ \"text\": …, \"by\": …, \"at\": …, \"values\": … }}."
        ))
    })?;
    let Value::Object(map) = value else {
        return Err(whole_file("An addendum file is one JSON object; this is something else.".into()));
    };
    let mut problems = Vec::new();
    for key in map.keys().filter(|key| !["text", "by", "at", "values"].contains(&key.as_str())) {
        problems.push(problem(key, "An addendum file has no such name; it has text, by, at and values."));
    }
    let text = words(&map, "text", "Say here what is added and why.", &mut problems);
    let by = words(&map, "by", "Name here who adds it.", &mut problems);
    let at = words(&map, "at", "Give here when it was added, as YYYY-MM-DDTHH:MM.", &mut problems);
    let at = match at.parse::<LocalTime>() {
        Ok(at) => Some(at),
        Err(error) if !at.is_empty() => {
            problems.push(problem("at", &format!("{error}.")));
            None
        }
        Err(_) => None,
    };
    let reading = match map.get("values").unwrap_or(&Value::Null) {
        Value::Null => Ok(Reading { case: before.clone(), unknown: Vec::new() }),
        Value::Object(patch) => patched(before, patch),
        _ => Err(Refusal { problems: vec![problem("", "A group of answers in braces is needed here.")] }),
    };
    match (reading, at) {
        (Ok(Reading { case, unknown }), Some(at)) if problems.is_empty() => {
            Ok(AddendumReading { text, by, at, case, unknown })
        }
        (reading, _) => {
            let inside = reading.err().map(|refusal| refusal.problems).unwrap_or_default();
            problems.extend(inside.into_iter().map(|Problem { path, message }| Problem {
                path: if path.is_empty() { "values".into() } else { format!("values.{path}") },
                message,
            }));
            Err(Refusal { problems })
        }
    }
}

/// Lays a patch over an entry and reads what comes out.
fn patched(before: &Case, patch: &Map<String, Value>) -> Result<Reading, Refusal> {
    if patch.get("id").is_some_and(|id| id.as_str() != Some(&before.id.to_string())) {
        return Err(Refusal {
            problems: vec![problem(
                "id",
                "An addendum belongs to one entry and cannot change its identifier; take it out.",
            )],
        });
    }
    let mut value = before.to_value();
    merge_patch(&mut value, &Value::Object(patch.clone()));
    read_value(value)
}

/// Lays a JSON merge patch over a value, as RFC 7396 writes it down: groups are merged name by name,
/// `null` takes a name out, everything else (lists too) takes the place of what was there.
pub fn merge_patch(target: &mut Value, patch: &Value) {
    let Value::Object(patch) = patch else {
        *target = patch.clone();
        return;
    };
    if !target.is_object() {
        *target = Value::Object(Map::new());
    }
    let Value::Object(map) = target else { return };
    for (name, value) in patch {
        if value.is_null() {
            map.shift_remove(name);
        } else {
            merge_patch(map.entry(name.clone()).or_insert(Value::Null), value);
        }
    }
}

fn words(map: &Map<String, Value>, name: &str, wanted: &str, problems: &mut Vec<Problem>) -> String {
    match map.get(name) {
        Some(Value::String(text)) if !text.trim().is_empty() => text.clone(),
        _ => {
            problems.push(problem(name, wanted));
            String::new()
        }
    }
}

fn problem(path: &str, message: &str) -> Problem {
    Problem { path: path.to_owned(), message: message.to_owned() }
}

fn whole_file(message: String) -> Refusal {
    Refusal { problems: vec![Problem { path: String::new(), message }] }
}
