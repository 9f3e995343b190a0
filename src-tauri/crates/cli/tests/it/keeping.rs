//! `notebook`: people and roles, backups, checks, and cases from notebook to notebook.

use evengap_door::{Door, connect};
use rusqlite::OpenFlags;
use serde_json::{Value, json};

use crate::bench::{Bench, Run, WORDS, demo_case};

const REGISTRAR: &str = "the registrar's own words";
const CLINIC: &str = "the clinic's own words";
const CASE: &str = "7d5a0c9e-30a4-4c43-9c39-1f5d2f3a9b10";

/// A notebook with one entry, a registrar and somebody of the clinic.
fn with_people() -> Bench {
    let bench = Bench::new();
    bench.case("case.json", |_| {});
    bench.write("words", WORDS);
    bench.write("registrar", REGISTRAR);
    bench.write("clinic", CLINIC);
    bench.run(&["notebook", "new", "knees.evengap", "--writer", "Ms Orla Quill"]).expect(0);
    bench.run(&["notebook", "add", "knees.evengap", "case.json"]).expect(0);
    for (name, role) in [("Mr Idris Penhale", "registrar"), ("Ms Clinic", "clinic")] {
        let file = ["--new-passphrase-file", role];
        let add = ["notebook", "person-add", "knees.evengap", name, "--role", role];
        bench.run(&[add.as_slice(), file.as_slice()].concat()).expect(0);
    }
    bench
}

fn as_whom(bench: &Bench, act: &[&str], passphrase: &str) -> Run {
    bench.run_with(&[&["notebook", act[0], "knees.evengap"], &act[1..]].concat(), &format!("{passphrase}\n"))
}

#[test]
fn roles_hold_at_a_terminal() {
    let bench = with_people();
    let denied = |act: &[&str], passphrase: &str, sentence: &str| {
        let before = bench.everything();
        let run = as_whom(&bench, act, passphrase).expect(2);
        assert_eq!((run.out.as_str(), run.err.trim_end()), ("", sentence), "{act:?}");
        assert!(before == bench.everything(), "{act:?} wrote something");
    };
    let registrar = "Mr Idris Penhale is a registrar in this notebook and may not";
    let clinic = "Ms Clinic is somebody of the clinic in this notebook and may not";
    denied(&["sign", CASE], REGISTRAR, &format!("{registrar} sign entries or add to signed ones; a surgeon may."));
    denied(&["people"], REGISTRAR, &format!("{registrar} look after the people of the notebook; a keeper may."));
    denied(&["verify"], REGISTRAR, &format!("{registrar} check the notebook; a keeper may."));
    denied(&["show", CASE], CLINIC, &format!("{clinic} read entries; a surgeon or a registrar may."));
    denied(&["history", CASE], CLINIC, &format!("{clinic} read the history of entries; a surgeon or a registrar may."));
    denied(
        &["back-up", "--to", "copy"],
        CLINIC,
        &format!("{clinic} back up the notebook; a surgeon or a registrar or a keeper may."),
    );
    let note = ["print", "operative-note", CASE, "--to", "note.txt"];
    denied(&note, CLINIC, &format!("{clinic} make this paper; a surgeon or a registrar may."));
    let json = as_whom(&bench, &["show", CASE, "--json"], CLINIC).expect(2).json();
    assert_eq!(json["error"]["code"], "not_allowed", "a code to act on");

    assert_eq!(as_whom(&bench, &["list"], CLINIC).expect(0).out.lines().count(), 1, "the clinic has the list");
    let letter = as_whom(&bench, &["print", "discharge-letter", CASE, "--to", "letter.txt"], CLINIC).expect(1);
    assert!(letter.err.contains("leaves the notebook's protection"), "with a warning: {}", letter.err);
    assert!(bench.path("letter.txt").is_file(), "and the letter, which says that it is not finished");
}

