//! What is refused: exit code 2, one sentence, and not a byte on the disk changed.

use std::fs;

use crate::bench::{Bench, Run, WORDS, demo_case};

/// Runs, expects exit code 2, nothing on standard output, exactly these sentences, and an untouched folder.
#[track_caller]
fn check(bench: &Bench, arguments: &[&str], sentences: &str) {
    check_with(bench, arguments, &format!("{WORDS}\n"), sentences);
}

#[track_caller]
fn check_with(bench: &Bench, arguments: &[&str], input: &str, sentences: &str) {
    let before = bench.everything();
    let run = bench.run_with(arguments, input).expect(2);
    assert_eq!((run.out.as_str(), run.err.trim_end()), ("", sentences), "{arguments:?}");
    assert!(before == bench.everything(), "{arguments:?} wrote something");
}

fn with_notebook() -> Bench {
    let bench = Bench::new();
    bench.case("case.json", |_| {});
    bench.run(&["notebook", "new", "knees.evengap", "--writer", "Ms Orla Quill"]).expect(0);
    bench.run(&["notebook", "add", "knees.evengap", "case.json"]).expect(0);
    bench
}

#[test]
fn case_files() {
    let bench = Bench::new();
    let newer = bench.case("newer.json", |case| case["format"] = "evengap-case/2".into());
    let code = bench.case("code.json", |case| case["knee"]["side"] = "middle".into());
    let day = bench.case("day.json", |case| case["setting"]["operation_date"] = "2026-02-30".into());
    fs::create_dir(bench.path("folder")).unwrap();
    bench.write("list.json", "[]");
    assert!(newer.is_file() && code.is_file() && day.is_file(), "the files of this test");
    for (file, sentence) in [
        (
            "newer.json",
            "newer.json: format: this file is written in evengap-case/2; this program reads evengap-case/1. Use a newer \
             Evengap.",
        ),
        ("code.json", "code.json: knee.side: “middle” is not one of the choices: left, right."),
        (
            "day.json",
            "day.json: setting.operation_date: “2026-02-30” is not a day of the calendar; write it as YYYY-MM-DD, such as \
             2026-03-04.",
        ),
        ("none.json", "There is no file none.json. Check the name and the folder."),
        ("folder", "folder is a folder; give a case file in it."),
        ("list.json", "list.json: A case file is one JSON object; this is something else."),
    ] {
        check(&bench, &["review", file], sentence);
        check(&bench, &["paper", "operative-note", file], sentence);
        check(&bench, &["paper", "operative-note", file, "--to", "note.pdf"], sentence);
        check(&bench, &["notebook", "add", "knees.evengap", file], sentence);
    }
}

#[test]
fn all_problems_at_once() {
    let bench = Bench::new();
    bench.case("case.json", |case| {
        case["knee"]["side"] = "middle".into();
        case["setting"]["operation_date"] = "2026-02-30".into();
    });
    let run = bench.run(&["review", "case.json", "--json"]).expect(2);
    let json = run.json();
    assert_eq!(json["error"]["code"], "refused", "a code to act on");
    let places: Vec<_> = json["error"]["places"].as_array().unwrap().iter().map(|place| &place["path"]).collect();
    assert_eq!(places, ["setting.operation_date", "knee.side"], "and both places");
    assert_eq!(run.err.lines().count(), 2, "a sentence for each on standard error: {}", run.err);
}

#[test]
fn one_bad_file_keeps_all_out() {
    let bench = with_notebook();
    bench.case("bad.json", |case| case["knee"]["side"] = "middle".into());
    let good = demo_case("medial-part.json");
    check(
        &bench,
        &["notebook", "add", "knees.evengap", &good, "bad.json"],
        "bad.json: knee.side: “middle” is not one of the choices: left, right.",
    );
}

#[test]
fn papers_over_other_files() {
    let bench = Bench::new();
    bench.case("case.json", |_| {});
    bench.write("note.pdf", "my own words");
    let paper = ["paper", "operative-note", "case.json", "--to", "note.pdf"];
    check(&bench, &paper, "note.pdf exists already. Replace it, or choose another name. (--replace replaces it.)");
    assert_eq!(bench.run(&[paper.as_slice(), &["--json"]].concat()).expect(2).json()["error"]["code"], "exists");
    check(
        &bench,
        &["paper", "operative-note", "case.json", "--to", "none/note.pdf"],
        "The folder none does not exist. Make it first, or choose another.",
    );
    check(
        &bench,
        &["paper", "operative-note", "case.json", "--to", "note.doc"],
        "note.doc: a paper's file ends in one of .pdf, .md, .txt, .html; choose one of them.",
    );
    bench.run(&[paper.as_slice(), &["--replace"]].concat()).expect(0);
    assert!(fs::read(bench.path("note.pdf")).unwrap().starts_with(b"%PDF-"), "told to, it replaces");
    check(&bench, &["demo", "--to", "case.json"], DEMO_IN_A_FILE);
}

