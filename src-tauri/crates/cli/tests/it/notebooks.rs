//! `notebook`: from a new one to what is found in it.

use serde_json::json;

use crate::bench::{Bench, WORDS, demo_case};

fn with_demo_cases() -> Bench {
    let bench = Bench::new();
    bench.run(&["notebook", "new", "knees.evengap", "--writer", "Ms Orla Quill"]).expect(0);
    let cases = ["medial-part.json", "whole-knee-cemented.json", "whole-knee-cementless.json"].map(demo_case);
    let mut arguments = vec!["notebook", "add", "knees.evengap"];
    arguments.extend(cases.iter().map(String::as_str));
    bench.run(&arguments).expect(0);
    bench
}

#[test]
fn new_add_list_find_show() {
    let bench = with_demo_cases();
    let list = bench.run(&["notebook", "list", "knees.evengap"]).expect(0);
    let days: Vec<_> = list.out.lines().map(|line| &line[..10]).collect();
    assert_eq!(days, ["2026-05-12", "2026-04-16", "2026-03-10"], "newest operation first: {}", list.out);

    let found = bench.run(&["notebook", "find", "knees.evengap", "nguyen"]).expect(0);
    assert_eq!(found.out.lines().count(), 1, "one of them: {}", found.out);
    assert!(found.out.contains("Nguyễn, Thị Thảo"), "the right one: {}", found.out);
    let nobody = bench.run(&["notebook", "find", "knees.evengap", "nobody"]).expect(0);
    assert_eq!((nobody.out.as_str(), nobody.err.as_str()), ("", ""), "finding nothing is an answer");

    let line = bench.run(&["notebook", "find", "knees.evengap", "march", "2026", "--json"]).expect(0).json();
    let id = line["cases"][0]["id"].as_str().unwrap();
    let shown = bench.run(&["notebook", "show", "knees.evengap", id]).expect(0);
    let file = std::fs::read_to_string(demo_case("whole-knee-cemented.json")).unwrap();
    let (given, kept) = (evengap_case::read(&file).unwrap().case, evengap_case::read(&shown.out).unwrap().case);
    assert_eq!(kept, given, "what was added comes back as a case file");
    let entry = bench.run(&["notebook", "show", "knees.evengap", id, "--json"]).expect(0).json();
    assert_eq!(
        (&entry["state"], &entry["saved_at"]),
        (&json!("draft"), &json!("2026-06-30T08:00")),
        "and how it stands"
    );
}

#[test]
fn the_passphrase_may_come_from_a_file() {
    let bench = with_demo_cases();
    bench.write("words", format!("{WORDS}\r\nsecond line\n"));
    let list = ["notebook", "list", "knees.evengap", "--passphrase-file", "words"];
    assert_eq!(bench.run_with(&list, "").expect(0).out.lines().count(), 3, "its first line counts");
    let run = bench.run_with(&["notebook", "list", "knees.evengap", "--passphrase-file", "none"], "").expect(2);
    assert_eq!(run.err, "There is no passphrase file none. Check the name.\n");
    let run = bench.run_with(&["notebook", "list", "knees.evengap"], "").expect(2);
    assert_eq!(run.err, "The passphrase is empty; type one.\n", "nothing on standard input");
}

#[test]
fn a_case_without_identifier_gets_a_new_one() {
    let bench = with_demo_cases();
    bench.case("case.json", |case| {
        case.as_object_mut().unwrap().remove("id");
    });
    let add = ["notebook", "add", "knees.evengap", "case.json", "--json"];
    let ids = [0, 1].map(|_| bench.run(&add).expect(0).json()["added"][0]["id"].as_str().unwrap().to_owned());
    assert_ne!(ids[0], ids[1], "each time another one");
    assert!(ids.iter().all(|id| id.parse::<evengap_case::CaseId>().is_ok_and(|id| !id.0.is_nil())), "{ids:?}");
}

#[test]
fn adding_the_same_file_again() {
    let bench = with_demo_cases();
    bench.case("case.json", |_| {});
    let add = ["notebook", "add", "knees.evengap", "case.json"];
    let first = bench.run(&add).expect(0);
    assert_eq!(first.out, "7d5a0c9e-30a4-4c43-9c39-1f5d2f3a9b10\n", "its identifier");
    let again = bench.run(&add).expect(0);
    assert_eq!(again.out, "7d5a0c9e-30a4-4c43-9c39-1f5d2f3a9b10 was there already\n", "no error");
    bench.case("case.json", |case| case["knee"]["side"] = "right".into());
    let before = bench.everything();
    let other = bench.run(&add).expect(2);
    let sentence = "The notebook already holds another entry with the identifier 7d5a0c9e-30a4-4c43-9c39-1f5d2f3a9b10. \
                    Open that one, or take the \"id\" out of the file to add it as a new entry.\n";
    assert_eq!(other.err, sentence, "another entry under the same identifier");
    assert!(before == bench.everything(), "and the notebook is as it was");
}

#[test]
fn unknown_keys_come_back() {
    let bench = with_demo_cases();
    bench.case("case.json", |case| case["patient"]["shoe_size"] = json!([38.5, null, { "left": "ß" }]));
    let run = bench.run(&["notebook", "add", "knees.evengap", "case.json"]).expect(0);
    assert_eq!(run.err, "case.json: kept, not known: patient.shoe_size\n", "reported");
    let shown = bench.run(&["notebook", "show", "knees.evengap", run.out.trim()]).expect(0).json();
    assert_eq!(shown["patient"]["shoe_size"], json!([38.5, null, { "left": "ß" }]), "and kept");
}

#[test]
fn signing_from_the_terminal() {
    let bench = with_demo_cases();
    let case = demo_case("medial-part.json");
    let id = bench.run(&["review", &case, "--json"]).expect(0);
    assert!(!id.out.contains("\"blocks\": true"), "nothing stands against this one");
    let list = bench.run(&["notebook", "find", "knees.evengap", "Nguyễn", "--json"]).expect(0).json();
    let id = list["cases"][0]["id"].as_str().unwrap().to_owned();
    let sign = ["notebook", "sign", "knees.evengap", &id];
    let run = bench.run(&sign).expect(0);
    assert_eq!(run.out, "Signed by Ms Orla Quill on 2026-06-30T08:00.\n", "who and when");
    let again = bench.run(&sign).expect(2);
    assert!(again.err.contains("is signed and never changes"), "only once: {}", again.err);
    let shown = bench.run(&["notebook", "show", "knees.evengap", &id, "--json"]).expect(0).json();
    assert_eq!((&shown["state"], &shown["signed"]["by"]), (&"signed".into(), &"Ms Orla Quill".into()));

    bench.case("case.json", |_| {});
    let draft = bench.run(&["notebook", "add", "knees.evengap", "case.json"]).expect(0).out;
    let run = bench.run(&["notebook", "sign", "knees.evengap", draft.trim()]).expect(2);
    assert!(run.err.starts_with("The entry cannot be signed yet; "), "{}", run.err);
    assert!(run.err.lines().count() > 3, "and every place: {}", run.err);
}
