//! `reckon`, `sources` and `label`.

use serde_json::{Value, json};

use crate::bench::{Bench, Run};

fn value(run: &Run, name: &str) -> Value {
    let json = run.json();
    let result = json["results"].as_array().unwrap().iter().find(|result| result["name"] == name);
    result.unwrap_or_else(|| panic!("{name} is no result of {json}"))["value"].clone()
}

/// Runs, expects exit code 2 and exactly this sentence on standard error.
#[track_caller]
fn check_refused(arguments: &[&str], sentence: &str) {
    let run = Bench::new().run(arguments).expect(2);
    assert_eq!(run.err.trim_end(), sentence, "{arguments:?}");
}

#[test]
fn a_reckoning_prints_json() {
    let bench = Bench::new();
    let run = bench.run(&["reckon", "bmi", "--json", r#"{"height_cm": 175, "weight_kg": 70}"#]).expect(0);
    assert_eq!(value(&run, "bmi_kg_m2"), json!(22.8571), "the WHO's example prints as 22.9");
    assert_eq!(run.err, "", "nothing to complain about");
    let json = run.json();
    for part in ["results", "formula", "inputs", "limits", "sources", "notes"] {
        assert!(!json[part].is_null(), "{part} is always there");
    }
    assert_eq!(
        json["inputs"][0],
        json!({ "name": "height_cm", "value": 175, "unit": "cm" }),
        "inputs with their units"
    );
    let turned = bench.run(&["--json", "reckon", "--json", r#"{"height_cm": 175, "weight_kg": 70}"#, "bmi"]).expect(0);
    assert_eq!(turned.out, run.out, "in any order");
}

#[test]
fn inputs_may_come_from_standard_input() {
    let text = json!({ "text": "The cat sat on the mat." }).to_string();
    let run = Bench::new().run_with(&["reckon", "readability", "--json", "-"], &text).expect(0);
    assert_eq!(value(&run, "flesch_reading_ease"), json!(116.145), "six words of one syllable");
}

#[test]
fn what_is_lacking_is_said_and_nothing_is_guessed() {
    let run = Bench::new().run(&["reckon", "bmi", "--json", r#"{"height_cm": 175}"#]).expect(0);
    assert_eq!(run.json()["not_computable"], "needs weight_kg", "{run:?}");
    assert_eq!(run.json()["results"], json!([]), "no number without it");
}

#[test]
fn bad_use_and_bad_inputs() {
    check_refused(
        &["reckon", "bmi", "--json", r#"{"height_cm": 175, "weight_kg": -3}"#],
        "weight_kg: a weight must be above zero (got -3).",
    );
    check_refused(
        &["reckon", "alignment", "--json", r#"{"mpta_deg": 87, "ldfa_deg": NaN}"#],
        "ldfa_deg: this is no value that JSON can hold (expected value at line 1 column 30).",
    );
    check_refused(
        &["reckon", "bmi", "--json", r#"{"height_cm": 1e999, "weight_kg": 70}"#],
        "height_cm: this is no value that JSON can hold (number out of range at line 1 column 19).",
    );
    check_refused(
        &["reckon", "bmi", "--json", "weight 70"],
        "--json: the inputs are not JSON (expected value at line 1 column 1). Write them as '{\"weight_kg\": 70}'.",
    );
    check_refused(&["reckon", "bmi", "--json", "[70]"], "A group of named inputs in braces is needed, not a list.");
    check_refused(
        &["reckon", "bmi"],
        "Give the inputs of bmi as --json '{\"name\": value, …}', or as --json - from standard input. It takes height_cm, \
         weight_kg.",
    );
    let json = Bench::new().run(&["reckon", "bmi", "--json", r#"{"weight_kg": -3}"#]).expect(2).json();
    assert_eq!(json["error"]["places"][0]["path"], "weight_kg", "in JSON the input is named too");
    let unknown = Bench::new().run(&["reckon", "bmj", "--json", "{}"]).expect(2);
    assert!(unknown.err.starts_with("There is no reckoning “bmj”. There are: "), "{unknown:?}");
    check_refused(&["reckon"], "Name a reckoning, or list them all with --list.");
    assert!(Bench::new().run(&["reckon", "bmi", "--list"]).expect(2).err.contains("--list"), "one of the two");
}

#[test]
fn the_list_names_inputs_units_and_sources() {
    let bench = Bench::new();
    let text = bench.run(&["reckon", "--list"]).expect(0).out;
    let json = bench.run(&["reckon", "--list", "--json"]).expect(0).json();
    let reckonings = json["reckonings"].as_array().unwrap();
    assert!(reckonings.len() >= 10, "all of them: {}", reckonings.len());
    for reckoning in reckonings {
        let name = reckoning["name"].as_str().unwrap();
        assert!(text.contains(&format!("{name}: ")), "{name} is in the text too");
        assert!(reckoning["inputs"].as_array().is_some_and(|inputs| !inputs.is_empty()), "{name} takes something");
        assert!(reckoning["sources"].as_array().is_some_and(|sources| !sources.is_empty()), "{name} has a source");
    }
    assert!(text.contains("  weight_kg (kg): body weight\n"), "an input with its unit: {text}");
    assert!(text.contains("  source: Mosteller"), "and a source");
}

#[test]
fn sources_are_one_table() {
    let bench = Bench::new();
    let text = bench.run(&["sources"]).expect(0).out;
    let json = bench.run(&["sources", "--json"]).expect(0).json();
    let lines = json["sources"].as_array().unwrap();
    for line in lines {
        let kind = line["kind"].as_str().unwrap();
        assert!(["published", "common_practice", "from_memory"].contains(&kind), "{line}");
        assert!(line["source"].as_str().is_some_and(|source| !source.is_empty()), "{line}");
    }
    assert_eq!(text.lines().next().map(|head| head.split_whitespace().next()), Some(Some("name")), "a head");
    let bsa = text.lines().find(|line| line.starts_with("bsa ")).unwrap();
    assert!(bsa.contains("Mosteller") && bsa.contains("1987") && bsa.ends_with("published"), "{bsa}");
}

#[test]
fn a_label_is_read() {
    let bench = Bench::new();
    let scan = "]d20109506000134352172807001\u{1d}10ABC123";
    let json = bench.run(&["label", "]d201095060001343521728070010ABC123", "--json"]).expect(0).json();
    assert_eq!(json["lot"], "ABC123", "{json}");
    assert_eq!(json["expires_on"], json!({ "on": "2028-07-31", "day_not_stated": true }), "{json}");
    let piped = bench.run_with(&["label", "-", "--json"], &format!("{scan}\n")).expect(0).json();
    assert_eq!(piped["scheme"], "gs1", "from standard input: {piped}");
    let text = bench.run(&["label", "(01)09506000134352", "(10)A-7b"]).expect(0).out;
    assert!(
        text.contains("device identifier: 09506000134352\n") && text.contains("lot: A-7b\n"),
        "two scans, one label: {text}"
    );
}

#[test]
fn a_doubtful_label_is_read_with_a_warning() {
    let bench = Bench::new();
    let run = bench.run(&["label", "(01)09506000134353(10)L1"]).expect(0);
    assert!(run.out.contains("lot: L1\n"), "nothing is lost: {run:?}");
    assert!(!run.err.is_empty(), "the check digit is wrong: {run:?}");
    let json = bench.run(&["label", "(01)09506000134353(10)L1", "--json"]).expect(0).json();
    assert_eq!(json["warnings"].as_array().map(Vec::len), Some(1), "{json}");
    let run = bench.run(&["label", "\u{1b}[2Jhello"]).expect(2);
    assert!(run.err.contains("follows no labelling standard"), "what is no label is bad input: {run:?}");
    assert!(!run.out.contains('\u{1b}') && !run.err.contains('\u{1b}'), "no commands to the terminal: {run:?}");
}

#[test]
fn two_devices_are_not_joined() {
    let run = Bench::new().run(&["label", "(01)09506000134352", "(01)09506000134369"]).expect(2);
    assert!(run.err.contains("two devices"), "{run:?}");
}

#[test]
fn the_year_comes_from_the_clock_or_is_given() {
    let expiry = |at: &str| {
        let mut command = std::process::Command::new(env!("CARGO_BIN_EXE_evengap"));
        let out = command.args(["--at", at, "label", "(17)760101", "--json"]).output().unwrap().stdout;
        serde_json::from_slice::<Value>(&out).unwrap()["expires_on"]["on"].clone()
    };
    assert_eq!(expiry("2026-03-04T08:00"), "2076-01-01", "50 years ahead is this century");
    assert_eq!(expiry("2025-03-04T08:00"), "1976-01-01", "51 years ahead is the last one");
}
