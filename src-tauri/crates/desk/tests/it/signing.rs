//! Signing entries and adding to signed ones.

use evengap_desk::{ErrorCode, PaperAsked, PaperKind, State};

use crate::bench::{at, desk_in, entry, finished, folder, id, refused, save};

#[test]
fn an_entry_with_blocking_findings_is_not_signed() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    save(&mut desk, entry(1, "Threlkeld"), at("08:00")).unwrap();
    let error = desk.case_sign(entry(1, "Threlkeld"), &[], at("17:00")).unwrap_err();
    assert_eq!(error.code, ErrorCode::Refused, "{}", error.message);
    assert!(error.message.starts_with("The entry cannot be signed yet"), "{}", error.message);
    let blocking = desk.case_review(entry(1, "Threlkeld")).unwrap().into_iter().filter(|finding| finding.blocks);
    assert_eq!(error.places.len(), blocking.count(), "every finding that blocks is named with its place");
    assert!(error.places.iter().all(|place| !place.path.is_empty()), "{:?}", error.places);
    assert_eq!(desk.case_show(&id(1).to_string()).unwrap().state, State::Draft, "it stays a draft");
}

#[test]
fn a_finished_entry_is_signed_and_then_stays() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    let case = finished();
    let id = case.id.to_string();
    save(&mut desk, case.to_value(), at("08:00")).unwrap();
    let preview = |desk: &evengap_desk::Desk, kind| {
        desk.paper_preview(PaperAsked::new(case.to_value(), kind), at("18:00")).unwrap().html
    };
    assert!(preview(&desk, PaperKind::OperativeNote).contains("NOT SIGNED"), "a draft says so");
    let entry = desk.case_sign(case.to_value(), &[], at("17:00")).unwrap();
    assert_eq!(entry.state, State::Signed);
    let signed = entry.signed.unwrap();
    assert_eq!((signed.by.as_str(), signed.at.as_str()), ("Ms Orla Quill", "2026-06-30T17:00"), "who and when");
    let html = preview(&desk, PaperKind::OperativeNote);
    assert!(!html.contains("NOT SIGNED"), "a signed paper carries no mark");

    let sentence = refused(save(&mut desk, case.to_value(), at("18:00")), ErrorCode::Refused);
    assert_eq!(sentence, format!("The entry {id} is signed and never changes; add an addendum."), "saving");
    assert_eq!(
        refused(desk.case_sign(case.to_value(), &[], at("18:00")), ErrorCode::Refused),
        sentence,
        "signing again"
    );
    let mut other = case.clone();
    other.patient.family_name = Some("Changed".into());
    let html =
        desk.paper_preview(PaperAsked::new(other.to_value(), PaperKind::OperativeNote), at("18:00")).unwrap().html;
    assert!(html.contains("NOT SIGNED"), "answers that nobody signed are never shown as signed");
}

#[test]
fn an_addendum_has_a_paper_of_its_own() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    let case = finished();
    let id = case.id.to_string();
    save(&mut desk, case.to_value(), at("08:00")).unwrap();
    let refusal = refused(desk.case_addendum(case.to_value(), "words", 1, at("09:00")), ErrorCode::Refused);
    assert!(refusal.contains("is a draft"), "{refusal}");
    desk.case_sign(case.to_value(), &[], at("17:00")).unwrap();
    let mut added = case.clone();
    added.closing.blood_loss_ml = Some(321.into());
    refused(desk.case_addendum(added.to_value(), " ", 1, at("18:00")), ErrorCode::Refused);
    let entry = desk.case_addendum(added.to_value(), "The suction bottle was read again.", 1, at("18:00")).unwrap();
    assert_eq!((entry.case, entry.state), (added.clone(), State::Signed), "the entry is as it is since then");
    let lines: Vec<_> = desk.case_addenda(&id).unwrap().into_iter().map(|line| (line.number, line.at)).collect();
    assert_eq!(lines, [(1, "2026-06-30T18:00".to_owned())], "the first addendum is number 1");

    let preview = |kind| desk.paper_preview(PaperAsked::new(added.to_value(), kind), at("19:00")).unwrap().html;
    assert!(preview(PaperKind::Addendum).contains("The suction bottle was read again."), "its own page");
    assert!(!preview(PaperKind::OperativeNote).contains("321"), "the note stays the note that was signed");
    assert!(!preview(PaperKind::ClinicianLetter).contains("NOT SIGNED"), "a letter of the newest version is signed");
    let sentence = refused(desk.case_addenda("Tuesday"), ErrorCode::Failed);
    assert!(sentence.starts_with("“Tuesday” is not a case identifier"), "{sentence}");
}

