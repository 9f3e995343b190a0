//! Reads an interchange file: JSON in, an entry or all its problems at once out.
//!
//! The dictionary is the judge of shape, codes, dates and limits. Unknown keys are kept and
//! reported; blanks are taken as "not recorded". It does not ask whether the entry makes sense.

use std::fmt;

use serde::Serialize;
use serde_json::{Map, Value};
use ts_rs::TS;

use crate::dictionary::{Field, Kind};
use crate::{Case, CaseId, Date, FORMAT, LocalTime};

/// An entry that was read, with what came along.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// The entry.
    pub case: Case,
    /// Paths of the keys that were kept but are not known, in the order of the file.
    pub unknown: Vec<String>,
}

/// One thing that keeps an entry from being read.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct Problem {
    /// Where, such as `components[2].expires_on`; empty for the file as a whole.
    pub path: String,
    /// What is wrong and what to write instead, one sentence.
    pub message: String,
}

/// Everything that keeps an entry from being read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub struct Refusal {
    /// At least one problem.
    pub problems: Vec<Problem>,
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, problem) in self.problems.iter().enumerate() {
            if i > 0 {
                writeln!(f)?;
            }
            match problem.path.as_str() {
                "" => write!(f, "{}", problem.message)?,
                path => write!(f, "{path}: {}", problem.message)?,
            }
        }
        Ok(())
    }
}

/// Reads an interchange file.
///
/// # Errors
/// All problems at once, each with its path.
pub fn read(json: &str) -> Result<Reading, Refusal> {
    let value = serde_json::from_str(json.trim_start_matches('\u{feff}')).map_err(|error| {
        whole_file(format!("This is not JSON: {error}. Give a case file as `evengap schema` describes it."))
    })?;
    read_value(value)
}

/// Reads an entry that is already a JSON value.
///
/// # Errors
/// All problems at once, each with its path.
pub fn read_value(value: Value) -> Result<Reading, Refusal> {
    let Value::Object(mut map) = value else {
        return Err(whole_file("A case file is one JSON object; this is something else.".into()));
    };
    match map.get("format") {
        Some(Value::String(format)) if format == FORMAT => {}
        Some(Value::String(format)) if format.starts_with("evengap-case/") => {
            return Err(problem(
                "format",
                format!("this file is written in {format}; this program reads {FORMAT}. Use a newer Evengap."),
            ));
        }
        _ => return Err(problem("format", format!("a case file says \"format\": \"{FORMAT}\"; add that line."))),
    }
    let mut walk = Walk::default();
    walk.record(&mut map, Case::FIELDS, "");
    if !walk.problems.is_empty() {
        return Err(Refusal { problems: walk.problems });
    }
    match serde_json::from_value(Value::Object(map)) {
        Ok(case) => Ok(Reading { case, unknown: walk.unknown }),
        // Unreachable as long as dictionary and types are made together; a sentence all the same.
        Err(error) => Err(whole_file(format!("The entry could not be read: {error}."))),
    }
}

fn whole_file(message: String) -> Refusal {
    problem("", message)
}

fn problem(path: &str, message: String) -> Refusal {
    Refusal { problems: vec![Problem { path: path.to_owned(), message }] }
}

#[derive(Default)]
struct Walk {
    problems: Vec<Problem>,
    unknown: Vec<String>,
}

impl Walk {
    fn wrong(&mut self, path: &str, message: String) {
        self.problems.push(Problem { path: path.to_owned(), message });
    }

    /// Checks a record in place and takes out blanks.
    fn record(&mut self, map: &mut Map<String, Value>, fields: &[Field], path: &str) {
        let mut blank = Vec::new();
        for (key, value) in map.iter_mut() {
            let here = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
            match fields.iter().find(|field| field.name == key) {
                None => self.unknown.push(here),
                Some(_) if is_blank(value) => blank.push(key.clone()),
                Some(field) => {
                    self.value(value, &field.kind, &here);
                    self.limits(value, field, &here);
                }
            }
        }
        for key in blank {
            map.remove(&key);
        }
    }

    fn limits(&mut self, value: &Value, field: &Field, path: &str) {
        if let (Some((least, most)), Some(number)) = (field.limits, value.as_f64())
            && !(least..=most).contains(&number)
        {
            self.wrong(path, format!("{} goes from {least} to {most}; {number} is not on that scale.", field.label));
        }
    }

    fn value(&mut self, value: &mut Value, kind: &Kind, path: &str) {
        match (kind, &mut *value) {
            (Kind::Record { fields }, Value::Object(map)) => self.record(map, fields, path),
            (Kind::List { of }, Value::Array(items)) => {
                for (i, item) in items.iter_mut().enumerate() {
                    self.value(item, of, &format!("{path}[{i}]"));
                }
            }
            (Kind::Text, Value::String(_)) | (Kind::YesNo, Value::Bool(_)) => {}
            (Kind::Number, Value::Number(number)) if number.as_f64().is_some_and(f64::is_finite) => {}
            (Kind::Whole | Kind::Component, Value::Number(number)) if fits_whole(number) => {}
            (Kind::Date, Value::String(text)) => self.parsed(text.parse::<Date>(), path),
            (Kind::Time, Value::String(text)) => self.parsed(text.parse::<LocalTime>(), path),
            (Kind::Id, Value::String(text)) => self.parsed(text.parse::<CaseId>(), path),
            (Kind::Code { codes }, Value::String(text)) => {
                if !codes.iter().any(|code| code.code == text) {
                    let known: Vec<_> = codes.iter().map(|code| code.code).collect();
                    self.wrong(path, format!("“{text}” is not one of the choices: {}.", known.join(", ")));
                }
            }
            (kind, other) => self.wrong(path, format!("{} is needed here, not {}.", wanted(kind), shown(other))),
        }
    }

    fn parsed<T>(&mut self, result: Result<T, crate::NotReadable>, path: &str) {
        if let Err(error) = result {
            self.wrong(path, format!("{error}."));
        }
    }
}

fn fits_whole(number: &serde_json::Number) -> bool {
    number.as_u64().is_some_and(|n| u32::try_from(n).is_ok())
}

fn is_blank(value: &Value) -> bool {
    match value {
        Value::Null => true,
        Value::String(text) => text.trim().is_empty(),
        _ => false,
    }
}

fn wanted(kind: &Kind) -> &'static str {
    match kind {
        Kind::Text => "a text in quotes",
        Kind::Whole => "a whole number, zero or more,",
        Kind::Number => "a number",
        Kind::YesNo => "true or false",
        Kind::Date => "a date in quotes (YYYY-MM-DD)",
        Kind::Time => "a date and time in quotes (YYYY-MM-DDTHH:MM)",
        Kind::Id => "a case identifier in quotes (UUID)",
        Kind::Component => "the position of a component (0 for the first)",
        Kind::Code { .. } => "one of the choices, in quotes,",
        Kind::Record { .. } => "a group of answers in braces",
        Kind::List { .. } => "a list in brackets",
    }
}

fn shown(value: &Value) -> String {
    match value {
        Value::Object(_) => "a group in braces".into(),
        Value::Array(_) => "a list".into(),
        Value::String(text) if text.chars().count() > 40 => {
            format!("“{}…”", text.chars().take(40).collect::<String>())
        }
        Value::String(text) => format!("“{text}”"),
        other => other.to_string(),
    }
}
