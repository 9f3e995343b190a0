//! The differences of two versions of an entry, and the file of an addendum.

use std::collections::BTreeMap;

use evengap_case::{Case, FORMAT, changes, merge_patch, read_addendum, read_value};
use proptest::prelude::*;
use serde_json::{Value, json};

use super::random::{any_json, record};

fn case(mut value: Value) -> Case {
    value["format"] = json!(FORMAT);
    read_value(value).unwrap_or_else(|refusal| panic!("{refusal}")).case
}

fn patched(case: &Case, patch: &Value) -> Case {
    let mut value = case.to_value();
    merge_patch(&mut value, patch);
    read_value(value).unwrap_or_else(|refusal| panic!("{refusal}")).case
}

/// Writes every change as `path | place in words: before → now`.
fn check(before: Value, patch: Value, expected: &[&str]) {
    let before = case(before);
    let now = patched(&before, &patch);
    let shown = |value: Option<Value>| value.map_or_else(|| "–".to_owned(), |value| value.to_string());
    let found: Vec<_> = changes(&before, &now)
        .into_iter()
        .map(|c| format!("{} | {}: {} → {}", c.path, c.labels.join(", "), shown(c.before), shown(c.now)))
        .collect();
    assert_eq!(found, expected, "the changes of {patch}");
}

#[test]
fn single_answers_are_found_with_their_place_in_words() {
    check(json!({"knee": {"side": "left"}}), json!({"knee": {"side": "left"}}), &[]);
    check(
        json!({"closing": {"blood_loss_ml": 200}, "knee": {"side": "left"}}),
        json!({"closing": {"blood_loss_ml": 350}, "knee": {"side": null}, "discharge": {"haemoglobin_g_l": 97}}),
        &[
            r#"knee.side | Knee before the operation, Side: "left" → –"#,
            r#"closing.blood_loss_ml | Closing, Blood loss: 200.0 → 350.0"#,
            r#"discharge.haemoglobin_g_l | Discharge, Haemoglobin: – → 97.0"#,
        ],
    );
}

