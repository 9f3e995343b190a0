//! What a template sees: every answer of the entry under its dictionary name, already in words, and
//! a few facts that follow from several answers.
//!
//! Every name is always there; what is not recorded is none, so a template that misspells a name
//! fails instead of printing nothing. It computes no reckoning beyond differences of two times.

mod addendum;
mod facts;
pub(crate) mod meanings;
mod parts;
mod print;
mod signing;

use evengap_case::Case;
use evengap_case::dictionary::{Field, Kind};
use evengap_review::Finding;
use serde_json::{Map, Value, json};

use crate::{Occasion, Page, Standing, words};
pub(crate) use print::Printer;
pub(crate) use print::leaning;

/// Builds the view of an entry.
///
/// `missing` are the review's sentences about what this paper still lacks, `unfinished` the reasons
/// why it cannot be handed out.
pub fn of(case: &Case, occasion: &Occasion, missing: &[Finding], unfinished: &[String]) -> Value {
    let words = words::of(occasion.language);
    let printer = Printer { case, settings: &occasion.settings, words };
    let mut root = complete(Case::FIELDS, &case.to_value(), &printer, Some(&words.codes));
    facts::add(&mut root, case, &printer, unfinished);
    parts::add(&mut root, case, occasion.made_at);
    signing::add(&mut root, case, &printer);
    root.insert("addendum".into(), addendum::of(case, occasion, &printer));
    let signed = match &occasion.standing {
        Standing::Signed { by, at, .. } => Some((by, at)),
        Standing::Draft => None,
    };
    root.insert(
        "paper".into(),
        json!({
            "author": occasion.author_in(words),
            "date": printer.date(occasion.made_at.0.date()),
            "time": printer.clock(occasion.made_at.0.time()),
            "sheet": match occasion.page {
                Page::A4 => "a4",
                Page::Letter => "letter",
                Page::Wallet => "wallet",
            },
            "signed_by": signed.map(|(by, _)| by),
            "signed_on": signed.map(|(_, at)| printer.date(at.0.date())),
            "signed_at": signed.map(|(_, at)| printer.clock(at.0.time())),
            "missing": missing.iter().map(|finding| &finding.message).collect::<Vec<_>>(),
        }),
    );
    root.insert(
        "settings".into(),
        json!({
            "emergency_number": occasion.settings.emergency_number,
            "fever_c": printer.number(occasion.settings.fever_c),
        }),
    );
    trimmed(Value::Object(root))
}

/// Takes white space and signs without width off both ends of every text; one that holds nothing else is
/// not recorded. A blank at an end would spoil `**{{ value }}**`.
fn trimmed(value: Value) -> Value {
    let unseen = |sign: char| {
        sign.is_whitespace()
            || matches!(sign, '\u{ad}' | '\u{180e}' | '\u{200b}'..='\u{200f}' | '\u{2060}'..='\u{2064}' | '\u{feff}')
    };
    match value {
        Value::String(text) => match text.trim_matches(unseen) {
            "" => Value::Null,
            kept if kept.len() == text.len() => Value::String(text),
            kept => Value::String(kept.to_owned()),
        },
        Value::Array(items) => {
            let blank = |item: &Value| item.as_str().is_some_and(|text| text.trim_matches(unseen).is_empty());
            items.into_iter().filter(|item| !blank(item)).map(trimmed).collect()
        }
        Value::Object(map) => map.into_iter().map(|(name, value)| (name, trimmed(value))).collect(),
        other => other,
    }
}

/// Gives every field of a record: in words where it is recorded, none where it is not.
///
/// `codes` are the words of the codes in this record, where its language has them.
fn complete(fields: &'static [Field], value: &Value, printer: &Printer, codes: Option<&Value>) -> Map<String, Value> {
    let mut map = Map::new();
    for field in fields {
        let recorded = value.get(field.name);
        let codes = codes.and_then(|codes| codes.get(field.name));
        if let Kind::Code { .. } = field.kind {
            map.insert(format!("{}_code", field.name), json!(recorded.and_then(Value::as_str)));
        }
        map.insert(field.name.into(), in_words(&field.kind, recorded, printer, codes));
    }
    map
}

fn in_words(kind: &'static Kind, value: Option<&Value>, printer: &Printer, codes: Option<&Value>) -> Value {
    match (kind, value) {
        (Kind::Record { fields }, value) => {
            Value::Object(complete(fields, value.unwrap_or(&Value::Null), printer, codes))
        }
        (Kind::List { of }, value) => {
            let items = value.and_then(Value::as_array).map(Vec::as_slice).unwrap_or_default();
            items.iter().map(|item| in_words(of, Some(item), printer, codes)).collect()
        }
        (_, None) => Value::Null,
        (Kind::Whole | Kind::Number, Some(value)) => json!(value.as_f64().map(|number| printer.number(number))),
        (Kind::YesNo, Some(value)) => {
            let values = &printer.words.values;
            json!(value.as_bool().map(|yes| if yes { &values.yes } else { &values.no }))
        }
        (Kind::Code { codes: known }, Some(value)) => {
            let code = value.as_str().unwrap_or_default();
            let translated = codes.and_then(|codes| codes.get(code)).and_then(Value::as_str);
            json!(translated.or_else(|| known.iter().find(|known| known.code == code).map(|known| known.words)))
        }
        (Kind::Date, Some(value)) => json!(value.as_str().and_then(|t| t.parse().ok()).map(|d| printer.day(d))),
        (Kind::Time, Some(value)) => json!(value.as_str().and_then(|t| t.parse().ok()).map(|t| printer.time(t))),
        (Kind::Component, Some(value)) => json!(value.as_u64().map(|index| printer.component(index))),
        (Kind::Text | Kind::Id, Some(value)) => value.clone(),
    }
}
