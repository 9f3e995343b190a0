//! Where output goes, and readers that go away.

use std::io::Read;

use crate::bench::Bench;

#[test]
fn a_reader_that_goes_away_is_no_error() {
    let bench = Bench::new();
    let mut child = bench.command(&["schema"]).spawn().unwrap();
    let mut some = [0; 10];
    let mut out = child.stdout.take().unwrap();
    out.read_exact(&mut some).unwrap();
    drop(out);
    let mut said = String::new();
    child.stderr.take().unwrap().read_to_string(&mut said).unwrap();
    assert_eq!((child.wait().unwrap().code(), said.as_str()), (Some(0), ""), "no panic, no complaint");
    let whole = bench.run(&["schema"]).expect(0).out;
    assert!(whole.len() > 80_000, "the result does not fit into a pipe, so the break was noticed: {}", whole.len());
}

#[test]
fn help_and_version_are_results() {
    let bench = Bench::new();
    let help = bench.run(&["--help"]).expect(0);
    assert!(help.out.contains("Usage: evengap") && help.err.is_empty(), "on standard output: {help:?}");
    for verb in ["demo", "paper", "template", "review", "schema", "reckon", "sources", "label", "notebook"] {
        assert!(help.out.contains(verb), "help names {verb}");
    }
    assert!(bench.run(&["--version"]).expect(0).out.starts_with("evengap "), "name and version");
}

#[test]
fn names_cannot_move_the_cursor() {
    let bench = Bench::new();
    bench.case("case.json", |case| case["patient"]["family_name"] = "\u{1b}[2JThrel\nkeld".into());
    bench.run(&["notebook", "new", "knees.evengap", "--writer", "Ms A"]).expect(0);
    bench.run(&["notebook", "add", "knees.evengap", "case.json"]).expect(0);
    let list = bench.run(&["notebook", "list", "knees.evengap"]).expect(0).out;
    assert_eq!(list.lines().count(), 1, "one case, one line: {list:?}");
    assert!(!list.contains('\u{1b}'), "and no commands to the terminal: {list:?}");
}
