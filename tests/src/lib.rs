//! What the acceptance tests share: the demo cases, a fixed occasion, and readers from outside.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests may stop at the first surprise")]

use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::LazyLock;

use evengap_case::{Case, read, read_addendum};
use evengap_papers::{Addendum, Fonts, Kind, Language, Occasion, Paper, Standing, render};

/// The fonts, parsed once.
pub static FONTS: LazyLock<Fonts> = LazyLock::new(|| Fonts::built_in().expect("the built-in fonts parse"));

/// The folder of the whole project.
pub fn project() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().to_owned()
}

/// Reads one demo case by its file name without ending.
pub fn demo(name: &str) -> Case {
    let path = project().join("demo-cases").join(format!("{name}.json"));
    read(&std::fs::read_to_string(&path).unwrap()).unwrap_or_else(|refusal| panic!("{name}: {refusal}")).case
}

/// Reads all demo cases, sorted by name.
pub fn demos() -> Vec<(String, Case)> {
    let folder = std::fs::read_dir(project().join("demo-cases")).unwrap();
    let mut names: Vec<_> = folder
        .map(|file| file.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "json"))
        .map(|path| path.file_stem().unwrap().to_string_lossy().into_owned())
        .collect();
    names.sort();
    names.into_iter().map(|name| (name.clone(), demo(&name))).collect()
}

/// A fixed occasion: same author, time and settings for every test.
pub fn occasion() -> Occasion {
    Occasion { demonstration: true, ..Occasion::new("2026-11-20T14:05".parse().unwrap(), "Maren Oakshott") }
}

/// An invented fingerprint, of the length that a notebook gives.
pub const FINGERPRINT: &str = "3f9a01bc77d28e105c4be6a98d02f3714a6c1e5bd80f92e7b35ac6140d87f29e";

/// Writes a paper on the fixed occasion.
pub fn paper(case: &Case, kind: Kind) -> Paper {
    render(case, kind, &occasion()).unwrap_or_else(|error| panic!("{error}"))
}

/// Takes the addendum of a demo case: the new version, and the fixed occasion with what was added.
pub fn with_addendum(name: &str, before: &Case) -> (Case, Occasion) {
    let path = project().join("demo-cases/addenda").join(format!("{name}.json"));
    let file = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    let added = read_addendum(&file, before).unwrap_or_else(|refusal| panic!("{name}: {refusal}"));
    let addendum = Addendum { number: 1, text: added.text, by: added.by, at: added.at, before: before.clone() };
    let (by, at) = ("Ms Maren Oakshott".into(), "2026-11-03T17:30".parse().unwrap());
    let signed = Standing::Signed { by, at, fingerprint: Some(FINGERPRINT.to_owned()) };
    // Nobody can sign a half-filled entry, so an addendum to it stays unfinished.
    let standing = if name == "half-filled-draft" { Standing::Draft } else { signed };
    (added.case, Occasion { standing, addendum: Some(addendum), ..occasion() })
}

/// Writes a paper on the fixed occasion in a language that somebody of the clinic has checked.
pub fn paper_in(case: &Case, kind: Kind, language: Language) -> Paper {
    let mut occasion = Occasion { language, ..occasion() };
    occasion.settings.confirmed_translations = Language::ALL.to_vec();
    render(case, kind, &occasion).unwrap_or_else(|error| panic!("{error}"))
}

/// Reads a PDF back with `pdftotext` (poppler), a reader that knows nothing of ours.
pub fn pdftotext(pdf: &[u8]) -> String {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("paper.pdf");
    std::fs::write(&file, pdf).unwrap();
    let out = Command::new("pdftotext").arg(&file).arg("-").output().expect("pdftotext (poppler-utils) is installed");
    assert!(out.status.success(), "pdftotext must accept the file: {}", String::from_utf8_lossy(&out.stderr));
    String::from_utf8(out.stdout).expect("pdftotext writes UTF-8")
}

/// Joins a text's words with single spaces, so that line breaks do not matter.
pub fn unwrapped(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