#[test]
fn papers_that_do_not_exist_so() {
    let bench = Bench::new();
    bench.case("case.json", |_| {});
    bench.write("addendum.json", r#"{ "text": "", "by": "Ms A", "at": "noon" }"#);
    let addendum = ["--addendum", "addendum.json"];
    for (arguments, sentence) in [
        (
            ["operative-note", "case.json", "--language", "de"].as_slice(),
            "The operative note cannot be written in Deutsch; it is written in English.",
        ),
        (
            &["discharge-letter", "case.json", "--page", "wallet"],
            "The discharge letter does not fit a wallet card; only the component record does. Choose A4 or Letter.",
        ),
        (&["addendum", "case.json"], "Give what the addendum adds: --addendum FILE.json."),
        (&["addendum", "case.json", "case.json"], "An addendum belongs to one case; give one CASE."),
        (
            &["operative-note", "case.json", addendum[0], addendum[1]],
            "--addendum is for the paper addendum; leave it out, or ask for that paper.",
        ),
        (
            &["addendum", "case.json", addendum[0], addendum[1]],
            "addendum.json: text: Say here what is added and why.\naddendum.json: at: “noon” is not a date and time; write \
             it as YYYY-MM-DDTHH:MM, such as 2026-03-04T08:30.",
        ),
        (
            &["operative-note", "case.json", "case.json"],
            "Several cases need --to: a folder, or one file that ends in .pdf.",
        ),
        (
            &["operative-note", "case.json", "case.json", "--to", "notes.txt"],
            "notes.txt: several papers in one file are a PDF; choose a name that ends in .pdf, or a folder.",
        ),
        (
            &["operative-note", "case.json", "--template", "none.md"],
            "There is no file none.md. Check the name and the folder.",
        ),
    ] {
        check(&bench, &[&["paper"], arguments].concat(), sentence);
    }
}

const DEMO_IN_A_FILE: &str = "case.json/both-knees-left cannot be a folder, because a file of that name is in the way; \
                              choose another.";

#[test]
fn notebooks() {
    let bench = with_notebook();
    let list = ["notebook", "list", "knees.evengap"];
    let wrong =
        "The passphrase does not open this notebook. Type it again; small and capital letters and blanks count.\n";
    // That it was wrong is counted in the file, and nothing else of it changes.
    assert_eq!(bench.run_with(&list, "close sesame\n").expect(2).err, wrong);
    bench.run(&list).expect(0);
    check(
        &bench,
        &["notebook", "new", "knees.evengap", "--writer", "Ms A"],
        "knees.evengap exists already. Choose another name for the new notebook.",
    );
    check(
        &bench,
        &["notebook", "list", "none.evengap"],
        "There is no notebook at none.evengap. Check the name and the folder.",
    );
    check(
        &bench,
        &["notebook", "new", "other.evengap", "--writer", " "],
        "The writer's name is empty; give the name of the person who writes in this notebook.",
    );
    check_with(
        &bench,
        &["notebook", "new", "other.evengap", "--writer", "A"],
        "\n",
        "The passphrase is empty; type one.",
    );
    check(
        &bench,
        &["notebook", "show", "knees.evengap", "Tuesday"],
        "“Tuesday” is not a case identifier (a UUID, 36 characters with dashes).",
    );

    let whole = fs::read(bench.path("knees.evengap")).unwrap();
    let mut broken = whole.clone();
    // Behind the door.
    broken[32 * 1024 + 4096 * 3] ^= 1;
    bench.write("knees.evengap", &broken);
    let damaged = "knees.evengap is damaged: one page is not as it was written. Nothing was changed; use a copy of it from \
                   before.";
    check(&bench, &list, damaged);
    check(&bench, &["notebook", "add", "knees.evengap", "case.json"], damaged);
    bench.write("knees.evengap", &whole[..whole.len() - 1000]);
    let run: Run = bench.run(&list).expect(2);
    assert!(run.err.starts_with("knees.evengap is damaged: its length of "), "cut short: {}", run.err);
    bench.write("knees.evengap", &whole);
    bench.run(&list).expect(0);
}

#[test]
fn bad_use() {
    let bench = Bench::new();
    for (arguments, said) in [
        (["paper", "sonnet", "case.json"].as_slice(), "[possible values: operative-note, discharge-letter, "),
        (&["paper", "operative-note", "case.json", "--page", "a5"], "[possible values: a4, letter, wallet]"),
        (&["paper", "operative-note", "case.json", "--language", "fr"], "[possible values: en, de, es]"),
        (&["template", "check", "operative-note"], "<FILE>"),
        (&["notebook", "list", "knees.evengap", "--passphrase", "sesame"], "unexpected argument '--passphrase'"),
        (&["review"], "<CASE>"),
        (&["advise"], "unrecognized subcommand 'advise'"),
        (&["schema", "--at", "noon"], "“noon” is not a date and time; write it as YYYY-MM-DDTHH:MM"),
    ] {
        let run = bench.run(arguments).expect(2);
        assert!(run.err.contains(said), "{arguments:?} says {said}: {}", run.err);
        assert_eq!(run.out, "", "{arguments:?} has no result");
        let json = bench.run(&[arguments, &["--json"]].concat()).expect(2).json();
        assert!(json["error"]["message"].as_str().unwrap().contains(said), "{arguments:?} also in JSON: {json}");
    }
}
