//! Journeys through the real window: a new case and the note that follows from it; a case whose letter gets words of
//! one's own, and that is signed.
//!
//! Needs a display (`xvfb-run` gives one), `tauri-driver`, WebKitWebDriver, `pdftotext` and the built window.
#![expect(clippy::panic, reason = "a journey that cannot go on says why and stops")]

mod driver;
mod locking;

use std::path::Path;
use std::process::Command;

use std::sync::{Mutex, PoisonError};

use driver::Driver;

/// One window at a time: both would want the keyboard.
static KEYBOARD: Mutex<()> = Mutex::new(());

const FAMILY: &str = "Quennell-Ó Dálaigh";
const FINDINGS: &str = "Cartilage worn to bone over the whole medial side";

/// The text of a PDF with every run of blanks and line ends as one blank.
fn text_of(pdf: &Path) -> String {
    let output =
        Command::new("pdftotext").arg(pdf).arg("-").output().unwrap_or_else(|error| panic!("pdftotext: {error}"));
    assert!(output.status.success(), "pdftotext cannot read {}", pdf.display());
    String::from_utf8_lossy(&output.stdout).split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn a_new_case_becomes_a_note_in_a_file() {
    let _alone = KEYBOARD.lock().unwrap_or_else(PoisonError::into_inner);
    let folder = tempfile::tempdir().unwrap_or_else(|error| panic!("no temporary folder: {error}"));
    let (data, pdf) = (folder.path().join("data"), folder.path().join("note.pdf"));
    let driver = Driver::start();
    let mut window = driver.open(&data);

    window.shows("demo-banner", &["DEMONSTRATION"]);
    window.click("new-case");
    window.type_into("field-patient.family_name", FAMILY);
    window.type_into("field-patient.given_name", "Orla");
    window.click("field-knee.side--right");
    window.choose("field-choice.procedure", "total");
    window.type_into("field-setting.operation_date", "4 March 2026");
    window.type_into("field-times.incision", "8:15");
    window.type_into("field-approach.findings", FINDINGS);

    window.shows("head-side", &["Right knee"]);
    window.shows("paper", &[FAMILY, "Right total knee replacement", FINDINGS]);
    window.has("saved", "data-state", "saved");

    window.click("export");
    window.has("export-format-pdf", "checked", "true");
    window.replace("export-path", &pdf.to_string_lossy());
    window.click("export-go");
    window.shows("export-done", &["note.pdf"]);
    let text = text_of(&pdf);
    for words in [FAMILY, "Orla", "Right total knee replacement", FINDINGS, "Demonstration"] {
        assert!(text.contains(words), "“{words}” should be in the note that was written:\n{text}");
    }

    // What was typed is still there when the window is opened again.
    window.close();
    let mut window = driver.open(&data);
    window.type_into("search", "dalaigh");
    window.counts("[data-testid^=case-row]", 1);
    window.click("search");
    window.type_into("search", "\u{E007}");
    window.shows("head-side", &["Right knee"]);
    window.shows("paper", &[FINDINGS]);
    window.close();
}

/// Chooses the editor's first line from the second, so that it is typed over; shift stays down.
const FIRST_LINE: &str = "\u{E013}\u{E011}\u{E008}\u{E010}";
const GREETING: &str = "GREETINGS FROM THE THIRD FLOOR";

#[test]
fn a_letter_gets_words_of_its_own_and_the_case_is_signed() {
    let _alone = KEYBOARD.lock().unwrap_or_else(PoisonError::into_inner);
    let folder = tempfile::tempdir().unwrap_or_else(|error| panic!("no temporary folder: {error}"));
    let (data, pdf) = (folder.path().join("data"), folder.path().join("letter.pdf"));
    let driver = Driver::start();
    let mut window = driver.open(&data);

    window.type_into("search", "nguyen");
    window.counts("[data-testid^=case-row]", 1);
    window.click("search");
    window.type_into("search", "\u{E007}");
    window.click("paper-kind-discharge-letter");
    window.shows("reading", &["Flesch-Kincaid", "SMOG"]);
    window.click("language-de");
    window.shows("paper", &["Ihr Knie", "Übersetzung"]);
    window.click("language-en");
    window.shows("paper", &["Your wound"]);

    window.click("to-wording");
    window.has("template-editor", "data-ready", "true");
    window.type_inside("template-editor", "{{ patient.givn_name }}\u{E007}");
    window.shows("flaws", &["patient.given_name"]);
    window.click("template-save");
    window.shows("template-refused", &["Not saved"]);
    window.type_inside("template-editor", &format!("{FIRST_LINE}{GREETING}"));
    window.click("template-save");
    window.shows("template-done", &[]);
    window.shows("in-force", &["Own discharge letter, version 1"]);
    window.click("from-wording");
    window.shows("paper", &[GREETING, "Call an ambulance at once"]);

    window.click("sign");
    window.click("sign-go");
    window.shows("signed", &["Signed by"]);
    window.click("export");
    window.has("export-format-pdf", "checked", "true");
    window.replace("export-path", &pdf.to_string_lossy());
    window.click("export-go");
    window.shows("export-done", &["letter.pdf"]);
    let text = text_of(&pdf);
    assert!(text.contains(GREETING), "the letter has the words of one's own:\n{text}");
    assert!(!text.contains("DRAFT"), "a signed case's letter is no draft:\n{text}");
    window.close();
}