#[test]
fn people_come_and_go() {
    let bench = with_people();
    let list = |bench: &Bench| bench.run(&["notebook", "people", "knees.evengap"]).expect(0).out;
    assert!(list(&bench).contains("Ms Orla Quill     surgeon and keeper"), "{}", list(&bench));
    let change = ["person-change", "Ms Clinic", "--role", "registrar", "--keeper"];
    as_whom(&bench, &change, WORDS).expect(0);
    assert!(list(&bench).contains("registrar and keeper"), "{}", list(&bench));
    bench.write("new", "something quite new");
    as_whom(&bench, &["passphrase", "--for", "Ms Clinic", "--new-passphrase-file", "new"], WORDS).expect(0);
    as_whom(&bench, &["list"], CLINIC).expect(2);
    as_whom(&bench, &["list"], "something quite new").expect(0);
    let two = format!("{REGISTRAR}\nwords of the registrar's own choice\n");
    let own = bench.run_with(&["notebook", "passphrase", "knees.evengap"], &two).expect(0);
    assert!(own.err.contains("still open with the old passphrase"), "{}", own.err);
    as_whom(&bench, &["list"], "words of the registrar's own choice").expect(0);
    let gone = as_whom(&bench, &["person-remove", "Mr Idris Penhale"], WORDS).expect(0);
    assert!(gone.err.contains("from before still open"), "{}", gone.err);
    assert!(list(&bench).contains("registrar, removed on 2026-06-30T08:00"), "{}", list(&bench));
    let refused = as_whom(&bench, &["list"], "words of the registrar's own choice").expect(2);
    assert!(refused.err.starts_with("The passphrase does not open this notebook."), "{}", refused.err);
    let nobody = as_whom(&bench, &["person-remove", "Nobody"], WORDS).expect(2);
    assert!(nobody.err.starts_with("There is nobody called Nobody"), "{}", nobody.err);
    let short = ["person-add", "A", "--role", "clinic"];
    let short = bench
        .run_with(&["notebook", short[0], "knees.evengap", short[1], short[2], short[3]], &format!("{WORDS}\nshort\n"));
    assert!(short.expect(2).err.contains("at least 12 characters"), "a short passphrase");
}

#[test]
fn a_recovery_sheet_is_a_pdf() {
    let bench = with_people();
    let sheet = ["recovery-sheet", "--to", "sheet.pdf"];
    let run = as_whom(&bench, &sheet, WORDS).expect(0);
    assert!(run.err.contains("lock it away"), "{}", run.err);
    assert!(std::fs::read(bench.path("sheet.pdf")).unwrap().starts_with(b"%PDF-"), "a PDF");
    assert!(as_whom(&bench, &sheet, WORDS).expect(2).err.contains("(--replace replaces it.)"), "never over another");
}

#[test]
fn backing_up_restoring_and_checking() {
    let bench = with_people();
    let run = as_whom(&bench, &["back-up"], WORDS).expect(2);
    assert!(run.err.starts_with("No folder for backups is set."), "{}", run.err);
    let back_up = ["back-up", "--to", "copy.evengap"];
    assert_eq!(as_whom(&bench, &[back_up.as_slice(), &["--json"]].concat(), REGISTRAR).expect(0).json()["cases"], 1);
    assert!(as_whom(&bench, &back_up, WORDS).expect(2).err.contains("(--replace replaces it.)"), "never over another");
    let restore = ["notebook", "restore", "copy.evengap", "--to", "new.evengap"];
    assert!(bench.run_with(&restore, &format!("{CLINIC}\n")).expect(2).err.contains("may not restore a backup"));
    assert!(!bench.path("new.evengap").exists(), "nothing is left");
    let run = bench.run(&restore).expect(0);
    assert!(
        run.out.contains(
            "Cases: 1; drafts: 1; signed: 0; addenda: 0; kept papers: 0; people: 3; last saved: 2026-06-30T08:00."
        ),
        "{}",
        run.out
    );
    assert!(
        run.err.contains("when the backup was made can open this one"),
        "who was removed since is back: {}",
        run.err
    );
    assert!(bench.run(&restore).expect(2).err.contains("exists already"), "never over another");
    let report = bench.run(&["notebook", "verify", "new.evengap", "--json"]).expect(0).json();
    assert_eq!((&report["entries"], &report["problems"]), (&json!(1), &json!([])), "all is well");
}

