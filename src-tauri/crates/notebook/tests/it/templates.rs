//! Own templates: versions that stay, and one of them in force.

use evengap_notebook::Notebook;

use crate::bench::{Bench, at, passphrase, past_the_door};

const NOTE: (&str, &str) = ("operative-note", "en");
const LETTER_DE: (&str, &str) = ("discharge-letter", "de");

fn in_force(notebook: &Notebook, (kind, language): (&str, &str)) -> Option<(u32, String)> {
    notebook.template_in_force(kind, language).unwrap().map(|version| (version.version, version.source))
}

#[test]
fn the_newest_choice_counts() {
    let bench = Bench::new();
    let mut notebook = bench.notebook([]);
    assert_eq!(in_force(&notebook, NOTE), None, "a new notebook uses the built-in ones");
    assert_eq!(notebook.template_save(NOTE, "Ours", "one", at("08:00")).unwrap(), 1);
    assert_eq!(notebook.template_save(NOTE, "Ours, shorter", "two", at("09:00")).unwrap(), 2);
    assert_eq!(notebook.template_save(LETTER_DE, "Brief", "eins", at("09:30")).unwrap(), 1, "each paper counts alone");
    assert_eq!(in_force(&notebook, NOTE), Some((2, "two".into())), "what was saved last");
    notebook.template_choose(NOTE, Some(1), at("10:00")).unwrap();
    assert_eq!(in_force(&notebook, NOTE), Some((1, "one".into())), "an earlier one again");
    notebook.template_choose(NOTE, None, at("11:00")).unwrap();
    assert_eq!(in_force(&notebook, NOTE), None, "the built-in one again");
    assert_eq!(notebook.template_save(NOTE, "Ours", "three", at("12:00")).unwrap(), 3, "no number is given twice");
    assert_eq!(in_force(&notebook, LETTER_DE), Some((1, "eins".into())), "another paper is not concerned");

    drop(notebook);
    let notebook = Notebook::open(&bench.file(), &passphrase(), at("12:00")).unwrap();
    let history: Vec<_> = notebook
        .template_history("operative-note", "en")
        .unwrap()
        .into_iter()
        .map(|version| (version.version, version.name, version.saved_at, version.by, version.in_force))
        .collect();
    let line = |version, name: &str, clock: &str, in_force| {
        (version, name.to_owned(), format!("2026-06-30T{clock}"), "Ms Orla Quill".to_owned(), in_force)
    };
    let expected =
        [line(3, "Ours", "12:00", true), line(2, "Ours, shorter", "09:00", false), line(1, "Ours", "08:00", false)];
    assert_eq!(history, expected, "every version is kept, the newest first");
}

#[test]
fn a_version_that_is_not_there() {
    let bench = Bench::new();
    let mut notebook = bench.notebook([]);
    notebook.template_save(NOTE, "Ours", "one", at("08:00")).unwrap();
    let error = notebook.template_choose(NOTE, Some(2), at("09:00")).unwrap_err().to_string();
    assert_eq!(error, "There is no version 2 of an own template for the paper operative-note (en).");
    assert_eq!(in_force(&notebook, NOTE), Some((1, "one".into())), "nothing changed");
}

#[test]
fn no_version_is_replaced() {
    let bench = Bench::new();
    let mut notebook = bench.notebook([]);
    notebook.template_save(("addendum", "en"), "Ours", "one", at("09:00")).unwrap();
    let beside = past_the_door(&bench.file());
    for (sql, said) in [
        (
            "INSERT OR REPLACE INTO template SELECT NULL, kind, language, version, name, 'two', author, saved_at FROM template",
            "a version of a template is never replaced",
        ),
        (
            "INSERT OR REPLACE INTO template_choice SELECT sequence, kind, language, NULL, author, chosen_at \
             FROM template_choice",
            "what was once in force is never replaced",
        ),
    ] {
        assert_eq!(beside.execute(sql, []).unwrap_err().to_string(), said, "{sql}");
    }
}

#[test]
fn history_stays() {
    let bench = Bench::new();
    bench.notebook([]).template_save(NOTE, "Ours", "one", at("08:00")).unwrap();
    let beside = past_the_door(&bench.file());
    for sql in [
        "UPDATE template SET source = 'two'",
        "DELETE FROM template",
        "UPDATE template_choice SET version = NULL",
        "DELETE FROM template_choice",
    ] {
        assert!(beside.execute(sql, []).is_err(), "the file itself refuses {sql}");
    }
}
