//! `demo`, `paper`, `review` and `schema`: the verbs that need no notebook.

use crate::bench::{Bench, demo_case};

#[test]
fn demo_writes_every_paper() {
    let bench = Bench::new();
    let run = bench.run(&["demo", "--to", "papers"]).expect(0);
    assert_eq!(run.err, "", "nothing to complain about");
    let paths: Vec<_> = run.out.lines().map(|line| line.split(" (").next().unwrap()).collect();
    assert_eq!(paths.len(), 11 * (7 * 4 + 1), "seven papers in four forms and a card for each case");
    assert!(paths.iter().all(|path| bench.path(path).is_file()), "each line is a file: {paths:?}");
    for name in ["operative-note.pdf", "discharge-letter.de.txt", "component-record.wallet.pdf", "addendum.html"] {
        assert!(bench.path("papers/whole-knee-cemented").join(name).is_file(), "one folder per case, with {name}");
    }
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
        assert_eq!(run.out, format!("{file}\n"), "it says where");
        let notes = run.err.lines().filter(|line| !line.starts_with("Reading: Flesch-Kincaid grade "));
        assert_eq!(notes.collect::<Vec<_>>(), Vec::<&str>::new(), "and nothing but how a letter reads");
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
fn a_letter_says_how_it_reads() {
    let bench = Bench::new();
    let case = demo_case("whole-knee-cemented.json");
    let run = bench.run(&["paper", "discharge-letter", &case, "--to", "letter.pdf"]).expect(0);
    assert!(run.err.contains("(limit 6), SMOG grade "), "in a sentence: {}", run.err);
    let json = bench.run(&["paper", "discharge-letter", &case, "--json"]).expect(0).json();
    let reading = &json["reading"];
    for grade in ["flesch_kincaid_grade", "smog_grade"] {
        assert!(
            reading[grade].as_f64() <= reading["limits"][grade].as_f64(),
            "{grade} is within its limit: {reading:#}"
        );
    }
    assert!(reading["formulas"][0]["source"].as_str().unwrap().contains("1975"), "with formula and source");
    let german = bench.run(&["paper", "discharge-letter", &case, "--language", "de", "--json"]).expect(0).json();
    assert_eq!(german["reading"], serde_json::Value::Null, "the formulas are made for English");
}

#[test]
fn papers_of_several_cases() {
    let bench = Bench::new();
    let (one, two) = (demo_case("medial-part.json"), demo_case("lateral-part.json"));
    let run = bench.run(&["paper", "component-record", &one, &two, "--page", "wallet", "--to", "cards"]).expect(0);
    let paths: Vec<_> = run.out.lines().collect();
    assert_eq!(paths.len(), 2, "one each: {}", run.out);
    assert!(paths.iter().all(|path| bench.path(path).is_file() && path.ends_with(" component-record wallet.pdf")));
    let run = bench.run(&["paper", "operative-note", &one, &two, "--to", "notes.pdf"]).expect(0);
    assert_eq!(run.out, "notes.pdf\n", "or one PDF for all");
    assert!(std::fs::read(bench.path("notes.pdf")).unwrap().starts_with(b"%PDF-"));
    let run = bench.run(&["paper", "operative-note", &one, "--to", "cards"]).expect(0);
    assert!(run.out.ends_with(" operative-note.pdf\n"), "one case may go into a folder too: {}", run.out);

    let run = bench.run(&["paper", "operative-note", &one, "none.json", &two, "--to", "notes", "--json"]).expect(2);
    let report = run.json();
    assert_eq!(report["written"].as_array().unwrap().len(), 2, "a bad one never stops the others");
    assert_eq!(report["failed"][0]["id"], "none.json", "and is named");
    assert_eq!(run.err, "There is no file none.json. Check the name and the folder.\n");
    bench.case("case.json", |case| case["discharge"] = serde_json::json!({}));
    let run = bench.run(&["paper", "discharge-letter", &one, "case.json", "--to", "letters.pdf"]).expect(1);
    assert!(run.err.contains("case.json: the paper is unfinished: "), "{}", run.err);
}

#[test]
fn an_addendum_says_what_changed() {
    let bench = Bench::new();
    bench.case("case.json", |_| {});
    let addendum = serde_json::json!({
        "text": "The family name was misspelt.",
        "by": "Ms A",
        "at": "2026-06-30T07:00",
        "values": { "patient": { "family_name": "Threlkeld-Moss" } },
    });
    bench.write("addendum.json", addendum.to_string());
    let run = bench.run(&["paper", "addendum", "case.json", "--addendum", "addendum.json"]).expect(1);
    let why = "The paper is unfinished: The entry has not been signed; until then change it itself.\n";
    assert_eq!(run.err, why, "a case file is signed by nobody");
    for words in ["The family name was misspelt.", "Threlkeld-Moss", "Ms A"] {
        assert!(run.out.contains(words), "{words} is on it: {}", run.out);
    }
}

#[test]
fn an_own_template_takes_the_place_of_the_built_in_one() {
    let bench = Bench::new();
    bench.case("case.json", |_| {});
    let built_in = bench.run(&["template", "show", "operative-note"]).expect(0).out;
    bench.write("ours.md", format!("Our own words.\n\n{built_in}"));
    let run = bench.run(&["template", "check", "operative-note", "ours.md"]).expect(0);
    assert_eq!((run.out.as_str(), run.err.as_str()), ("No flaws.\n", ""), "the built-in one is a good beginning");
    let run = bench.run(&["paper", "operative-note", "case.json", "--template", "ours.md"]).expect(0);
    assert!(run.out.contains("Our own words."), "the paper is made with it");
    assert!(run.out.contains("ours, version 1"), "and names it: {}", run.out);

    bench.write("bad.md", "First.\n\nDear {{ patient.gven_name }}\n");
    let said = "bad.md:3:17: ";
    let run = bench.run(&["template", "check", "operative-note", "bad.md"]).expect(1);
    assert!(run.out.starts_with(said) && run.out.contains("patient.given_name"), "place and nearest name: {}", run.out);
    let json = bench.run(&["template", "check", "operative-note", "bad.md", "--json"]).expect(1).json();
    assert_eq!((&json["flaws"][0]["line"], &json["flaws"][0]["column"]), (&3.into(), &17.into()), "also in JSON");
    let run =
        bench.run(&["paper", "operative-note", "case.json", "--template", "bad.md", "--to", "note.pdf"]).expect(2);
    assert!(run.err.starts_with(said), "{}", run.err);
    assert!(!bench.path("note.pdf").exists(), "no paper is made with it");
}

#[test]
fn a_template_s_names_are_listed() {
    let bench = Bench::new();
    let case = demo_case("medial-part.json");
    let names = bench.run(&["template", "names", "discharge-letter"]).expect(0).out;
    assert!(names.lines().any(|line| line.starts_with("patient.family_name ")), "{names}");
    let json = bench.run(&["template", "names", "discharge-letter", "--case", &case, "--json"]).expect(0).json();
    let names = json["names"].as_array().unwrap();
    assert!(
        names.iter().any(|name| name["name"] == "patient.family_name" && name["example"] == "Nguyễn"),
        "an example"
    );
    let shown = bench.run(&["template", "show", "discharge-letter", "--language", "es"]).expect(0).out;
    assert!(shown.contains("{%") || shown.contains("{{"), "the template itself: {shown}");
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