#[test]
fn a_history_at_a_terminal() {
    let bench = with_people();
    let run = as_whom(&bench, &["history", CASE], REGISTRAR).expect(0);
    assert!(run.out.starts_with("2026-06-30T08:00  saved by Ms Orla Quill  "), "{}", run.out);
    assert!(run.out.contains("  Patient, Family name: not recorded -> Threlkeld\n"), "{}", run.out);
    let json = as_whom(&bench, &["history", CASE, "--json"], REGISTRAR).expect(0).json();
    assert_eq!(json["steps"][0]["kind"], "draft", "{json}");
}

#[test]
fn cases_go_from_notebook_to_notebook() {
    let bench = with_people();
    bench.run(&["notebook", "new", "other.evengap", "--writer", "Ms Orla Quill"]).expect(0);
    let two = format!("{WORDS}\nonly for this file\n");
    let send = |from: &str, to: &str| bench.run_with(&["notebook", "send", from, "--to", to], &two).expect(0);
    let receive = |into: &str, from: &str| bench.run_with(&["notebook", "receive", into, from], &two);
    assert!(send("knees.evengap", "one").err.contains("leaves the notebook's protection"), "a warning");
    assert_eq!(
        receive("other.evengap", "one").expect(0).out,
        "New: 1; the same: 0; newer: 0; older: 0; in conflict: 0.\n"
    );
    assert_eq!(
        receive("other.evengap", "one").expect(0).out,
        "New: 0; the same: 1; newer: 0; older: 0; in conflict: 0.\n"
    );
    let wrong = bench.run_with(&["notebook", "receive", "other.evengap", "one"], &format!("{WORDS}\n{WORDS}\n"));
    assert!(wrong.expect(2).err.starts_with("The passphrase does not open the exchange file"), "its own passphrase");
    let none = bench.run(&["notebook", "conflicts", "other.evengap"]).expect(0);
    assert_eq!((none.out.as_str(), none.err.as_str()), ("", "No case went two ways.\n"), "none yet");
    let none = bench.run(&["notebook", "settle", "other.evengap", "7", "--keep", "ours"]).expect(2);
    assert!(none.err.starts_with("There is no open conflict with the number 7"), "{}", none.err);
}

#[test]
fn a_conflict_ends_with_1() {
    let bench = Bench::new();
    for (name, family) in [("a.json", "Ours"), ("b.json", "Theirs")] {
        bench.case(name, |case| case["patient"]["family_name"] = family.into());
    }
    for (notebook, case) in [("a.evengap", "a.json"), ("b.evengap", "b.json")] {
        bench.run(&["notebook", "new", notebook, "--writer", "Ms Orla Quill"]).expect(0);
        bench.run(&["notebook", "add", notebook, case]).expect(0);
    }
    let two = format!("{WORDS}\nonly for this file\n");
    bench.run_with(&["notebook", "send", "b.evengap", "--to", "file"], &two).expect(0);
    let run = bench.run_with(&["notebook", "receive", "a.evengap", "file"], &two).expect(1);
    assert!(run.err.contains("Both versions are kept."), "{}", run.err);
    assert!(run.err.contains("`notebook settle` says which version goes on."), "what to do next: {}", run.err);
    let lines = bench.run(&["notebook", "conflicts", "a.evengap", "--json"]).expect(0).json();
    let number = lines["conflicts"][0]["sequence"].to_string();
    let shown = bench.run(&["notebook", "conflicts", "a.evengap", &number]).expect(0).out;
    assert!(shown.contains("Patient, Family name: ours Ours, theirs Theirs\n"), "{shown}");
    bench.run(&["notebook", "settle", "a.evengap", &number, "--keep", "theirs"]).expect(0);
    let case: Value = bench.run(&["notebook", "show", "a.evengap", CASE]).expect(0).json();
    assert_eq!(case["patient"]["family_name"], "Theirs", "the chosen one goes on");
}

