//! The JSON Schema, judged by the `jsonschema` crate: a reader that knows nothing of ours.

use evengap_case::{FORMAT, read_value, schema};
use serde_json::json;

#[test]
fn an_outside_validator_agrees_with_the_reader() {
    let schema = schema();
    assert!(jsonschema::meta::is_valid(&schema), "it is a valid JSON Schema");
    let validator = jsonschema::validator_for(&schema).expect("the schema compiles");
    let check = |case: serde_json::Value, good: bool| {
        assert_eq!(validator.is_valid(&case), good, "the schema must judge {case} rightly");
        assert_eq!(read_value(case.clone()).is_ok(), good, "the reader must agree on {case}");
    };
    check(json!({ "format": FORMAT }), true);
    check(json!({ "format": FORMAT, "knee": { "side": "left" }, "elsewhere": 1 }), true);
    check(json!({ "format": FORMAT, "knee": { "side": "middle" } }), false);
    check(json!({ "format": FORMAT, "knee": { "wear": { "medial": { "kellgren_lawrence": 4 } } } }), true);
    check(json!({ "format": FORMAT, "knee": { "wear": { "medial": { "kellgren_lawrence": 5 } } } }), false);
    check(json!({ "format": FORMAT, "components": {} }), false);
    check(json!({ "format": FORMAT, "events": [{ "grade": "4a" }] }), true);
    check(json!({ "format": FORMAT, "events": [{ "grade": "4" }] }), false);
    check(json!({ "format": FORMAT, "events": [{ "component": -1 }] }), false);
    check(json!({ "format": FORMAT, "setting": { "operation_date": "4 March 2026" } }), false);
    check(json!({ "knee": {} }), false);
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../../demo-cases");
    for file in std::fs::read_dir(folder).unwrap() {
        let path = file.unwrap().path();
        if path.extension().is_some_and(|ending| ending == "json") {
            check(serde_json::from_str(&std::fs::read_to_string(&path).unwrap()).unwrap(), true);
        }
    }
}
