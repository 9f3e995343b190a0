//! The tests of the reckonings, in one binary. Check values come from outside: each names its source.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests may stop at the first surprise")]

use evengap_reckon::{Limits, find};
use serde_json::Value;

/// Runs a reckoning with the shipped limits.
fn run(name: &str, inputs: Value) -> Value {
    find(name).expect("listed").run(&inputs, &Limits::default()).unwrap_or_else(|refusal| panic!("{name}: {refusal}"))
}

/// One result by its name.
fn result(answer: &Value, name: &str) -> Value {
    let results = answer["results"].as_array().expect("results");
    let found = results.iter().find(|result| result["name"] == name);
    found.unwrap_or_else(|| panic!("{name} must be among the results of {answer}"))["value"].clone()
}

/// Computes and holds one number against a check value from `source`, within half of its last digit.
fn check(name: &str, inputs: Value, output: &str, expected: f64, within: f64, source: &str) {
    let got = result(&run(name, inputs.clone()), output).as_f64();
    let close = got.is_some_and(|got| (got - expected).abs() <= within);
    assert!(close, "{name} of {inputs}: {output} must be {expected} ± {within} ({source}), got {got:?}");
}

/// Holds one result of any kind against what it must be.
fn check_value(name: &str, inputs: Value, output: &str, expected: Value, reason: &str) {
    let got = result(&run(name, inputs.clone()), output);
    assert_eq!(got, expected, "{name} of {inputs}: {output}: {reason}");
}

/// Runs a reckoning that must refuse with exactly this sentence.
fn check_refused(name: &str, inputs: Value, expected: &str) {
    let refusal = find(name).expect("listed").run(&inputs, &Limits::default());
    let refusal = refusal.expect_err("these inputs must be refused");
    assert_eq!(refusal.to_string(), expected, "{name} of {inputs}: the sentence must name the input");
}

/// Runs a reckoning that lacks inputs.
fn check_needs(name: &str, inputs: Value, expected: &str) {
    assert_eq!(run(name, inputs)["not_computable"], expected, "{name}: what is needed must be named");
}

mod alignment;
mod cuts;
mod gaps;
mod partial;
mod patient;
mod readability;
mod recorded;
mod robust;
mod theatre;
