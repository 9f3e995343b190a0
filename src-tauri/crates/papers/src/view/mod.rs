//! What a template sees: every answer of the entry under its dictionary name, already in words, and
//! a few facts that follow from several answers.
//!
//! Every name is always there; what is not recorded is none, so a template that misspells a name
//! fails instead of printing nothing. It computes no reckoning beyond differences of two times.

mod facts;
mod print;

use evengap_case::Case;
use evengap_case::dictionary::{Field, Kind};
use evengap_review::Finding;
use serde_json::{Map, Value, json};

use crate::Occasion;
use print::Printer;

/// Builds the view of an entry.
///
/// `missing` are the review's sentences about what this paper still lacks, `unfinished` the reasons
/// why it cannot be handed out.
pub fn of(case: &Case, occasion: &Occasion, missing: &[Finding], unfinished: &[String]) -> Value {
    let printer = Printer { case, settings: &occasion.settings };
    let mut root = complete(Case::FIELDS, &case.to_value(), &printer);
    facts::add(&mut root, case, &printer, unfinished);
    root.insert(
        "paper".into(),
        json!({
            "author": occasion.author,
            "date": printer.date(occasion.made_at.0.date()),
            "time": occasion.made_at.0.format("%H:%M").to_string(),
            "missing": missing.iter().map(|finding| &finding.message).collect::<Vec<_>>(),
        }),
    );
    root.insert(
        "settings".into(),
        json!({
            "emergency_number": occasion.settings.emergency_number,
            "fever_c": print::number(occasion.settings.fever_c),
        }),
    );
    Value::Object(root)
}

/// Gives every field of a record: in words where it is recorded, none where it is not.
fn complete(fields: &'static [Field], value: &Value, printer: &Printer) -> Map<String, Value> {
    let mut map = Map::new();
    for field in fields {
        let recorded = value.get(field.name);
        if let Kind::Code { codes } = field.kind {
            let code = recorded.and_then(Value::as_str);
            let words = code.and_then(|code| codes.iter().find(|c| c.code == code)).map(|c| c.words);
            map.insert(format!("{}_code", field.name), json!(code));
            map.insert(field.name.into(), json!(words));
        } else {
            map.insert(field.name.into(), in_words(&field.kind, recorded, printer));
        }
    }
    map
}

fn in_words(kind: &'static Kind, value: Option<&Value>, printer: &Printer) -> Value {
    match (kind, value) {
        (Kind::Record { fields }, value) => Value::Object(complete(fields, value.unwrap_or(&Value::Null), printer)),
        (Kind::List { of }, value) => {
            let items = value.and_then(Value::as_array).map(Vec::as_slice).unwrap_or_default();
            items.iter().map(|item| in_words(of, Some(item), printer)).collect()
        }
        (_, None) => Value::Null,
        (Kind::Whole | Kind::Number, Some(value)) => json!(value.as_f64().map(print::number)),
        (Kind::YesNo, Some(value)) => json!(value.as_bool().map(|yes| if yes { "yes" } else { "no" })),
        (Kind::Code { codes }, Some(value)) => {
            json!(codes.iter().find(|c| Some(c.code) == value.as_str()).map(|c| c.words))
        }
        (Kind::Date, Some(value)) => json!(value.as_str().and_then(|t| t.parse().ok()).map(|d| printer.day(d))),
        (Kind::Time, Some(value)) => json!(value.as_str().and_then(|t| t.parse().ok()).map(|t| printer.time(t))),
        (Kind::Component, Some(value)) => json!(value.as_u64().map(|index| printer.component(index))),
        (Kind::Text | Kind::Id, Some(value)) => value.clone(),
    }
}
