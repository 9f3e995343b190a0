//! `demo`, `paper`, `review` and `schema`: the verbs that need no notebook.

use crate::bench::{Bench, demo_case};

#[test]
fn demo_writes_every_paper() {
    let bench = Bench::new();
    let run = bench.run(&["demo", "--to", "papers"]).expect(0);
    assert_eq!(run.err, "", "nothing to complain about");
    let paths: Vec<_> = run.out.lines().map(|line| line.split(" (").next().unwrap()).collect();
    assert_eq!(paths.len() % 8, 0, "two papers in four forms per case");
    assert!(paths.iter().all(|path| bench.path(path).is_file()), "each line is a file: {paths:?}");
    assert!(bench.path("papers/whole-knee-cemented/operative-note.pdf").is_file(), "one folder per case");
    let first = std::fs::read(bench.path("papers/whole-knee-cemented/operative-note.pdf")).unwrap();
    bench.run(&["demo", "--to", "papers"]).expect(0);
    let again = std::fs::read(bench.path("papers/whole-knee-cemented/operative-note.pdf")).unwrap();
    assert!(first == again, "the same time gives the same bytes");
}

#[test]
fn a_finished_paper_ends_with_0() {
    let bench = Bench::new();
    let case = demo_case("whole-knee-cemented.json");
    for (kind, file, begins) in [
        ("operative-note", "note.pdf", "%PDF-"),
        ("operative-note", "note.md", "**Operative note**"),
        ("discharge-letter", "letter.html", "<!"),
        ("discharge-letter", "letter.txt", ""),
    ] {
        let run = bench.run(&["paper", kind, &case, "--to", file, "--author", "Ms A", "--page", "letter"]).expect(0);
        assert_eq!((run.out.as_str(), run.err.as_str()), (format!("{file}\n").as_str(), ""), "it says where");
        let bytes = std::fs::read(bench.path(file)).unwrap();
        assert!(bytes.starts_with(begins.as_bytes()), "{file} is what its name says");
    }
    let printed = bench.run(&["paper", "operative-note", &case, "--author", "Ms A"]).expect(0);
    let note = std::fs::read_to_string(bench.path("note.md")).unwrap();
    assert_eq!(printed.out, note, "without --to the same Markdown is printed");
    assert!(note.contains("Ms A"), "with its author");
}

#[test]
fn an_unfinished_paper_is_made_and_ends_with_1() {
    let bench = Bench::new();
    bench.case("case.json", |case| case["discharge"] = serde_json::json!({}));
    let run = bench.run(&["paper", "discharge-letter", "case.json", "--to", "letter.txt"]).expect(1);
    let why = "The paper is unfinished: No telephone number is recorded that the patient can call.";
    assert!(run.err.lines().any(|line| line == why), "it says why: {}", run.err);
    assert!(bench.path("letter.txt").is_file(), "the draft is there to look at");
    let json = bench.run(&["paper", "discharge-letter", "case.json", "--json"]).expect(1).json();
    assert_eq!(json["unfinished"][0], "No telephone number is recorded that the patient can call.", "also in JSON");
    assert!(json["markdown"].as_str().unwrap().contains("Threlkeld"), "with the paper itself");
}

#[test]
fn review_ends_with_1_where_something_blocks() {
    let bench = Bench::new();
    bench.case("case.json", |_| {});
    let run = bench.run(&["review", "case.json"]).expect(1);
    assert!(run.out.lines().any(|line| line.starts_with("missing, blocks: ")), "it says what: {}", run.out);
    let json = bench.run(&["--json", "review", "case.json"]).expect(1).json();
    let findings = json["findings"].as_array().unwrap();
    assert_eq!(findings.len(), run.out.lines().count(), "the same findings in JSON");
    assert!(findings.iter().any(|finding| finding["blocks"] == true), "one of them blocks");
    let whole = bench.run(&["review", &demo_case("whole-knee-cemented.json")]).expect(0);
    assert!(!whole.out.contains("blocks"), "a whole entry has nothing that blocks: {}", whole.out);
}

#[test]
fn the_schema_is_json() {
    let bench = Bench::new();
    let plain = bench.run(&["schema"]).expect(0);
    assert_eq!(plain.json(), evengap_case::schema(), "the schema of the entry");
    assert_eq!(bench.run(&["schema", "--json"]).expect(0).out, plain.out, "with or without --json");
}

#[test]
fn unknown_keys_are_reported() {
    let bench = Bench::new();
    bench.case("case.json", |case| {
        case["zeta"] = 1.into();
        case["patient"]["shoe_size"] = 38.into();
    });
    let said = "case.json: kept, not known: patient.shoe_size, zeta";
    for arguments in [["review", "case.json"].as_slice(), &["paper", "operative-note", "case.json"]] {
        let run = bench.run(arguments);
        assert_eq!(run.err.lines().next(), Some(said), "{arguments:?} says it: {run:?}");
    }
    let json = bench.run(&["review", "case.json", "--json"]).json();
    assert_eq!(json["unknown"], serde_json::json!(["patient.shoe_size", "zeta"]), "also in JSON");
}
