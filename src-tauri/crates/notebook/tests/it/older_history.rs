//! What becomes of the entries of older notebooks: each version is a saved state, in the ledger, with its sums.

use evengap_case::Case;
use evengap_notebook::{StepKind, VerifyReport};
use rusqlite::{Connection, params};

use crate::bench::{Bench, WORDS, id, named, older, past_the_door};

const MIGRATIONS: [&str; 3] = [
    include_str!("../../migrations/0001_entries.sql"),
    include_str!("../../migrations/0002_projections.sql"),
    include_str!("../../migrations/0003_signed_papers.sql"),
];

fn write(older: &Connection, case: &Case, (number, kind): (u32, &str), clock: &str, text: Option<&str>) {
    let given = params![case.id.to_string(), number, kind, format!("2025-06-30T{clock}"), case.to_value().to_string()];
    older
        .execute(
            "INSERT INTO entry (case_id, number, kind, author, written_at, schema, body) VALUES (?1, ?2, ?3, 1, ?4, 1, ?5)",
            given,
        )
        .or_else(|_| {
            // An addendum has a text since the third version.
            older.execute(
                "INSERT INTO entry (case_id, number, kind, author, written_at, schema, body, addendum_text)
                 VALUES (?1, ?2, ?3, 1, ?4, 1, ?5, ?6)",
                params![
                    case.id.to_string(),
                    number,
                    kind,
                    format!("2025-06-30T{clock}"),
                    case.to_value().to_string(),
                    text
                ],
            )
        })
        .unwrap();
}

/// Two drafts; from the third version on also a signed entry with an addendum between them and a paper.
fn check(version: usize) -> (Bench, VerifyReport) {
    let bench = Bench::new();
    let before = older(&bench.file());
    for migration in &MIGRATIONS[..version] {
        before.execute_batch(migration).unwrap();
    }
    before.pragma_update(None, "application_id", 0x4576_4770).unwrap();
    before.pragma_update(None, "user_version", i64::try_from(version).unwrap()).unwrap();
    before
        .execute("INSERT INTO person (id, name, added_at) VALUES (1, 'Ms Orla Quill', '2025-01-01T08:00')", [])
        .unwrap();
    write(&before, &named(1, "Mavis", "Threlkeld"), (1, if version < 3 { "draft" } else { "signed" }), "08:00", None);
    write(&before, &named(2, "Ivo", "Sandringford"), (1, "draft"), "09:00", None);
    if version == 3 {
        write(&before, &named(1, "Mavis", "Moss"), (2, "addendum"), "10:00", Some("She has married."));
        before
            .execute(
                "INSERT INTO kept_paper (case_id, entry_number, kind, language, page, template_name, template_version,
                     unfinished, warnings, author, made_at, sha256, bytes)
                 VALUES (?1, 1, 'operative-note', 'en', 'a4', 'Ours', 1, '[]', '[]', 1, '2025-06-30T08:00', ?2, ?3)",
                // printf '%PDF one' | sha256sum
                params![
                    id(1).to_string(),
                    [
                        0xdd_u8, 0x4d, 0x31, 0xb7, 0x08, 0xb2, 0xc6, 0x6f, 0x78, 0x73, 0x49, 0xc7, 0x56, 0x73, 0xd1,
                        0x84, 0x95, 0x1d, 0xf3, 0xcd, 0xff, 0xe3, 0xa8, 0xcf, 0x9b, 0x95, 0x54, 0x00, 0x22, 0x44, 0x30,
                        0x0a
                    ],
                    b"%PDF one"
                ],
            )
            .unwrap();
    }
    drop(before);
    let notebook = bench.open(WORDS).unwrap();
    let report = notebook.verify().unwrap();
    assert_eq!(report.problems, Vec::<String>::new(), "version {version}: all of it can be proved from now on");
    assert_eq!(notebook.history(id(2)).unwrap().len(), 1, "a draft is one state; of earlier ones nothing is known");
    drop(notebook);
    (bench, report)
}

#[test]
fn drafts() {
    for version in [1, 2] {
        let (_, report) = check(version);
        assert_eq!((report.entries, report.steps, report.ledger_rows), (2, 2, 2), "version {version}: both were begun");
    }
}

#[test]
fn signed_entries_with_addenda_and_papers() {
    let (bench, report) = check(3);
    assert_eq!((report.signed, report.addenda, report.papers), (1, 1, 1), "all of it was looked at");
    assert_eq!((report.steps, report.ledger_rows), (3, 5), "begun, signed, begun, addendum, paper");
    let notebook = bench.open(WORDS).unwrap();
    let history = notebook.history(id(1)).unwrap();
    let told: Vec<_> = history.iter().map(|step| (step.kind, step.at.as_str(), step.by.as_str())).collect();
    let quill = "Ms Orla Quill";
    let expected = [(StepKind::Addendum, "2025-06-30T10:00", quill), (StepKind::Signed, "2025-06-30T08:00", quill)];
    assert_eq!(told, expected, "each version is a state");
    assert_eq!(history[0].changes.len(), 1, "and the addendum says what it changed");
    assert_eq!(
        notebook.state(id(1), history[1].node).unwrap(),
        named(1, "Mavis", "Threlkeld"),
        "the signed one is whole"
    );
    assert_eq!(notebook.person().mark.get_version_num(), 4, "its writer's mark was drawn by lot");
    let beside = past_the_door(&bench.file());
    let error = beside.execute("UPDATE entry SET body = '{}' WHERE kind = 'signed'", []).unwrap_err().to_string();
    assert_eq!(error, "a signed entry never changes", "what was signed is protected as before");
}