#[test]
fn items_that_come_and_go_are_told_from_items_that_change() {
    let three = json!({"components": [{"lot": "A1"}, {"lot": "B2"}, {"lot": "C3"}]});
    check(
        three.clone(),
        json!({"components": [{"lot": "A1"}, {"lot": "B7"}, {"lot": "C3"}]}),
        &[r#"components[1].lot | Components, no. 2, Lot: "B2" → "B7""#],
    );
    check(
        three.clone(),
        json!({"components": [{"lot": "A1"}, {"lot": "C3"}]}),
        &[r#"components[1].lot | Components, no. 2 (removed), Lot: "B2" → –"#],
    );
    check(
        three,
        json!({"components": [{"lot": "A1"}, {"lot": "B2"}, {"lot": "C3"}, {"lot": "D4", "size": "3"}]}),
        &[
            r#"components[3].lot | Components, no. 4 (added), Lot: – → "D4""#,
            r#"components[3].size | Components, no. 4 (added), Size: – → "3""#,
        ],
    );
    check(
        json!({"patient": {"conditions": ["asthma", "gout"]}}),
        json!({"patient": {"conditions": ["gout"]}}),
        &[r#"patient.conditions[0] | Patient, Conditions, no. 1 (removed): "asthma" → –"#],
    );
    check(json!({}), json!({"events": [{}]}), &["events[0] | Events, no. 1 (added): – → {}"]);
}

#[test]
fn keys_that_the_dictionary_does_not_know_are_compared_too() {
    check(
        json!({"knee": {"of_elsewhere": {"a": 1}}}),
        json!({"knee": {"of_elsewhere": {"a": 2}}, "new_key": "x"}),
        &[
            r#"knee.of_elsewhere | Knee before the operation, of_elsewhere: {"a":1} → {"a":2}"#,
            r#"new_key | new_key: – → "x""#,
        ],
    );
}

/// The examples of RFC 7396, appendix A.
#[test]
fn a_patch_is_laid_over_as_the_standard_says() {
    for (target, patch, expected) in [
        (json!({"a": "b"}), json!({"a": "c"}), json!({"a": "c"})),
        (json!({"a": "b"}), json!({"b": "c"}), json!({"a": "b", "b": "c"})),
        (json!({"a": "b"}), json!({"a": null}), json!({})),
        (json!({"a": "b", "b": "c"}), json!({"a": null}), json!({"b": "c"})),
        (json!({"a": ["b"]}), json!({"a": "c"}), json!({"a": "c"})),
        (json!({"a": "c"}), json!({"a": ["b"]}), json!({"a": ["b"]})),
        (json!({"a": {"b": "c"}}), json!({"a": {"b": "d", "c": null}}), json!({"a": {"b": "d"}})),
        (json!({"a": [{"b": "c"}]}), json!({"a": [1]}), json!({"a": [1]})),
        (json!(["a", "b"]), json!(["c", "d"]), json!(["c", "d"])),
        (json!({"a": "b"}), json!(["c"]), json!(["c"])),
        (json!({"a": "foo"}), json!(null), json!(null)),
        (json!({"a": "foo"}), json!("bar"), json!("bar")),
        (json!({"e": null}), json!({"a": 1}), json!({"e": null, "a": 1})),
        (json!([1, 2]), json!({"a": "b", "c": null}), json!({"a": "b"})),
        (json!({}), json!({"a": {"bb": {"ccc": null}}}), json!({"a": {"bb": {}}})),
    ] {
        let mut given = target.clone();
        merge_patch(&mut given, &patch);
        assert_eq!(given, expected, "{patch} over {target}");
    }
}

#[test]
fn an_addendum_file_is_read_with_the_new_version() {
    let before = case(json!({"closing": {"blood_loss_ml": 200}}));
    let file = json!({"text": "Late culture.", "by": "A. Person", "at": "2026-03-12T10:15",
        "values": {"closing": {"blood_loss_ml": 250}}});
    let read = read_addendum(&file.to_string(), &before).unwrap();
    assert_eq!((read.text.as_str(), read.by.as_str()), ("Late culture.", "A. Person"), "words and person are kept");
    assert_eq!(read.case.closing.blood_loss_ml, Some(250.0), "the patch is laid over the entry");
    let words_alone = json!({"text": "Only words.", "by": "A. Person", "at": "2026-03-12T10:15"});
    assert_eq!(read_addendum(&words_alone.to_string(), &before).unwrap().case, before, "words alone change nothing");
}

#[test]
fn a_wrong_addendum_file_is_refused_with_every_place() {
    let before = case(json!({"id": "0f0e0d0c-0b0a-4908-8706-050403020100"}));
    for (file, expected) in [
        (
            json!({}),
            "text: Say here what is added and why.\nby: Name here who adds it.\nat: Give here when it was added, as YYYY-MM-DDTHH:MM.",
        ),
        (
            json!({"text": "x", "by": "y", "at": "12 March", "why": 1}),
            "why: An addendum file has no such name; it has text, by, at and values.\nat: “12 March” is not a date and time; write it as YYYY-MM-DDTHH:MM, such as 2026-03-04T08:30.",
        ),
        (
            json!({"text": "x", "by": "y", "at": "2026-03-12T10:15", "values": {"knee": {"side": "front"}}}),
            "values.knee.side: “front” is not one of the choices: left, right.",
        ),
        (
            json!({"text": "x", "by": "y", "at": "2026-03-12T10:15", "values": {"id": null}}),
            "values.id: An addendum belongs to one entry and cannot change its identifier; take it out.",
        ),
        (
            json!({"text": "x", "by": "y", "at": "2026-03-12T10:15", "values": [1]}),
            "values: A group of answers in braces is needed here.",
        ),
    ] {
        let refusal = read_addendum(&file.to_string(), &before).unwrap_err();
        assert_eq!(refusal.to_string(), expected, "what is wrong with {file}");
    }
}

/// Counts the recorded answers by path without positions.
fn leaves(path: &str, value: &Value, sign: i64, count: &mut BTreeMap<String, i64>) {
    match value {
        Value::Object(map) => {
            map.iter().for_each(|(key, value)| leaves(&format!("{path}.{key}"), value, sign, count));
        }
        Value::Array(items) => items.iter().for_each(|item| leaves(path, item, sign, count)),
        leaf => *count.entry(format!("{path} = {leaf}")).or_default() += sign,
    }
}

/// The path of a change, as [`leaves`] writes it.
fn plain(path: &str) -> String {
    path.split('.').map(|step| format!(".{}", step.split('[').next().unwrap())).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    /// What was there, less what the changes take away and more what they bring, is what is there.
    #[test]
    fn no_difference_escapes_and_none_is_made_up(first in record(Case::FIELDS), second in record(Case::FIELDS), foreign in any_json()) {
        let valid = |mut value: Value| {
            value["format"] = json!(FORMAT);
            read_value(value).ok().map(|reading| reading.case)
        };
        let mut merged = first.clone();
        merge_patch(&mut merged, &second);
        merged["of_elsewhere"] = foreign;
        if let (Some(before), Some(now)) = (valid(first), valid(merged)) {
            prop_assert_eq!(changes(&before, &before), vec![], "equal entries have no changes");
            let found = changes(&before, &now);
            prop_assert_eq!(found.is_empty(), before == now, "different entries have changes");
            let mut count = BTreeMap::new();
            leaves("", &before.to_value(), 1, &mut count);
            leaves("", &now.to_value(), -1, &mut count);
            for change in &found {
                prop_assert_ne!(&change.before, &change.now, "a change changes something: {}", change.path);
                let at = plain(&change.path);
                change.before.iter().for_each(|value| leaves(&at, value, -1, &mut count));
                change.now.iter().for_each(|value| leaves(&at, value, 1, &mut count));
            }
            count.retain(|_, n| *n != 0);
            prop_assert!(count.is_empty(), "what the changes do not account for: {:?}", count);
        }
    }
}
