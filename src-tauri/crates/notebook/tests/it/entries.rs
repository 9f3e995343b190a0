//! Adding, saving and showing entries.

use evengap_case::CaseId;
use evengap_notebook::{Added, Notebook, NotebookError, State};
use serde_json::json;

use crate::bench::{Bench, at, case, id, named, passphrase, past_the_door, save};

#[test]
fn autosave_replaces_the_draft() {
    let bench = Bench::new();
    let mut notebook = bench.notebook([]);
    save(&mut notebook, &named(1, "Mavis", "Threl"), at("08:01")).unwrap();
    save(&mut notebook, &named(2, "Ivo", "Sandringford"), at("08:02")).unwrap();
    save(&mut notebook, &named(1, "Mavis", "Threlkeld"), at("08:03")).unwrap();
    let shown = notebook.show(id(1)).unwrap();
    assert_eq!(shown.case, named(1, "Mavis", "Threlkeld"), "the newest answers");
    assert_eq!((shown.state, shown.saved_at.as_str()), (State::Draft, "2026-06-30T08:03"), "and when they were saved");
    let names: Vec<_> = notebook.list().unwrap().into_iter().map(|line| line.name).collect();
    assert_eq!(names, ["Sandringford, Ivo", "Threlkeld, Mavis"], "two cases, the one begun last first");
    assert_eq!(notebook.find("threl").unwrap().len(), 1, "the list's search sees the newest answers");
    drop(notebook);
    let rows: i64 = past_the_door(&bench.file()).query_row("SELECT count(*) FROM entry", [], |row| row.get(0)).unwrap();
    assert_eq!(rows, 2, "a draft is one row, however often it is saved");
}

#[test]
fn a_save_is_on_the_disk_when_it_returns() {
    let bench = Bench::new();
    let mut notebook = bench.notebook([]);
    save(&mut notebook, &named(1, "Mavis", "Threlkeld"), at("08:01")).unwrap();
    // The notebook is still open, as if the program had been killed: a copy of the file must hold the save.
    let copy = Bench::new();
    std::fs::copy(bench.file(), copy.file()).unwrap();
    let opened = Notebook::open(&copy.file(), &passphrase(), at("12:00")).unwrap();
    assert_eq!(opened.show(id(1)).unwrap().case, named(1, "Mavis", "Threlkeld"), "nothing waits in a second file");
    assert_eq!(bench.everything().len(), 1, "no companion file stays after a save");
}

#[test]
fn the_line_says_what_is_recorded() {
    let bench = Bench::new();
    let notebook = bench.notebook([
        case(
            1,
            json!({
                "patient": { "given_name": " Mavis ", "family_name": "Threlkeld", "hospital_number": "WT-114.7",
                             "birth_date": "1951-02-09" },
                "setting": { "operation_date": "2026-03-04" },
                "knee": { "side": "left" },
                "choice": { "procedure": "medial_partial" },
            }),
        ),
        case(2, json!({ "patient": { "family_name": "Sandringford" } })),
        case(3, json!({})),
    ]);
    let lines = notebook.list().unwrap();
    let line = lines.iter().find(|line| line.id == id(1).to_string()).unwrap();
    let told = [&line.name, &line.hospital_number, &line.birth_date, &line.operation_date, &line.side, &line.saved_at];
    assert_eq!(told, ["Threlkeld, Mavis", "WT-114.7", "1951-02-09", "2026-03-04", "left", "2026-06-30T08:00"]);
    assert_eq!(line.procedure, evengap_case::sections::Procedure::MedialPartial.words(), "procedure in words");
    let names: Vec<_> = lines.iter().map(|line| line.name.as_str()).collect();
    assert_eq!(names, ["", "Sandringford", "Threlkeld, Mavis"], "undated cases stand at the day of their saving");
}

#[test]
fn newest_operation_first() {
    let bench = Bench::new();
    let dated = |n: u128, date: &str| {
        case(n, json!({ "patient": { "family_name": date }, "setting": { "operation_date": date } }))
    };
    let notebook = bench.notebook([dated(1, "2025-12-31"), dated(2, "2026-10-01"), dated(3, "2026-02-28")]);
    let names: Vec<_> = notebook.list().unwrap().into_iter().map(|line| line.name).collect();
    assert_eq!(names, ["2026-10-01", "2026-02-28", "2025-12-31"], "by the day of the operation");
}

