//! Another reader of GS1 reads the same: values computed once, see `tests/checks`.

use evengap_label::{Options, WarningCode, read};
use serde_json::Value;

fn values() -> Value {
    serde_json::from_str(include_str!("../checks/gs1-biip.json")).unwrap()
}

#[test]
fn elements_and_dates_are_those_of_biip() {
    let values = values();
    let options = Options::new(i32::try_from(values["year"].as_i64().unwrap()).unwrap());
    for case in values["scans"].as_array().unwrap() {
        let scan = format!("]d2{}", case["scan"].as_str().unwrap());
        let label = read(&scan, &options);
        let ours: Vec<(&str, &str)> =
            label.elements.iter().map(|element| (element.code.as_str(), element.value.as_str())).collect();
        let theirs: Vec<(&str, &str)> = case["elements"]
            .as_array()
            .unwrap()
            .iter()
            .map(|element| (element["code"].as_str().unwrap(), element["value"].as_str().unwrap()))
            .collect();
        assert_eq!(ours, theirs, "elements of {scan:?}");
        let date = |code: &str| {
            let element = case["elements"].as_array().unwrap().iter().find(|element| element["code"] == code)?;
            element["date"].as_str().map(str::to_owned)
        };
        assert_eq!(
            label.expires_on.filter(|_| date("17").is_some()).map(|date| date.on.to_string()),
            date("17"),
            "17 in {scan:?}"
        );
        assert_eq!(label.made_on.map(|date| date.on.to_string()), date("11"), "11 in {scan:?}");
        assert!(
            label.warnings.iter().all(|warning| warning.code != WarningCode::CheckDigit),
            "check digits of {scan:?}"
        );
    }
}

#[test]
fn identifiers_have_the_lengths_of_biip() {
    for entry in values()["identifiers"].as_array().unwrap() {
        let code = entry["code"].as_str().unwrap();
        let most = usize::try_from(entry["most"].as_u64().unwrap()).unwrap();
        let separator = if entry["separator"] == true { "\u{1d}" } else { "" };
        let length_is_doubted = |value: &str| {
            let scan = format!("]d2{code}{value}{separator}99Z");
            let label = read(&scan, &Options::new(2026));
            let found: Vec<(&str, &str)> =
                label.elements.iter().map(|element| (element.code.as_str(), element.value.as_str())).collect();
            assert_eq!(found, [(code, value), ("99", "Z")], "{code} {}", entry["format"]);
            label.warnings.iter().any(|warning| warning.code == WarningCode::Length)
        };
        assert!(!length_is_doubted(&"1".repeat(most)), "{code} holds {most} characters: {}", entry["format"]);
        if separator.is_empty() {
            continue;
        }
        assert!(length_is_doubted(&"1".repeat(most + 1)), "{code} holds no more: {}", entry["format"]);
    }
}
