//! Every recorded value reaches the note: each value of each demo case is changed, one at a time,
//! and each change must change the operative note. So must each answer of the dictionary, recorded
//! in a demo or not.

use evengap_case::dictionary::{self, Field, Kind as AnswerKind};
use evengap_case::{Case, Date, FORMAT, LocalTime, read_value};
use evengap_papers::Kind;
use evengap_tests::{demos, paper};
use serde_json::{Value, json};

/// Values that the note does not print, and why. An exception that is not needed fails the test.
const EXCEPTIONS: [(&str, &str); 8] = [
    ("format", "the name of the file format, nothing clinical"),
    ("id", "identifies the entry, not the knee; the identity on each page is the patient's"),
    ("created_at", "when the entry was begun; the note prints when it was written"),
    ("confirmed", "which sections the surgeon has confirmed: a state of the entry"),
    ("discharge", "recorded days after the note has left theatre; the discharge letter prints it"),
    ("visits", "recorded weeks after the note; the follow-up is not part of an operative note"),
    ("end", "closes the follow-up, years after the note"),
    (
        "components.scan.raw",
        "the label as scanned; reference, lot, serial, dates and device identifier are printed from it",
    ),
];

fn exception(path: &str) -> Option<usize> {
    let plain: String =
        path.split('.').map(|step| step.split('[').next().unwrap_or(step)).collect::<Vec<_>>().join(".");
    EXCEPTIONS.iter().position(|(of, _)| plain == *of || plain.starts_with(&format!("{of}.")))
}

/// Lists the recorded values: path as a person writes it, and JSON pointer.
fn leaves(value: &Value, path: &str, pointer: &str, found: &mut Vec<(String, String)>) {
    match value {
        Value::Object(map) => {
            for (key, value) in map {
                let path = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
                leaves(value, &path, &format!("{pointer}/{key}"), found);
            }
        }
        Value::Array(items) => {
            for (i, value) in items.iter().enumerate() {
                leaves(value, &format!("{path}[{i}]"), &format!("{pointer}/{i}"), found);
            }
        }
        _ => found.push((path.to_owned(), pointer.to_owned())),
    }
}

/// Another value that could as well have been recorded; for a code, every other one.
fn others(path: &str, value: &Value, components: usize) -> Vec<Value> {
    let field = dictionary::field(path).unwrap_or_else(|| panic!("{path} is in the dictionary"));
    let kind = if let AnswerKind::List { of } = field.kind { *of } else { field.kind };
    match kind {
        AnswerKind::Text => vec![json!(format!("{} and more", value.as_str().unwrap()))],
        AnswerKind::YesNo => vec![json!(!value.as_bool().unwrap())],
        AnswerKind::Whole => {
            let number = value.as_u64().unwrap();
            let most = field.limits.map_or(f64::INFINITY, |(_, most)| most);
            vec![json!(if (number + 1) as f64 > most { number - 1 } else { number + 1 })]
        }
        AnswerKind::Number => {
            let number = value.as_f64().unwrap();
            let step = if field.name.ends_with("_fraction") { 0.01 } else { 0.1 };
            vec![json!(((number + step) * 100.0).round() / 100.0)]
        }
        AnswerKind::Date => {
            let date: Date = value.as_str().unwrap().parse().unwrap();
            vec![json!(Date(date.0.succ_opt().unwrap()).to_string())]
        }
        AnswerKind::Time => {
            let time: LocalTime = value.as_str().unwrap().parse().unwrap();
            let minute = time.0 + std::time::Duration::from_secs(60);
            let day = time.0 + std::time::Duration::from_secs(86_400);
            vec![json!(LocalTime(minute).to_string()), json!(LocalTime(day).to_string())]
        }
        AnswerKind::Component => {
            (0..components as u64).filter(|i| Some(*i) != value.as_u64()).map(|i| json!(i)).collect()
        }
        AnswerKind::Code { codes } => {
            codes.iter().filter(|code| Some(code.code) != value.as_str()).map(|code| json!(code.code)).collect()
        }
        AnswerKind::Id => vec![json!("00000000-0000-4000-8000-000000000001")],
        AnswerKind::Record { .. } | AnswerKind::List { .. } => panic!("{path} is not a value"),
    }
}

/// An entry with every answer of the dictionary, so that no field escapes because no demo records it.
fn every_answer() -> Case {
    fn answer(field: &Field, kind: &AnswerKind, path: &str) -> Value {
        match kind {
            AnswerKind::Text => json!(format!("words of {path}")),
            AnswerKind::YesNo => json!(true),
            AnswerKind::Whole => json!(field.limits.map_or(2, |(least, _)| least as u64 + 1)),
            AnswerKind::Number => json!(field.plausible.or(field.limits).map_or(2.0, |(low, high)| (low + high) / 2.0)),
            AnswerKind::Date => json!("2026-03-10"),
            AnswerKind::Time => json!("2026-03-10T09:00"),
            AnswerKind::Id => json!("00000000-0000-4000-8000-000000000002"),
            AnswerKind::Component => json!(0),
            AnswerKind::Code { codes } => json!(codes[0].code),
            AnswerKind::List { of } => json!([answer(field, of, path), answer(field, of, path)]),
            AnswerKind::Record { fields } => record(fields, path),
        }
    }
    fn record(fields: &[Field], path: &str) -> Value {
        // “None” beside a list with items says nothing; the demos have it beside empty ones.
        let asked = fields.iter().filter(|field| field.name != "none_recorded");
        asked.map(|f| (f.name.to_owned(), answer(f, &f.kind, &format!("{path}.{}", f.name)))).collect()
    }
    let mut value = record(Case::FIELDS, "");
    value["format"] = json!(FORMAT);
    read_value(value).unwrap_or_else(|refusal| panic!("{refusal}")).case
}

#[test]
fn changing_any_recorded_value_changes_the_note() {
    let mut lost = Vec::new();
    let mut needed = [false; EXCEPTIONS.len()];
    for (name, case) in demos().into_iter().chain([("every answer".to_owned(), every_answer())]) {
        let value = case.to_value();
        let note = paper(&case, Kind::OperativeNote).markdown().to_owned();
        let mut found = Vec::new();
        leaves(&value, "", "", &mut found);
        for (path, pointer) in found {
            let recorded = value.pointer(&pointer).unwrap();
            if path == "format" {
                // Has no other value that could be read; listed among the exceptions all the same.
                needed[0] = true;
                continue;
            }
            for other in others(&path, recorded, case.components.len()) {
                let mut changed = value.clone();
                *changed.pointer_mut(&pointer).unwrap() = other.clone();
                let changed = read_value(changed).unwrap_or_else(|refusal| panic!("{name}: {refusal}")).case;
                let same = paper(&changed, Kind::OperativeNote).markdown() == note;
                match exception(&path) {
                    Some(at) => needed[at] |= same,
                    None if same => lost.push(format!("{name}: {path}: {recorded} → {other}")),
                    None => {}
                }
            }
        }
    }
    assert!(lost.is_empty(), "{} changes leave the note as it was:\n{}", lost.len(), lost.join("\n"));
    for ((path, reason), needed) in EXCEPTIONS.iter().zip(needed) {
        assert!(needed, "the exception “{path}” ({reason}) is no longer needed; take it out");
    }
}