#[test]
fn unknown_keys_survive() {
    let bench = Bench::new();
    let sections = json!({
        "patient": { "family_name": "Threlkeld", "shoe_size": 38.5, "nothing": null, "empty": "" },
        "components": [{ "lot": "A1", "colour": { "deep": [1, -2, 0.1, 1e300, 123456789.12345679, true, null, "ß\u{7}\""] } }],
        "zeta": 18446744073709551615_u64,
        "alpha": [[], {}],
    });
    let written = case(1, sections);
    let mut notebook = bench.notebook([written.clone()]);
    let shown = notebook.show(id(1)).unwrap().case;
    assert_eq!(shown.to_json(), written.to_json(), "added and shown: not one character is different");
    save(&mut notebook, &shown, at("09:00")).unwrap();
    assert_eq!(notebook.show(id(1)).unwrap().case.to_json(), written.to_json(), "nor after a save");
    assert!(written.to_json().contains("123456789.12345679"), "the number of the test is not lost before it begins");
}

#[test]
fn adding_twice() {
    let bench = Bench::new();
    let mut notebook = bench.notebook([]);
    let one = named(1, "Mavis", "Threlkeld");
    assert_eq!(notebook.add(one.clone(), id(9), at("08:00")).unwrap(), Added::New(id(1)), "its own identifier stays");
    let again = notebook.add(one, id(9), at("09:00")).unwrap();
    assert_eq!(again, Added::AlreadyThere(id(1)), "the same entry again is no error");
    assert_eq!(notebook.show(id(1)).unwrap().saved_at, "2026-06-30T08:00", "and is not written again");
    let error = notebook.add(named(1, "Ivo", "Sandringford"), id(9), at("09:00")).unwrap_err();
    assert!(matches!(error, NotebookError::CaseExists(_)), "another entry with the same identifier: {error}");
    assert_eq!(notebook.list().unwrap()[0].name, "Threlkeld, Mavis", "the first one stays");
}

#[test]
fn adding_several_is_all_or_none() {
    let bench = Bench::new();
    let mut notebook = bench.notebook([named(1, "Mavis", "Threlkeld")]);
    let several = vec![(named(2, "Ivo", "Sandringford"), id(8)), (named(1, "Another", "Person"), id(9))];
    assert!(notebook.add_all(several, at("09:00")).is_err(), "the second one has a taken identifier");
    assert_eq!(notebook.count().unwrap(), 1, "so the first one was not added either");
    assert_eq!(notebook.find("Sandringford").unwrap(), [], "nor is it found");
}

#[test]
fn a_case_without_identifier_gets_one() {
    let bench = Bench::new();
    let mut notebook = bench.notebook([]);
    let mut nameless = named(1, "Mavis", "Threlkeld");
    nameless.id = CaseId::default();
    assert_eq!(notebook.add(nameless.clone(), id(7), at("08:00")).unwrap(), Added::New(id(7)), "the one given");
    assert_eq!(notebook.show(id(7)).unwrap().case.id, id(7), "also inside the entry");
    let error = save(&mut notebook, &nameless, at("08:00")).unwrap_err();
    assert!(matches!(error, NotebookError::NoIdentifier), "autosave never invents one: {error}");
}

#[test]
fn a_signed_case_never_changes() {
    let bench = Bench::new();
    drop(bench.notebook([named(1, "Mavis", "Threlkeld")]));
    let beside = past_the_door(&bench.file());
    beside.execute_batch("UPDATE entry SET kind = 'signed'; UPDATE case_line SET state = 'signed';").unwrap();
    let mut notebook = Notebook::open(&bench.file(), &passphrase(), at("12:00")).unwrap();
    let error = save(&mut notebook, &named(1, "Mavis", "Changed"), at("09:00")).unwrap_err();
    assert!(matches!(error, NotebookError::Signed(_)), "autosave is refused: {error}");
    let shown = notebook.show(id(1)).unwrap();
    assert_eq!((shown.case, shown.state), (named(1, "Mavis", "Threlkeld"), State::Signed), "it shows as signed");
    for sql in ["UPDATE entry SET body = '{}'", "DELETE FROM entry"] {
        let error = beside.execute(sql, []).unwrap_err().to_string();
        assert!(error.starts_with("a signed entry"), "the file itself refuses {sql}: {error}");
    }
}

#[test]
fn showing_what_is_not_there() {
    let bench = Bench::new();
    let error = bench.notebook([]).show(id(5)).unwrap_err().to_string();
    assert_eq!(error, "The notebook holds no entry with the identifier 00000000-0000-0000-0000-000000000005.");
}
