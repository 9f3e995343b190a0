//! Settings of the papers: kept in the notebook, seen on the papers, refused when they cannot be right.

use evengap_desk::{DateFormat, Desk, ErrorCode, PaperAsked, PaperKind, PaperSettings};

use crate::bench::{at, desk_in, entry, folder};

fn letter(desk: &Desk) -> String {
    let asked = PaperAsked::new(entry(1, "Threlkeld"), PaperKind::DischargeLetter);
    desk.paper_preview(asked, at("08:00")).unwrap().html
}

#[test]
fn settings_are_kept_and_reach_the_papers() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    assert_eq!(desk.paper_settings().unwrap(), PaperSettings::default(), "a new notebook has the shipped settings");
    assert!(letter(&desk).contains("telephone 112"), "the shipped number is on the letter");
    let own = PaperSettings {
        date_format: DateFormat::YearMonthDay,
        emergency_number: " 999 ".into(),
        fever_c: 38.5,
        ..PaperSettings::default()
    };
    desk.paper_settings_save(own).unwrap();
    let path = desk.notebook_current(at("08:00")).unwrap().unwrap().path;
    let mut other = Desk::new();
    other.notebook_open(std::path::Path::new(&path), crate::bench::PASSPHRASE, at("08:00")).unwrap();
    let html = letter(&other);
    for words in ["telephone 999", "38.5 °C", "on 2026-"] {
        assert!(html.contains(words), "after opening again the letter says {words}: {html}");
    }
}

#[test]
fn settings_that_cannot_be_right_are_refused() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    let mut check = |settings: PaperSettings, expected: &str| {
        let error = desk.paper_settings_save(settings).unwrap_err();
        assert_eq!(error.message, expected, "the sentence names the setting");
    };
    check(
        PaperSettings { emergency_number: "help".into(), ..PaperSettings::default() },
        "Emergency number: write the number that calls an ambulance where your patients live, such as 112.",
    );
    check(
        PaperSettings { fever_c: 3.8, ..PaperSettings::default() },
        "Fever limit: write a temperature from 37 to 40 °C.",
    );
    check(
        PaperSettings { fever_c: f64::NAN, ..PaperSettings::default() },
        "Fever limit: write a temperature from 37 to 40 °C.",
    );
    assert_eq!(desk.paper_settings().unwrap(), PaperSettings::default(), "nothing was kept");
    let error = Desk::new().paper_settings_save(PaperSettings::default()).unwrap_err();
    assert_eq!(error.code, ErrorCode::NotOpen, "settings live in a notebook");
}

#[test]
fn a_scanner_may_send_its_own_separator() {
    let folder = folder();
    let mut desk = desk_in(&folder);
    let scan = "010952104100127210T228401^21S7194998";
    let before = desk.scan_read(entry(1, "Threlkeld"), scan, at("08:00")).unwrap();
    assert_eq!(before.component.serial, None, "without the setting the sign is part of the lot");
    desk.scanner_separators_save(vec!["^".into(), String::new()]).unwrap();
    let after = desk.scan_read(entry(1, "Threlkeld"), scan, at("08:00")).unwrap();
    assert_eq!(after.component.lot.as_deref(), Some("T228401"));
    assert_eq!(after.component.serial.as_deref(), Some("S7194998"));
    let error = desk.scanner_separators_save(vec!["A1".into()]).unwrap_err();
    assert!(error.message.starts_with("Separator “A1”"), "{}", error.message);
    assert_eq!(desk.scanner_separators().unwrap(), ["^"], "what was kept stays");
}
