//! A journey through locking: an own notebook, a case, the lock, and back to the same case with its history.

use std::sync::PoisonError;

use crate::KEYBOARD;
use crate::driver::{Driver, Window};

const PASSPHRASE: &str = "four plain invented words";
const FAMILY: &str = "Lockhart-Ångström";
/// The first version is corrected to this one.
const CORRECTED: &str = "Lockhart-Aangstrom";
/// Ctrl and l, then Ctrl up again.
const LOCK: &str = "\u{E009}l\u{E009}";

fn unlock(window: &mut Window, passphrase: &str) {
    window.replace("unlock-passphrase", passphrase);
    window.click("unlock-go");
}

#[test]
fn a_locked_notebook_comes_back_to_the_same_case() {
    let _alone = KEYBOARD.lock().unwrap_or_else(PoisonError::into_inner);
    let folder = tempfile::tempdir().unwrap_or_else(|error| panic!("no temporary folder: {error}"));
    let notebook = folder.path().join("own.evengap");
    let driver = Driver::start();
    let mut window = driver.open(&folder.path().join("data"));

    window.click("start-own-notebook");
    window.type_into("begin-writer", "Ms I. Invented");
    window.replace("begin-path", &notebook.to_string_lossy());
    window.type_into("begin-passphrase", PASSPHRASE);
    window.type_into("begin-again", PASSPHRASE);
    window.click("begin-go");
    window.click("new-case");
    window.type_into("field-patient.family_name", FAMILY);
    window.click("field-knee.side--left");
    window.has("saved", "data-state", "saved");

    // What was typed last is saved by locking, not by waiting.
    window.replace("field-patient.family_name", CORRECTED);
    window.type_into("field-patient.family_name", LOCK);
    window.shows("locked-why", &["Everything is saved"]);
    let cover = window.shows("locked", &["own.evengap"]);
    assert!(!cover.contains("Lockhart"), "nothing of the patient stands on the cover: {cover}");

    unlock(&mut window, "some other invented words");
    window.shows("unlock-trouble", &["does not open"]);
    unlock(&mut window, PASSPHRASE);
    window.shows("head-side", &["Left knee"]);
    window.shows("entry-head", &[CORRECTED]);
    window.counts("[data-testid=locked]", 0);

    window.click("history-open");
    window.shows("history", &["Ms I. Invented", "Family name", CORRECTED]);
    window.click("step-open");
    window.shows("history", &[FAMILY, CORRECTED]);
    window.close();
}
