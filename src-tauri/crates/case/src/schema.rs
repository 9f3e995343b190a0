//! The JSON Schema (2020-12) of the interchange format, made from the dictionary.

use serde_json::{Map, Value, json};

use crate::dictionary::{Field, Kind};
use crate::{Case, FORMAT};

/// Gives the JSON Schema of a case file.
///
/// Only hard limits constrain; plausible ranges stand in the descriptions. Unknown keys are allowed,
/// because they are kept.
pub fn schema() -> Value {
    let mut root = record(Case::FIELDS);
    root.insert("$schema".into(), "https://json-schema.org/draft/2020-12/schema".into());
    root.insert("title".into(), FORMAT.into());
    root.insert("required".into(), json!(["format"]));
    root["properties"]["format"] = json!({ "const": FORMAT });
    Value::Object(root)
}

fn record(fields: &[Field]) -> Map<String, Value> {
    let properties = fields.iter().map(|field| (field.name.to_owned(), Value::Object(property(field)))).collect();
    Map::from_iter([("type".into(), "object".into()), ("properties".into(), Value::Object(properties))])
}

fn property(field: &Field) -> Map<String, Value> {
    let mut schema = kind(&field.kind);
    schema.insert("title".into(), field.label.into());
    let mut about = field.help.to_owned();
    if let Some(unit) = field.unit {
        about.push_str(&format!(" Unit: {unit}."));
    }
    if let Some((low, high)) = field.plausible {
        about.push_str(&format!(" Ordinary range: {low} to {high}."));
    }
    if !about.is_empty() {
        schema.insert("description".into(), about.trim_start().into());
    }
    if let Some((least, most)) = field.limits {
        schema.insert("minimum".into(), least.into());
        schema.insert("maximum".into(), most.into());
    }
    schema
}

fn kind(kind: &Kind) -> Map<String, Value> {
    let pattern = |pattern: &str| json!({ "type": "string", "pattern": pattern });
    let schema = match kind {
        Kind::Text => json!({ "type": "string" }),
        Kind::Whole | Kind::Component => json!({ "type": "integer", "minimum": 0, "maximum": u32::MAX }),
        Kind::Number => json!({ "type": "number" }),
        Kind::YesNo => json!({ "type": "boolean" }),
        Kind::Date => pattern(r"^\d{4}-\d{2}-\d{2}$"),
        Kind::Time => pattern(r"^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$"),
        Kind::Id => json!({ "type": "string", "format": "uuid" }),
        Kind::Code { codes } => {
            let one_of: Vec<_> = codes.iter().map(|c| json!({ "const": c.code, "title": c.words })).collect();
            json!({ "oneOf": one_of })
        }
        Kind::Record { fields } => Value::Object(record(fields)),
        Kind::List { of } => json!({ "type": "array", "items": Value::Object(self::kind(of)) }),
    };
    match schema {
        Value::Object(map) => map,
        _ => Map::new(),
    }
}
