//! `reckon`: one reckoning from named inputs, or the list of them all.

use std::io::{self, Read};

use evengap_desk::{Desk, DeskError, Input, Reckoning};
use serde_json::{Error, Value, json};

use crate::answer::Answer;
use crate::arguments::Reckon;

/// More than any text whose readability is asked for; keeps an endless stream from being read whole.
const MOST_BYTES: u64 = 16 * 1024 * 1024;

/// Computes a reckoning, or lists them.
pub fn reckon(desk: &Desk, asked: Reckon) -> Result<Answer, DeskError> {
    let Some(name) = asked.name else {
        if !asked.list {
            return Err(DeskError::failed("Name a reckoning, or list them all with --list."));
        }
        let reckonings = desk.reckonings();
        let text = reckonings.iter().map(entry).collect::<Vec<_>>().join("\n");
        return Ok(Answer::new(text, json!({ "reckonings": reckonings })));
    };
    let text = match asked.json.as_deref() {
        None | Some("") => return Err(how_to_give(desk, &name)),
        Some("-") => from_standard_input()?,
        Some(text) => text.to_owned(),
    };
    let inputs: Value = serde_json::from_str(&text).map_err(|error| not_json(&text, &error))?;
    Ok(Answer::of_json(json!(desk.reckon(&name, &inputs)?)))
}

/// Reads standard input as text.
pub fn from_standard_input() -> Result<String, DeskError> {
    let mut text = String::new();
    io::stdin().lock().take(MOST_BYTES).read_to_string(&mut text).map_err(|error| {
        DeskError::failed(format!("Standard input could not be read: {error}. Give text in UTF-8."))
    })?;
    Ok(text)
}

fn entry(reckoning: &Reckoning) -> String {
    let mut text = format!("{}: {}\n  formula: {}\n", reckoning.name, reckoning.title, reckoning.formula);
    list(reckoning.inputs, "  ", &mut text);
    for source in reckoning.sources {
        text.push_str(&format!("  source: {source}\n"));
    }
    text
}

fn list(inputs: &[Input], indent: &str, text: &mut String) {
    for input in inputs {
        let unit = input.unit.map(|unit| format!(" ({unit})")).unwrap_or_default();
        let need = if input.required { "" } else { "optional; " };
        text.push_str(&format!("{indent}{}{unit}: {need}{}\n", input.name, input.about));
        list(input.lines, &format!("{indent}  "), text);
    }
}

fn how_to_give(desk: &Desk, name: &str) -> DeskError {
    let Some(reckoning) = desk.reckonings().iter().find(|reckoning| reckoning.name == name) else {
        return desk.reckon(name, &json!({})).err().unwrap_or_else(|| DeskError::failed("There is no such reckoning."));
    };
    let names: Vec<&str> = reckoning.inputs.iter().map(|input| input.name).collect();
    DeskError::failed(format!(
        "Give the inputs of {name} as --json '{{\"name\": value, …}}', or as --json - from standard input. It takes {}.",
        names.join(", ")
    ))
}

/// Says what is no JSON. A value such as NaN is named by the input that it stands behind.
fn not_json(text: &str, error: &Error) -> DeskError {
    let line = text.lines().nth(error.line().saturating_sub(1)).unwrap_or_default();
    let before = line.get(..error.column().min(line.len())).unwrap_or(line);
    let value_of = before.rsplit_once(':').filter(|(_, value)| !value.contains([',', '}', ']', '{', '[', '"']));
    let name = value_of.and_then(|(head, _)| head.trim_end().strip_suffix('"')?.rsplit_once('"'));
    DeskError::failed(match name {
        Some((_, name)) => format!("{name}: this is no value that JSON can hold ({error})."),
        None => format!("--json: the inputs are not JSON ({error}). Write them as '{{\"weight_kg\": 70}}'."),
    })
}
