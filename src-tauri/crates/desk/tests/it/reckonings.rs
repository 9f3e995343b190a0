//! Reckonings through the desk, their sources, and the limits that live in a notebook.

use evengap_desk::{Desk, ErrorCode, Limits};
use serde_json::{Value, json};

use crate::bench::{PASSPHRASE, at, desk_in, folder, refused};

fn reaches(desk: &Desk) -> Value {
    let inputs = json!({ "scale": "0-48", "score_before": 20, "score": 28 });
    let answer = desk.reckon("score", &inputs).unwrap();
    answer.results.into_iter().find(|result| result.name == "reaches_minimal_important_change").unwrap().value
}

#[test]
fn a_reckoning_needs_no_notebook() {
    assert_eq!(reaches(&Desk::new()), json!(true), "the shipped limit for one person is 7 points");
}

#[test]
fn bad_inputs_are_refused_with_their_names() {
    let error = Desk::new().reckon("bmi", &json!({ "weight_kg": -3, "height_cm": 170 })).unwrap_err();
    assert_eq!(error.code, ErrorCode::Refused, "a code to act on");
    assert_eq!(error.message, "weight_kg: a weight must be above zero (got -3).", "one sentence");
    assert_eq!(error.places[0].path, "weight_kg", "and the input's name");
    let sentence = refused(Desk::new().reckon("bmj", &json!({})), ErrorCode::Failed);
    assert!(sentence.starts_with("There is no reckoning “bmj”. There are: alignment, "), "it lists them: {sentence}");
}

#[test]
fn every_reckoning_and_limit_has_a_source() {
    let desk = Desk::new();
    let lines = desk.sources().unwrap();
    let named = |name: &str| lines.iter().any(|line| line.name == name);
    for reckoning in desk.reckonings() {
        assert!(named(reckoning.name), "{} names no source", reckoning.name);
    }
    for row in Limits::default().table() {
        assert!(named(&row.name), "the limit {} names no source", row.name);
    }
    for line in &lines {
        assert!(!line.source.is_empty() && !line.formula.is_empty(), "{line:?}");
    }
}

#[test]
fn limits_are_kept_and_reach_the_reckonings() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    assert_eq!(desk.limits().unwrap(), Limits::default(), "a new notebook has the shipped limits");
    let mut own = serde_json::to_value(Limits::default()).unwrap();
    own["oxford_individual_change"]["value"] = json!(9);
    desk.limits_save(&own).unwrap();
    assert_eq!(reaches(&desk), json!(false), "the notebook's own limit is 9 points");
    let path = desk.notebook_current(at("08:00")).unwrap().unwrap().path;
    let mut other = Desk::new();
    other.notebook_open(std::path::Path::new(&path), PASSPHRASE, at("08:00")).unwrap();
    assert_eq!(other.limits().unwrap().oxford_individual_change.value, 9.0, "after opening again");
    assert_eq!(reaches(&Desk::new()), json!(true), "other desks keep the shipped limit");
    other.limits_save(&json!({})).unwrap();
    assert_eq!(other.limits().unwrap(), Limits::default(), "what is left out goes back to the shipped limit");
}

#[test]
fn limits_that_cannot_be_right_are_refused() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    let mut check = |change: &dyn Fn(&mut Value), expected: &str| {
        let mut limits = serde_json::to_value(Limits::default()).unwrap();
        change(&mut limits);
        let sentence = refused(desk.limits_save(&limits), ErrorCode::Refused);
        assert!(sentence.starts_with(expected), "{sentence}");
    };
    check(
        &|limits| limits["kerf_mm"]["value"] = json!(-1),
        "kerf_mm: a limit must be a finite number, zero or more (got -1).",
    );
    check(&|limits| limits["blade_mm"] = json!(1), "The limits cannot be read: unknown field `blade_mm`");
    check(&|limits| limits["kerf_mm"]["unit"] = json!("mm"), "The limits cannot be read: unknown field `unit`");
    check(
        &|limits| limits["kerf_mm"]["source"]["title"] = json!(" "),
        "kerf_mm: a limit needs its source: say who sets it.",
    );
    check(&|limits| limits["kerf_mm"]["value"] = json!("thin"), "The limits cannot be read: ");
    check(&|limits| *limits = json!([1]), "The limits cannot be read: ");
    assert_eq!(desk.limits().unwrap(), Limits::default(), "nothing was kept");
    refused(Desk::new().limits_save(&json!({})), ErrorCode::NotOpen);
}