#[test]
fn only_what_was_on_the_screen_is_signed() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    let seen = finished();
    let mut other = seen.clone();
    other.closing.blood_loss_ml = Some(321.into());
    save(&mut desk, other.to_value(), at("08:00")).unwrap();
    let sentence = refused(desk.case_sign(seen.to_value(), &[], at("17:00")), ErrorCode::Refused);
    assert!(sentence.starts_with("Somebody saved this entry meanwhile"), "{sentence}");
    assert_eq!(desk.case_show(&seen.id.to_string()).unwrap().state, State::Draft, "nothing was signed");

    let mut stored = seen.to_value();
    stored["ours"] = "[5.0]".parse().unwrap();
    save(&mut desk, stored.clone(), at("08:01")).unwrap();
    stored["ours"] = "[5]".parse().unwrap();
    let signed = desk.case_sign(stored, &[], at("17:00")).map(|entry| entry.state);
    assert_eq!(signed, Ok(State::Signed), "a page gives a number back in fewer letters");
}

#[test]
fn an_addendum_never_makes_another_entry_of_it() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    let case = finished();
    save(&mut desk, case.to_value(), at("08:00")).unwrap();
    assert_eq!(desk.case_sign(case.to_value(), &[], at("17:00")).unwrap().number, 1, "the signed version");
    let mut check = |change: &dyn Fn(&mut evengap_case::Case), places: &[&str], said: &str| {
        let mut changed = case.clone();
        change(&mut changed);
        let error = desk.case_addendum(changed.to_value(), "Words.", 1, at("18:00")).unwrap_err();
        assert_eq!(error.code, ErrorCode::Refused, "{}", error.message);
        assert!(error.message.contains(said), "{said}: {}", error.message);
        let at: Vec<_> = error.places.iter().map(|place| place.path.as_str()).collect();
        assert!(places.is_empty() || at == places, "{said}: {at:?}");
    };
    check(&|case| case.knee.side = None, &["knee.side"], "The side of a signed entry stays");
    let patient = |case: &mut evengap_case::Case| {
        case.patient.family_name = Some("Other".into());
        case.patient.hospital_number = Some("HN-777".into());
    };
    check(&patient, &["patient.family_name", "patient.hospital_number"], "corrects only one of them");
    check(&|case| case.choice.procedure = None, &[], "The addendum cannot be added");
    let mut typo = case.clone();
    typo.patient.family_name = Some("Corrected".into());
    let entry = desk.case_addendum(typo.to_value(), "The name was misspelt.", 1, at("18:00")).unwrap();
    assert_eq!(entry.number, 2, "one answer about the patient is a correction");
    let sentence = refused(desk.case_addendum(case.to_value(), "Words.", 1, at("19:00")), ErrorCode::ChangedMeanwhile);
    assert!(sentence.contains("was changed meanwhile"), "it would take the name back: {sentence}");
    let sentence = refused(desk.case_addendum(typo.to_value(), "\u{200B}", 2, at("19:00")), ErrorCode::Refused);
    assert!(sentence.contains("has no text"), "a sign without width says nothing: {sentence}");
}
