//! Which findings can be overridden, that each has a ruling, and what an override needs to count.

use evengap_case::sections::Override;
use evengap_case::{Case, LocalTime, SectionName};
use evengap_review::{Finding, FindingKind, RULES, RULINGS, missing_from_note, ruling, unfinished_component_record};
use serde_json::{Value, json};

use crate::rules::{changed, checks, demo, findings};

const WHOLE: &str = "whole-knee-cemented";

fn at() -> LocalTime {
    "2026-03-10T17:30".parse().unwrap()
}

/// An entry with a component that had expired.
fn expired() -> Case {
    changed(demo(WHOLE), &[("/components/0/expires_on", json!("2026-03-01")), ("/components/0/scan", Value::Null)])
}

fn only(case: &Case, rule: &str) -> Finding {
    let mut found: Vec<_> = findings(case, None).into_iter().filter(|finding| finding.rule == rule).collect();
    assert_eq!(found.len(), 1, "{rule} is found once: {found:?}");
    found.remove(0)
}

fn with(mut case: Case, one: Override) -> Case {
    case.overrides = vec![one];
    case
}

#[test]
fn every_rule_that_blocks_has_a_ruling_and_no_other() {
    // The other knee's entry is needed for this one.
    let mut blocking = vec!["side_of_companion".to_owned()];
    for check in checks() {
        let case = changed(demo(check.demo), &check.trigger);
        let of_rule = findings(&case, None).into_iter().filter(|finding| finding.rule == check.rule);
        for finding in of_rule.filter(|finding| finding.blocks) {
            let ruling = ruling(&finding).unwrap_or_else(|| panic!("{} blocks and needs a ruling", finding.rule));
            assert_eq!(finding.overridable, ruling.overridable, "{}: {}", finding.rule, ruling.because);
            blocking.push(finding.rule);
        }
    }
    for row in RULINGS {
        assert!(RULES.iter().any(|rule| rule.name == row.rule), "{} is no rule", row.rule);
        assert!(blocking.iter().any(|rule| rule == row.rule), "{} never blocks in a check", row.rule);
        assert!(!row.because.is_empty(), "{} says why", row.rule);
    }
}

#[test]
fn a_fact_that_a_list_asks_for_is_never_overridden() {
    let empty = Case::default();
    let facts = missing_from_note(&empty);
    assert!(facts.len() > 15, "an empty entry lacks nearly everything: {}", facts.len());
    for fact in &facts {
        assert_eq!(ruling(fact), None, "{} is a missing fact", fact.rule);
    }
    let mut tried = empty;
    tried.overrides = facts.iter().map(|fact| fact.override_for("I know better.", "Ms Maren Oakshott", at())).collect();
    for fact in findings(&tried, None).into_iter().filter(|fact| fact.kind == FindingKind::Missing) {
        assert!(fact.blocks && !fact.overridable && fact.overridden.is_none(), "{fact:?} stands");
    }
}

/// One finding of a rule: may it be overridden, and does an override of it count?
fn check_ruling(rule: &str, changes: &[(&str, Value)], overridable: bool, reason: &str) {
    let case = changed(demo(WHOLE), changes);
    let found = only(&case, rule);
    assert!(found.blocks && found.overridden.is_none(), "{rule} blocks: {reason}");
    assert_eq!(found.overridable, overridable, "{rule}: {reason}");
    let after = only(&with(case, found.override_for("It is so.", "Ms Maren Oakshott", at())), rule);
    assert_eq!(after.blocks, !overridable, "{rule} after an override: {reason}");
    assert_eq!(after.overridden.is_some(), overridable, "{rule} after an override: {reason}");
}

#[test]
fn what_can_be_true_is_overridden_and_what_cannot_is_not() {
    let expired = [("/components/0/expires_on", json!("2026-03-01"))];
    check_ruling("component_expired", &expired, true, "it can be noticed after the operation");
    check_ruling("times_order", &[("/times/incision", json!("2026-03-10T08:37"))], true, "clocks differ");
    check_ruling("counts", &[("/closing/counts/swabs", json!("incorrect"))], true, "a count can be wrong");
    check_ruling("dates_order", &[("/choice/consent/on", json!("2026-03-12"))], true, "written down later");
    check_ruling("dates_order", &[("/patient/birth_date", json!("2026-03-12"))], false, "nobody is born later");
    check_ruling("side_of_component", &[("/components/0/side", json!("right"))], false, "the side");
    check_ruling("unconfirmed_answers", &[("/filled", json!(["closing"])), ("/confirmed", json!([]))], false, "look");
}

#[test]
fn an_override_counts_only_when_it_is_whole_and_of_this_finding() {
    let found = only(&expired(), "component_expired");
    let whole = found.override_for("Seen after closure.", "Ms Maren Oakshott", at());
    let check = |one: Override, reason: &str| {
        let found = only(&with(expired(), one), "component_expired");
        assert!(found.blocks && found.overridden.is_none(), "{reason}");
    };
    check(Override { reason: None, ..whole.clone() }, "without a reason");
    check(Override { reason: Some(" \n".into()), ..whole.clone() }, "with a blank reason");
    check(Override { by: None, ..whole.clone() }, "by nobody");
    check(Override { at: None, ..whole.clone() }, "at no time");
    check(Override { rule: Some("serial_twice".into()), ..whole.clone() }, "of another rule");
    check(Override { paths: vec!["components[1].expires_on".into()], ..whole.clone() }, "of another component");
    assert_eq!(
        only(&with(expired(), whole), "component_expired").overridden.as_deref(),
        Some("Seen after closure."),
        "whole and of this finding"
    );
}

#[test]
fn what_was_signed_in_spite_of_keeps_no_paper_back() {
    let reasons = unfinished_component_record(&expired());
    assert_eq!(reasons.len(), 1, "the expired component keeps the record back: {reasons:?}");
    let found = only(&expired(), "component_expired");
    let signed = with(expired(), found.override_for("Seen after closure.", "Ms Maren Oakshott", at()));
    assert_eq!(unfinished_component_record(&signed), [], "signed in spite of it");
}

#[test]
fn every_section_with_unconfirmed_answers_is_named() {
    let mut case = changed(demo(WHOLE), &[]);
    (case.filled, case.confirmed) = (SectionName::ALL.to_vec(), vec![SectionName::Team]);
    let named: Vec<_> = findings(&case, None)
        .into_iter()
        .filter(|one| one.rule == "unconfirmed_answers")
        .map(|one| one.paths)
        .collect();
    let expected: Vec<_> = SectionName::ALL.iter().filter(|name| **name != SectionName::Team).collect();
    assert_eq!(
        named,
        expected.iter().map(|name| vec![name.code().to_owned()]).collect::<Vec<_>>(),
        "one each, in order"
    );
    assert!(
        expected.iter().all(|name| evengap_case::dictionary::field(name.code()).is_some()),
        "each path is a section of the entry"
    );
    let reasons = unfinished_component_record(&case);
    assert!(
        reasons.iter().any(|one| one.rule == "unconfirmed_answers"),
        "a paper waits for what it prints: {reasons:?}"
    );
}
