//! Who changed what, saving over what somebody else saved, and signing in spite of a finding.

use evengap_desk::{ErrorCode, OverrideAsked, PaperAsked, PaperKind, Role, StepKind};

use crate::bench::{PASSPHRASE, at, desk_in, entry, finished, folder, id, quick, refused, save};

#[test]
fn a_history_tells_who_changed_what() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    let first = desk.case_save(entry(1, "Threlkeld"), None, at("08:01")).unwrap();
    let second = desk.case_save(entry(1, "Threlkeld-Rowe"), Some(&first.version), at("08:02")).unwrap();
    assert_ne!(first.version, second.version, "each state has a name");
    let steps = desk.case_history(&id(1).to_string()).unwrap();
    assert_eq!(steps.iter().map(|step| step.at.as_str()).collect::<Vec<_>>(), ["2026-06-30T08:02", "2026-06-30T08:01"]);
    assert_eq!((steps[0].node.as_str(), steps[0].kind), (second.version.as_str(), StepKind::Draft), "the newest first");
    let [change] = &steps[0].changes[..] else { panic!("one change: {:?}", steps[0].changes) };
    assert_eq!((change.path.as_str(), &change.before), ("patient.family_name", &Some("Threlkeld".into())), "before");
    assert_eq!(change.now, Some("Threlkeld-Rowe".into()), "and now");
    assert_eq!(desk.case_show(&id(1).to_string()).unwrap().version, second.version, "an entry says which it is");
}

#[test]
fn nothing_that_somebody_else_saved_is_lost() {
    let folder = folder();
    let path = folder.path().join("knees.evengap");
    let mut one = desk_in(&folder);
    let begun = one.case_save(entry(1, "Threlkeld"), None, at("08:01")).unwrap();
    let mut other = quick();
    other.notebook_open(&path, PASSPHRASE, at("08:02")).unwrap();
    other.case_save(entry(1, "Other"), Some(&begun.version), at("08:03")).unwrap();
    let error = one.case_save(entry(1, "Mine"), Some(&begun.version), at("08:04"));
    refused(error, ErrorCode::ChangedMeanwhile);
    let theirs = one.case_show(&id(1).to_string()).unwrap();
    assert_eq!(theirs.case.patient.family_name.as_deref(), Some("Other"), "what is stored can be looked at");
    one.case_save(entry(1, "Mine"), Some(&theirs.version), at("08:05")).unwrap();
    assert_eq!(one.case_history(&id(1).to_string()).unwrap().len(), 3, "and all of them stay in the history");
    refused(one.case_save(entry(1, "Mine"), Some("Tuesday"), at("08:06")), ErrorCode::Failed);
}

/// A finished entry with a component that had expired.
fn expired() -> evengap_case::Case {
    let mut case = finished();
    case.components[0].expires_on = Some("2020-01-31".parse().unwrap());
    // The label would say otherwise.
    case.components[0].scan = Default::default();
    // The label would say another day, which is a finding of its own.
    case.components[0].scan = Default::default();
    case
}

