//! Templates: the view's contract, what is refused and with which words, limits, cautions, options.

mod cautions;
mod contract;
mod grown;
mod limits;
mod never;
mod notices;
mod refused;
mod strong;
mod typed;

use std::path::Path;
use std::sync::LazyLock;

use evengap_case::{Case, LocalTime, read};
use evengap_papers::template::check as check_template;
use evengap_papers::{Kind, Language, Occasion, OwnTemplate, Paper, PapersError, render};

/// Every demo case with its name, sorted by name.
pub static DEMOS: LazyLock<Vec<(String, Case)>> = LazyLock::new(|| {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../demo-cases");
    let files = std::fs::read_dir(folder).unwrap().map(|file| file.unwrap().path());
    let mut cases: Vec<_> = files
        .filter(|path| path.extension().is_some_and(|ending| ending == "json"))
        .map(|path| {
            let name = path.file_stem().unwrap().to_string_lossy().into_owned();
            let case =
                read(&std::fs::read_to_string(&path).unwrap()).unwrap_or_else(|refusal| panic!("{name}: {refusal}"));
            (name, case.case)
        })
        .collect();
    cases.sort_by(|a, b| a.0.cmp(&b.0));
    cases
});

/// The demo cases as a check takes them.
pub fn demos() -> Vec<(&'static str, &'static Case)> {
    DEMOS.iter().map(|(name, case)| (name.as_str(), case)).collect()
}

/// One demo case.
pub fn demo(name: &str) -> &'static Case {
    &DEMOS.iter().find(|(known, _)| known == name).unwrap().1
}

/// Checks a template against what is to be said about it; each flaw is "line:column sentence hint".
pub fn check_in(kind: Kind, language: Language, source: &str, expected: &[&str]) {
    let flaws = check_template(kind, language, source, &demos());
    let said: Vec<_> = flaws.iter().map(|flaw| format!("{}:{} {}", flaw.line, flaw.column, flaw.sentence())).collect();
    assert_eq!(said, expected, "what is said about {source:?}");
}

/// A fixed occasion.
pub fn occasion() -> Occasion {
    let made_at: LocalTime = "2026-11-20T14:05".parse().unwrap();
    Occasion::new(made_at, "Maren Oakshott")
}

/// Writes a paper of the demo case with everything in it, with an own template.
pub fn written(kind: Kind, source: &str) -> Result<Paper, PapersError> {
    written_of(demo("whole-knee-cemented"), kind, source)
}

/// Writes a paper with an own template.
pub fn written_of(case: &Case, kind: Kind, source: &str) -> Result<Paper, PapersError> {
    let template = OwnTemplate { name: "mine".to_owned(), version: 3, source: source.to_owned() };
    render(case, kind, &Occasion { template: Some(template), language: Language::En, ..occasion() })
}
