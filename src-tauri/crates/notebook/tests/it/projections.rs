//! Lists and search can be made again from the entries at any time.

use evengap_notebook::Notebook;
use rusqlite::Connection;
use serde_json::json;

use crate::bench::{Bench, at, case, id, named, passphrase, past_the_door, save, sign};

/// Every row of every projection, and every word of the index with its place.
pub fn dump(connection: &Connection) -> Vec<String> {
    connection
        .execute_batch("CREATE VIRTUAL TABLE IF NOT EXISTS temp.words USING fts5vocab (main, case_text, instance);")
        .unwrap();
    let mut rows = Vec::new();
    for sql in [
        "SELECT * FROM case_line ORDER BY row",
        "SELECT * FROM component_line ORDER BY case_row, position",
        "SELECT term, doc, col, \"offset\" FROM temp.words ORDER BY 1, 2, 3, 4",
    ] {
        let mut statement = connection.prepare(sql).unwrap();
        let columns = statement.column_count();
        let mut found = statement.query([]).unwrap();
        while let Some(row) = found.next().unwrap() {
            let cells: Vec<_> = (0..columns).map(|n| format!("{:?}", row.get_ref(n).unwrap())).collect();
            rows.push(cells.join("|"));
        }
    }
    rows
}

pub fn cases() -> Vec<evengap_case::Case> {
    let component = json!({ "role": "insert", "maker": "Kvist", "name": "Even", "reference": "KV-10.2", "lot": "L-77",
                            "serial": "S9", "fate": "implanted", "scan": { "device_identifier": "09506000134352" } });
    vec![
        case(5, json!({ "patient": { "family_name": "Threlkeld" }, "components": [component, { "role": "femur" }] })),
        named(3, "Ivo", "Sandringford"),
        case(4, json!({ "setting": { "operation_date": "2026-03-04" }, "closing": { "washout": "saline" } })),
    ]
}

#[test]
fn every_component_has_a_row() {
    let bench = Bench::new();
    drop(bench.notebook(cases()));
    let beside = past_the_door(&bench.file());
    let row = |position: i64| {
        beside
            .query_row("SELECT * FROM component_line WHERE case_row = 1 AND position = ?1", [position], |row| {
                (2..10).map(|column| row.get::<_, String>(column)).collect::<Result<Vec<_>, _>>()
            })
            .unwrap()
    };
    assert_eq!(row(0), ["insert", "Kvist", "Even", "KV-10.2", "L-77", "S9", "09506000134352", "implanted"], "in full");
    assert_eq!(row(1), ["femur", "", "", "", "", "", "", ""], "blank where nothing is recorded");
    let rows: i64 = beside.query_row("SELECT count(*) FROM component_line", [], |row| row.get(0)).unwrap();
    assert_eq!(rows, 2, "and no others");
}

#[test]
fn a_rebuild_changes_nothing() {
    let bench = Bench::new();
    let mut notebook = bench.notebook(cases());
    save(&mut notebook, &named(3, "Ivo", "Sandringford-Hale"), at("09:00")).unwrap();
    let mut fewer = cases().remove(0);
    fewer.components.truncate(1);
    save(&mut notebook, &fewer, at("09:01")).unwrap();
    sign(&mut notebook, &fewer, &[], at("09:02")).unwrap();
    let mut corrected = fewer.clone();
    corrected.patient.family_name = Some("Threlkeld-Moss".into());
    notebook.add_addendum(&corrected, "She has married.", 1, at("09:03")).unwrap();
    let before = dump(&past_the_door(&bench.file()));
    assert_eq!(notebook.find("moss").unwrap().len(), 1, "the addendum is what search finds");
    assert!(before.len() > 20, "there is something to compare: {before:?}");
    notebook.rebuild().unwrap();
    assert_eq!(dump(&past_the_door(&bench.file())), before, "rows and words are the same, number by number");
}

#[test]
fn lost_projections_come_back() {
    let bench = Bench::new();
    drop(bench.notebook(cases()));
    let beside = past_the_door(&bench.file());
    let before = dump(&beside);
    beside.execute_batch("DELETE FROM case_text; DELETE FROM component_line; DELETE FROM case_line;").unwrap();
    let mut notebook = Notebook::open(&bench.file(), &passphrase(), at("12:00")).unwrap();
    assert_eq!(notebook.list().unwrap(), [], "they are really gone");
    notebook.rebuild().unwrap();
    assert_eq!(dump(&beside), before, "the entries were enough");
}

#[test]
fn the_file_is_sound_by_the_database_s_own_check() {
    let bench = Bench::new();
    let mut notebook = bench.notebook(cases());
    save(&mut notebook, &named(3, "Ivo", "Sandringford"), at("09:00")).unwrap();
    notebook.rebuild().unwrap();
    assert_eq!(notebook.show(id(3)).unwrap().case, named(3, "Ivo", "Sandringford"), "entries are untouched");
    drop(notebook);
    let beside = past_the_door(&bench.file());
    let check = |pragma: &str| beside.pragma_query_value(None, pragma, |row| row.get::<_, String>(0)).unwrap();
    assert_eq!(check("integrity_check"), "ok", "tables, indexes and the full-text index agree");
    assert_eq!(check("journal_mode"), "delete", "one file to carry about");
    let mut strays = 0;
    beside
        .pragma_query(None, "foreign_key_check", |_| {
            strays += 1;
            Ok(())
        })
        .unwrap();
    assert_eq!(strays, 0, "no row refers to nothing");
}
