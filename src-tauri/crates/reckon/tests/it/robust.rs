//! What holds for every reckoning: it is listed whole, never panics and never answers half.

use std::collections::BTreeSet;

use evengap_reckon::{Input, Limits, RECKONINGS, tenth};
use proptest::prelude::*;
use proptest::sample::{Index, select};
use serde_json::{Map, Value, json};

#[test]
fn every_reckoning_is_listed_whole() {
    let names: BTreeSet<_> = RECKONINGS.iter().map(|reckoning| reckoning.name).collect();
    assert_eq!(names.len(), RECKONINGS.len(), "each name is used once");
    for reckoning in RECKONINGS {
        assert!(!reckoning.formula.is_empty() && !reckoning.title.is_empty(), "{}: formula and title", reckoning.name);
        assert!(!reckoning.sources.is_empty(), "{}: a source, a habit or a memory must be named", reckoning.name);
        let inputs: BTreeSet<_> = reckoning.inputs.iter().map(|input| input.name).collect();
        assert_eq!(inputs.len(), reckoning.inputs.len(), "{}: each input is named once", reckoning.name);
    }
}

#[test]
fn an_empty_object_names_what_is_needed() {
    for reckoning in RECKONINGS {
        let answer = reckoning.run(&json!({}), &Limits::default()).expect("nothing is wrong with an empty object");
        for part in ["results", "formula", "inputs", "sources", "notes"] {
            assert!(!answer[part].is_null(), "{}: the answer always carries {part}", reckoning.name);
        }
        if reckoning.inputs.iter().any(|input| input.required) {
            let needs = answer["not_computable"].as_str().unwrap_or_default();
            assert!(needs.starts_with("needs "), "{}: what is needed must be named, got {answer}", reckoning.name);
        }
    }
}

fn leaf() -> impl Strategy<Value = Value> {
    prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<f64>().prop_map(Value::from),
        (-10.0..400.0).prop_map(Value::from),
        any::<i64>().prop_map(Value::from),
        ".{0,12}".prop_map(Value::from),
        "[0-9]{4}-[0-1][0-9]-[0-3][0-9](T[0-2][0-9]:[0-5][0-9])?".prop_map(Value::from),
        select(vec![
            "medial",
            "intact",
            "male",
            "cefazolin",
            "lidocaine",
            "topical",
            "cruciate_retaining",
            "oxford_knee"
        ])
        .prop_map(Value::from),
    ]
}

/// All names that any reckoning takes, those of lines included.
fn known_names() -> Vec<&'static str> {
    let with_lines =
        |input: &'static Input| std::iter::once(input.name).chain(input.lines.iter().map(|line| line.name));
    RECKONINGS.iter().flat_map(|reckoning| reckoning.inputs.iter().flat_map(with_lines)).collect()
}

fn any_value() -> impl Strategy<Value = Value> {
    leaf().prop_recursive(3, 24, 6, |inner| {
        let object = prop::collection::vec((select(known_names()), inner.clone()), 0..5);
        prop_oneof![
            prop::collection::vec(inner, 0..4).prop_map(Value::from),
            object.prop_map(|pairs| pairs
                .into_iter()
                .map(|(name, value)| (name.to_owned(), value))
                .collect::<Map<_, _>>()
                .into()),
        ]
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1500))]

    #[test]
    fn no_json_makes_a_reckoning_panic(which in any::<Index>(), values in prop::collection::vec(any_value(), 32), bare in any_value()) {
        let reckoning = which.get(RECKONINGS);
        let limits = Limits::default();
        let _ = reckoning.run(&bare, &limits);
        let inputs: Map<String, Value> =
            reckoning.inputs.iter().zip(&values).map(|(input, value)| (input.name.to_owned(), value.clone())).collect();
        if let Err(refusal) = reckoning.run(&Value::Object(inputs), &limits) {
            prop_assert!(!refusal.problems.is_empty(), "{}: a refusal says what is wrong", reckoning.name);
        }
    }

    /// Lines are built with their own names, so that numbers reach the formulas behind them.
    #[test]
    fn plausible_numbers_reach_every_formula(which in any::<Index>(), numbers in prop::collection::vec(-1.0..300.0, 64)) {
        let reckoning = which.get(RECKONINGS);
        let mut numbers = numbers.into_iter().cycle();
        let mut fill = |input: &Input| -> Value {
            match input.name {
                "drug" => json!("lidocaine"),
                "compartment" => json!("medial"),
                name if name.ends_with("_on") => json!("2026-03-04"),
                name if name.ends_with("cartilage") || input.about.starts_with("true or false") => Value::Null,
                _ => json!(numbers.next()),
            }
        };
        let mut inputs = Map::new();
        for input in reckoning.inputs {
            let value = if input.lines.is_empty() {
                fill(input)
            } else {
                let line: Map<String, Value> = input.lines.iter().map(|line| (line.name.to_owned(), fill(line))).collect();
                json!([line])
            };
            inputs.insert(input.name.to_owned(), value);
        }
        if let Ok(answer) = reckoning.run(&Value::Object(inputs), &Limits::default()) {
            let results = answer["results"].as_array().expect("results");
            let said = |output: &Value| !output["value"].is_null() || output["not_computable"].is_string();
            prop_assert!(results.iter().all(said), "{}: a result is a value or says what it needs", reckoning.name);
        }
    }

    #[test]
    fn rounding_is_stable(value in -1e6..1e6_f64, step in 0..10_000_i32) {
        prop_assert_eq!(tenth(tenth(value)), tenth(value), "rounding twice changes nothing");
        prop_assert!((tenth(value) - value).abs() <= 0.05 + 1e-6, "and moves by half a tenth at most");
        prop_assert_eq!(tenth(-value), -tenth(value), "and treats both signs alike");
        let exact = f64::from(step) / 10.0;
        prop_assert_eq!(tenth(exact + 0.1 + 0.2 - 0.3), exact, "binary dust leaves a tenth where it is");
    }
}