#[test]
fn signing_in_spite_of_a_finding() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    let case = expired();
    save(&mut desk, case.to_value(), at("08:00")).unwrap();
    let finding = desk.case_review(case.to_value()).unwrap().into_iter().find(|one| one.blocks).unwrap();
    assert!(finding.overridable, "an expired component can have been put in: {finding:?}");
    refused(desk.case_sign(case.to_value(), &[], at("17:00")), ErrorCode::Refused);
    let asked = |reason: &str| OverrideAsked {
        rule: finding.rule.clone(),
        paths: finding.paths.clone(),
        reason: reason.to_owned(),
    };
    let sentence = refused(desk.case_sign(case.to_value(), &[asked(" \u{200B}")], at("17:00")), ErrorCode::Refused);
    assert!(sentence.starts_with("Write why you sign in spite of this: "), "{sentence}");
    let elsewhere = OverrideAsked { paths: vec!["knee.side".into()], ..asked("It was so.") };
    let sentence =
        refused(desk.case_sign(case.to_value(), &[asked("It was so."), elsewhere], at("17:00")), ErrorCode::Refused);
    assert!(sentence.contains("does not stand"), "{sentence}");
    let entry = desk.case_sign(case.to_value(), &[asked(" Noticed after it was cemented. ")], at("17:00")).unwrap();
    let [kept] = &entry.case.overrides[..] else { panic!("one of them: {:?}", entry.case.overrides) };
    assert_eq!(kept.reason.as_deref(), Some("Noticed after it was cemented."), "the reason");
    assert_eq!((kept.by.as_deref(), kept.at), (Some("Ms Orla Quill"), Some(at("17:00"))), "who and when");
    let asked = PaperAsked::new(entry.case.to_value(), PaperKind::OperativeNote);
    let note = desk.paper_preview(asked, at("18:00")).unwrap();
    assert!(note.html.contains("Noticed after it was cemented."), "the note says so");
    let groups: Vec<_> = entry.version.as_bytes()[..16].chunks(4).map(|four| String::from_utf8_lossy(four)).collect();
    assert!(note.html.contains(&groups.join(" ")), "and prints the fingerprint of what was signed");
}

#[test]
fn what_nobody_may_sign_in_spite_of() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    let mut case = finished();
    case.knee.side = None;
    save(&mut desk, case.to_value(), at("08:00")).unwrap();
    let finding = desk.case_review(case.to_value()).unwrap().into_iter().find(|one| one.blocks && !one.overridable);
    let finding = finding.unwrap();
    let asked = OverrideAsked { rule: finding.rule, paths: finding.paths, reason: "It was so.".into() };
    let sentence = refused(desk.case_sign(case.to_value(), &[asked], at("17:00")), ErrorCode::Refused);
    assert!(sentence.starts_with("Nobody can sign in spite of this"), "{sentence}");
}

#[test]
fn a_reason_in_a_draft_is_the_signer_s_own() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    desk.person_add("Mr Registrar", Role::Registrar, false, "the registrar's own", at("08:00")).unwrap();
    let mut case = expired();
    let finding = desk.case_review(case.to_value()).unwrap().into_iter().find(|one| one.blocks).unwrap();
    case.overrides = vec![finding.override_for("Written beforehand.", "Somebody else", at("07:00"))];
    desk.notebook_open(&folder.path().join("knees.evengap"), "the registrar's own", at("08:01")).unwrap();
    save(&mut desk, case.to_value(), at("08:02")).unwrap();
    desk.notebook_open(&folder.path().join("knees.evengap"), PASSPHRASE, at("08:03")).unwrap();
    let entry = desk.case_sign(case.to_value(), &[], at("17:00")).unwrap();
    let by: Vec<_> = entry.case.overrides.iter().map(|one| (one.by.as_deref(), one.at)).collect();
    assert_eq!(by, [(Some("Ms Orla Quill"), Some(at("17:00")))], "nobody signs in another's name");
}

#[test]
fn the_demonstration_has_a_history_by_two() {
    let folder = folder();
    let mut desk = quick();
    desk.notebook_open_demonstration(folder.path(), at("08:00")).unwrap();
    let (_, case) = desk.demo_cases().unwrap().into_iter().find(|(name, _)| *name == "whole-knee-cemented").unwrap();
    let steps = desk.case_history(&case.id.to_string()).unwrap();
    let told: Vec<_> = steps.iter().rev().map(|step| (step.by.as_str(), step.kind)).collect();
    let (registrar, surgeon) = ("Mr Tobias Fennimore", "Ms Maren Oakshott");
    assert_eq!(
        told[..4],
        [
            (registrar, StepKind::Draft),
            (registrar, StepKind::Draft),
            (registrar, StepKind::Draft),
            (surgeon, StepKind::Draft),
        ]
    );
    assert_eq!((told[4], told[5].1), ((surgeon, StepKind::Signed), StepKind::Addendum), "then signed and added to");
    assert!(
        steps.iter().all(|step| !step.changes.is_empty() || step.kind != StepKind::Draft),
        "each changed something"
    );
}