#[test]
fn signing_in_spite_of_a_finding() {
    let bench = Bench::new();
    let mut case: Value =
        serde_json::from_str(&std::fs::read_to_string(demo_case("medial-part.json")).unwrap()).unwrap();
    case["components"][0]["expires_on"] = "2020-01-31".into();
    case["components"][0].as_object_mut().unwrap().remove("scan");
    bench.write("case.json", case.to_string());
    let findings = bench.run(&["review", "case.json", "--json"]).expect(1).json();
    let findings = findings.as_object().map_or(findings.clone(), |all| all["findings"].clone());
    let stands = findings.as_array().unwrap().iter().find(|one| one["blocks"] == true).unwrap().clone();
    assert_eq!(stands["overridable"], true, "{stands}");
    bench.run(&["notebook", "new", "knees.evengap", "--writer", "Ms Orla Quill"]).expect(0);
    let id = bench.run(&["notebook", "add", "knees.evengap", "case.json"]).expect(0).out;
    let sign = ["notebook", "sign", "knees.evengap", id.trim()];
    let refused = bench.run(&sign).expect(2).err;
    let how = json!([{ "rule": stands["rule"], "paths": stands["paths"], "reason": "" }]).to_string();
    assert!(refused.ends_with(&format!("--overrides; it prints on the note:\n{how}\n")), "it says how: {refused}");
    let asked = json!([{ "rule": stands["rule"], "paths": stands["paths"], "reason": "Noticed too late." }]);
    bench.write("overrides.json", asked.to_string());
    bench.write("list.json", "{}");
    let with = |file: &'static str| [sign.as_slice(), &["--overrides", file]].concat();
    assert!(bench.run(&with("list.json")).expect(2).err.starts_with("list.json: these are no overrides"));
    bench.run(&with("overrides.json")).expect(0);
    let entry = bench.run(&["notebook", "show", "knees.evengap", id.trim(), "--json"]).expect(0).json();
    assert_eq!(entry["case"]["overrides"][0]["by"], "Ms Orla Quill", "who stands for it");
}

#[test]
fn wrong_passphrases_slow_down_here_too() {
    let bench = with_people();
    for _ in 0..5 {
        as_whom(&bench, &["list"], "wrong").expect(2);
    }
    let mut waited = false;
    for _ in 0..4 {
        let run = as_whom(&bench, &["list", "--json"], "wrong").expect(2);
        waited |= run.json()["error"]["code"] == "wait";
    }
    assert!(waited, "whatever --at says, the clock on the wall counts");
}

#[test]
fn a_check_names_what_is_broken_and_ends_with_1() {
    let bench = with_people();
    let verify = ["notebook", "verify", "knees.evengap"];
    let whole = std::fs::read(bench.path("knees.evengap")).unwrap();
    let mut flipped = whole.clone();
    *flipped.last_mut().unwrap() ^= 1;
    bench.write("knees.evengap", &flipped);
    let run = bench.run(&verify).expect(1);
    assert!(run.err.starts_with("knees.evengap is damaged: "), "a changed byte: {}", run.err);

    bench.write("knees.evengap", &whole);
    let path = bench.path("knees.evengap");
    let unlocked = Door::read(&path).unwrap().unlock(WORDS).unwrap().unwrap();
    let pages = connect(&path, OpenFlags::SQLITE_OPEN_READ_WRITE, &unlocked.key).unwrap();
    pages.execute_batch("DROP TRIGGER ledger_is_kept; DELETE FROM ledger;").unwrap();
    drop(pages);
    let json = bench.run(&[verify.as_slice(), &["--json"]].concat()).expect(1).json();
    assert!(json["problems"][0].as_str().is_some_and(|first| !first.is_empty()), "a missing row: {json}");
    let run = bench.run(&verify).expect(1);
    assert!(run.err.lines().count() >= 1 && run.out.contains("problem"), "in words: {run:?}");
}
