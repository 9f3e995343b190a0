//! Check values that general-purpose libraries computed once (tests/checks/make_knee_checks.py), recorded in a data file.

use serde_json::Value;

use crate::{check, check_value};

#[test]
fn knee_values_of_general_libraries() {
    let recorded: Value = serde_json::from_str(include_str!("../checks/knee.json")).expect("the recorded values");
    let made_with = recorded["made_with"].as_str().expect("libraries and versions");
    for value in recorded["values"].as_array().expect("values") {
        let (name, output) = (value["reckoning"].as_str().expect("name"), value["output"].as_str().expect("output"));
        let (inputs, expected) = (value["inputs"].clone(), value["expected"].clone());
        match expected.as_f64() {
            Some(expected) => {
                check(name, inputs, output, expected, value["within"].as_f64().expect("within"), made_with);
            }
            None => check_value(name, inputs, output, expected, made_with),
        }
    }
}
