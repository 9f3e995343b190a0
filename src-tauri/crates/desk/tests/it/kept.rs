//! Papers of signed entries: the same bytes for ever.

use evengap_desk::{Desk, PageSize, PaperAsked, PaperFormat, PaperKind, PaperLanguage, PaperSettings};

use crate::bench::{PASSPHRASE, at, desk_in, finished, folder, save};

fn print(desk: &mut Desk, asked: PaperAsked, clock: &str) -> Vec<u8> {
    desk.paper_print(asked, PaperFormat::Pdf, at(clock)).unwrap().bytes
}

#[test]
fn a_signed_paper_comes_back_byte_for_byte() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    let case = finished();
    save(&mut desk, case.to_value(), at("08:00")).unwrap();
    let note = || PaperAsked::new(case.to_value(), PaperKind::OperativeNote);
    let letter = || PaperAsked::new(case.to_value(), PaperKind::ClinicianLetter);
    assert!(
        print(&mut desk, note(), "09:00") != print(&mut desk, note(), "09:01"),
        "the paper of a draft is made anew each time"
    );
    desk.case_sign(case.to_value(), &[], at("17:00")).unwrap();
    let first = [print(&mut desk, note(), "18:00"), print(&mut desk, letter(), "18:00")];

    let own = "# Our own words\n\n{{ derived.patient_name }}\n";
    for kind in [PaperKind::OperativeNote, PaperKind::ClinicianLetter] {
        desk.template_save(kind, Default::default(), "Ours", own, at("19:00")).unwrap();
    }
    let settings = PaperSettings { date_format: evengap_desk::DateFormat::YearMonthDay, ..PaperSettings::default() };
    desk.paper_settings_save(settings).unwrap();
    assert!(print(&mut desk, note(), "20:00") == first[0], "the note, kept when it was signed");
    assert!(print(&mut desk, letter(), "20:00") == first[1], "the letter, kept when it was first printed");
    desk.notebook_close().unwrap();
    desk.notebook_open(&folder.path().join("knees.evengap"), PASSPHRASE, at("08:00")).unwrap();
    assert!(print(&mut desk, note(), "21:00") == first[0], "after opening again");
    let on_letter = PaperAsked { page: PageSize::Letter, ..note() };
    let other = print(&mut desk, on_letter.clone(), "22:00");
    assert!(other != first[0], "another sheet is another paper");
    assert!(print(&mut desk, on_letter, "23:00") == other, "which is kept as well");

    let mut added = case.clone();
    added.patient.hospital_number = Some("HN-777".into());
    desk.case_addendum(added.to_value(), "The number was wrong.", 1, at("22:00")).unwrap();
    let now = PaperAsked::new(added.to_value(), PaperKind::ClinicianLetter);
    assert!(print(&mut desk, now, "22:01") != first[1], "the letter of a new version is a new letter");
    let note = PaperAsked::new(added.to_value(), PaperKind::OperativeNote);
    assert!(print(&mut desk, note, "22:01") == first[0], "the note stays that of the signed entry");
}

#[test]
fn another_hand_or_another_template_makes_another_paper() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    let case = finished();
    save(&mut desk, case.to_value(), at("08:00")).unwrap();
    desk.case_sign(case.to_value(), &[], at("17:00")).unwrap();
    let note = || PaperAsked::new(case.to_value(), PaperKind::OperativeNote);
    let kept = print(&mut desk, note(), "18:00");
    let other = PaperAsked { author: Some("Mr Idris Penhale".into()), ..note() };
    assert!(print(&mut desk, other, "18:00") != kept, "it is made for who asked");
    assert!(print(&mut desk, note(), "19:00") == kept, "and does not take the kept one's place");
}

#[test]
fn a_paper_about_which_something_is_open_is_not_kept() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    let mut case = finished();
    case.discharge.condition = None;
    save(&mut desk, case.to_value(), at("08:00")).unwrap();
    desk.case_sign(case.to_value(), &[], at("17:00")).unwrap();
    let unfinished = PaperAsked::new(case.to_value(), PaperKind::ClinicianLetter);
    let first = desk.paper_print(unfinished.clone(), PaperFormat::Pdf, at("18:00")).unwrap();
    assert!(!first.unfinished.is_empty(), "the letter lacks the condition at discharge");
    assert!(print(&mut desk, unfinished, "18:01") != first.bytes, "a letter that lacks something is made anew");

    let spanish =
        PaperAsked { language: PaperLanguage::Es, ..PaperAsked::new(case.to_value(), PaperKind::DischargeLetter) };
    let to_check = desk.paper_print(spanish.clone(), PaperFormat::Pdf, at("18:00")).unwrap();
    assert!(to_check.unfinished.is_empty(), "the letter lacks nothing: {:?}", to_check.unfinished);
    assert!(print(&mut desk, spanish.clone(), "18:01") != to_check.bytes, "a translation to be checked is made anew");
    let confirmed = PaperSettings { confirmed_translations: vec![PaperLanguage::Es], ..PaperSettings::default() };
    desk.paper_settings_save(confirmed).unwrap();
    let kept = print(&mut desk, spanish.clone(), "19:00");
    assert!(print(&mut desk, spanish, "19:01") == kept, "once checked, it is kept");
}

#[test]
fn what_is_kept_is_said() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    let case = finished();
    let note = || PaperAsked::new(case.to_value(), PaperKind::OperativeNote);
    save(&mut desk, case.to_value(), at("08:00")).unwrap();
    assert_eq!(
        desk.paper_preview(note(), at("08:01")).unwrap().warnings,
        Vec::<String>::new(),
        "of a draft nothing is"
    );
    desk.case_sign(case.to_value(), &[], at("17:00")).unwrap();
    let version = desk.template_show(PaperKind::OperativeNote, PaperLanguage::En).unwrap().version;
    let said = format!(
        "Kept as made on 2026-06-30 at 17:00 with template operative-note, version {version}; printed again unchanged."
    );
    assert_eq!(desk.paper_preview(note(), at("18:00")).unwrap().warnings, [&said[..]], "beside the entry");
    let to = |name: &str| folder.path().join(name);
    let mut export =
        |format, name: &str| desk.paper_export(note(), format, &to(name), true, at("18:00")).unwrap().warnings;
    assert_eq!(export(PaperFormat::Pdf, "note.pdf"), [said], "with the file");
    let [other] = &export(PaperFormat::Text, "note.txt")[..] else { panic!("one sentence") };
    assert!(other.contains("This .txt is made anew"), "another form is not what was kept: {other}");
    let letter = PaperAsked::new(case.to_value(), PaperKind::ClinicianLetter);
    let first = desk.paper_export(letter, PaperFormat::Pdf, &to("letter.pdf"), true, at("18:00")).unwrap();
    assert_eq!(first.warnings, Vec::<String>::new(), "the first one is not printed again");
}
