//! Random input: reading never panics, and what it accepts survives a round trip.

use evengap_case::dictionary::{Field, Kind};
use evengap_case::{Case, FORMAT, read, read_value};
use proptest::prelude::*;
use serde_json::{Map, Value, json};

/// Any JSON, shallow and small.
pub fn any_json() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<i64>().prop_map(Value::from),
        any::<f64>().prop_map(Value::from),
        ".{0,12}".prop_map(Value::from),
        "[0-9]{4}-[0-9]{2}-[0-9]{2}(T[0-9]{2}:[0-9]{2})?".prop_map(Value::from),
    ];
    leaf.prop_recursive(3, 24, 4, |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..4).prop_map(Value::from),
            prop::collection::vec((".{0,8}", inner), 0..4).prop_map(|pairs| Value::Object(pairs.into_iter().collect())),
        ]
    })
}

/// An answer of about the right kind: right almost always.
fn answer(kind: &'static Kind) -> BoxedStrategy<Value> {
    let right = match kind {
        Kind::Text => ".{0,20}".prop_map(Value::from).boxed(),
        Kind::Whole | Kind::Component => (0u32..9).prop_map(Value::from).boxed(),
        Kind::Number => (-50.0..200.0f64).prop_map(Value::from).boxed(),
        Kind::YesNo => any::<bool>().prop_map(Value::from).boxed(),
        Kind::Date => "20[0-9]{2}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])".prop_map(Value::from).boxed(),
        Kind::Time => "2026-03-(0[1-9]|[12][0-9])T[0-2][0-9]:[0-5][0-9]".prop_map(Value::from).boxed(),
        Kind::Id => Just(json!("0f0e0d0c-0b0a-4908-8706-050403020100")).boxed(),
        Kind::Code { codes } => (0..codes.len()).prop_map(|i| json!(codes[i].code)).boxed(),
        Kind::List { of } => prop::collection::vec(answer(of), 0..3).prop_map(Value::from).boxed(),
        Kind::Record { fields } => record(fields),
    };
    prop_oneof![199 => right, 1 => any_json()].boxed()
}

pub fn record(fields: &'static [Field]) -> BoxedStrategy<Value> {
    let answers: Vec<_> = fields
        .iter()
        .filter(|field| field.name != "format")
        .map(|field| prop::option::weighted(0.15, answer(&field.kind)).prop_map(|value| (field.name, value)))
        .collect();
    answers
        .prop_map(|answers| {
            let recorded = answers.into_iter().filter_map(|(name, value)| Some((name.to_owned(), value?)));
            Value::Object(recorded.collect::<Map<_, _>>())
        })
        .boxed()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_is_read_or_refused(text in ".{0,200}") {
        if let Err(refusal) = read(&text) {
            prop_assert!(!refusal.to_string().is_empty(), "a refusal says why");
        }
    }

    #[test]
    fn any_json_is_read_or_refused(mut value in any_json()) {
        if let Value::Object(map) = &mut value {
            map.insert("format".into(), json!(FORMAT));
        }
        if let Err(refusal) = read_value(value) {
            prop_assert!(!refusal.problems.is_empty(), "a refusal has a problem");
        }
    }

    #[test]
    fn near_cases_are_refused_with_places_or_survive_a_round_trip(mut value in record(Case::FIELDS)) {
        value["format"] = json!(FORMAT);
        match read_value(value) {
            Err(refusal) => prop_assert!(refusal.problems.iter().all(|problem| !problem.path.is_empty()), "{refusal}"),
            Ok(reading) => {
                let again = read(&reading.case.to_json());
                prop_assert_eq!(again.map(|again| again.case), Ok(reading.case));
            }
        }
    }
}
