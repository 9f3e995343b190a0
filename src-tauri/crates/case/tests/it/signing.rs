//! What belongs to a signature: sections that usual answers filled, and what was signed in spite of.

use evengap_case::{Case, SectionName, read_value, schema};
use serde_json::{Value, json};

fn read(value: Value) -> Case {
    read_value(value).unwrap_or_else(|refusal| panic!("{refusal}")).case
}

/// Which sections are unconfirmed after some were filled and some confirmed.
fn check(filled: &[&str], confirmed: &[&str], expected: &[SectionName], reason: &str) {
    let case = read(json!({ "format": "evengap-case/1", "filled": filled, "confirmed": confirmed }));
    assert_eq!(case.unconfirmed().collect::<Vec<_>>(), expected, "{reason}");
}

#[test]
fn a_filled_section_is_unconfirmed_until_it_is_confirmed() {
    check(&[], &[], &[], "nothing was filled");
    check(&["closing"], &[], &[SectionName::Closing], "filled and not confirmed");
    check(&["closing"], &["closing"], &[], "filled and confirmed");
    check(&["closing"], &["aftercare"], &[SectionName::Closing], "another one is confirmed");
    check(
        &["aftercare", "closing", "closing"],
        &[],
        &[SectionName::Closing, SectionName::Aftercare],
        "each once, in the order of the entry",
    );
}

#[test]
fn every_section_can_be_named_and_is_one() {
    for name in SectionName::ALL {
        let field = evengap_case::dictionary::field(name.code());
        assert!(field.is_some(), "{} is a section of the entry", name.code());
    }
}

#[test]
fn an_override_is_read_and_written_back() {
    let whole = json!({
        "format": "evengap-case/1",
        "overrides": [{
            "rule": "component_expired",
            "finding": "The insert (no. 1) expired on 2026-03-01, before the operation on 2026-03-10.",
            "paths": ["components[0].expires_on"],
            "reason": "Seen after closure.",
            "by": "Ms Maren Oakshott",
            "at": "2026-03-10T17:30"
        }]
    });
    let written = read(whole.clone()).to_value();
    assert_eq!(written["overrides"], whole["overrides"], "nothing is lost or added");
    assert!(jsonschema::is_valid(&schema(), &whole), "the schema has it");
}

#[test]
fn a_time_and_a_section_that_are_none_are_refused() {
    let wrong = json!({ "format": "evengap-case/1", "filled": ["garden"], "overrides": [{ "at": "today" }] });
    let refusal = read_value(wrong).expect_err("neither can be read");
    let places: Vec<_> = refusal.problems.iter().map(|problem| problem.path.as_str()).collect();
    assert_eq!(places, ["filled[0]", "overrides[0].at"], "both are named");
}
