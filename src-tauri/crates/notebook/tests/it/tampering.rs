//! What is changed past the door is noticed and named; what cannot be noticed is shown here too.

use std::sync::OnceLock;

use evengap_notebook::{NewPaper, Node, VerifyReport};
use rusqlite::{Connection, params};
use serde_json::{Value, json};
use sha2::{Digest, Sha256};

use crate::bench::{Bench, WORDS, at, case, id, named, past_the_door, save, sign};

const ONE: &str = "00000000-0000-0000-0000-000000000001";
const TWO: &str = "00000000-0000-0000-0000-000000000002";
const THREE: &str = "00000000-0000-0000-0000-000000000003";

fn paper(bytes: &[u8]) -> NewPaper {
    NewPaper {
        kind: "operative-note".into(),
        language: "en".into(),
        page: "a4".into(),
        template_name: "Ours".into(),
        template_version: 4,
        unfinished: vec![],
        warnings: vec![],
        bytes: bytes.to_vec(),
    }
}

/// One: begun, saved, signed with a paper, two addenda. Two: four drafts. Three: one draft.
fn notebook() -> &'static [u8] {
    static BYTES: OnceLock<Vec<u8>> = OnceLock::new();
    BYTES.get_or_init(|| {
        let bench = Bench::new();
        let mut notebook = bench.notebook([named(1, "Mavis", "Threl")]);
        save(&mut notebook, &named(1, "Mavis", "Threlkeld"), at("08:05")).unwrap();
        for (minute, lot) in [("08:06", "A1"), ("08:07", "A2"), ("08:08", "A3"), ("08:09", "A4")] {
            let two = case(2, json!({ "patient": { "family_name": "Sandringford" }, "components": [{ "lot": lot }] }));
            save(&mut notebook, &two, at(minute)).unwrap();
        }
        save(&mut notebook, &named(3, "Brin", "Oakley"), at("08:10")).unwrap();
        sign(&mut notebook, &named(1, "Mavis", "Threlkeld"), &[paper(b"%PDF one")], at("17:30")).unwrap();
        notebook.add_addendum(&named(1, "Mavis", "Moss"), "She has married.", 1, at("18:00")).unwrap();
        notebook.add_addendum(&named(1, "Mavis", "Mosse"), "It is spelt so.", 2, at("19:00")).unwrap();
        drop(notebook);
        std::fs::read(bench.file()).unwrap()
    })
}

/// A copy of the notebook in which nothing is forbidden.
fn unguarded() -> (Bench, Connection) {
    let bench = Bench::new();
    std::fs::write(bench.file(), notebook()).unwrap();
    let beside = past_the_door(&bench.file());
    let triggers: Vec<String> = beside
        .prepare("SELECT name FROM sqlite_schema WHERE type = 'trigger'")
        .unwrap()
        .query_map([], |row| row.get(0))
        .unwrap()
        .collect::<Result<_, _>>()
        .unwrap();
    for trigger in triggers {
        beside.execute_batch(&format!("DROP TRIGGER {trigger}")).unwrap();
    }
    beside.execute_batch("PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON;").unwrap();
    (bench, beside)
}

fn verified(bench: &Bench) -> VerifyReport {
    bench.open(WORDS).unwrap().verify().unwrap()
}

#[track_caller]
fn check(sql: &str, expected: &str) {
    let (bench, beside) = unguarded();
    beside.execute_batch(sql).unwrap_or_else(|error| panic!("{sql}: {error}"));
    drop(beside);
    let problems = verified(&bench).problems;
    assert_eq!(problems.first().map(String::as_str), Some(expected), "{sql}: {problems:#?}");
}

#[test]
fn nothing_was_done() {
    let (bench, beside) = unguarded();
    drop(beside);
    let report = verified(&bench);
    assert_eq!(report.problems, Vec::<String>::new(), "so there is nothing to find");
    let counted = [report.entries, report.signed, report.addenda, report.steps, report.papers, report.ledger_rows];
    assert_eq!(counted, [3, 1, 2, 10, 1, 7], "and everything was looked at");
    assert!(report.pages > 10, "pages too");
}

#[test]
fn a_row_is_removed() {
    check("DELETE FROM ledger WHERE position = 2", "Row 2 of the ledger is missing.");
    check("DELETE FROM ledger WHERE position = 1", "Row 1 of the ledger is missing.");
    check(
        "DELETE FROM ledger WHERE position = 7",
        &format!("Version 3 of the entry {ONE} (addendum) is missing from the ledger."),
    );
    check(
        "DELETE FROM step WHERE sequence = 4",
        &format!(
            "A saved state of the entry {TWO} is missing: the one before saved on 2026-06-30 at 08:08 by Ms Orla Quill."
        ),
    );
    check(
        "DELETE FROM step WHERE sequence = 1",
        &format!("The first saved state of the entry {ONE} is missing or is not the one in row 1 of the ledger."),
    );
    check(
        "DELETE FROM step WHERE sequence = 8",
        &format!("The saved state of version 1 of the entry {ONE} is missing from its history."),
    );
    for number in [1, 2] {
        let sql = format!("DELETE FROM entry WHERE number = {number} AND case_id = '{ONE}'");
        check(&sql, &format!("Version {number} of the entry {ONE} is missing."));
    }
    check(
        "DELETE FROM entry WHERE number = 3",
        &format!("Version 3 of the entry {ONE} (addendum) is missing; row 7 of the ledger has it."),
    );
    check(
        &format!("DELETE FROM entry WHERE case_id = '{TWO}'"),
        &format!("The entry {TWO} is missing (row 2 of the ledger)."),
    );
    check(
        &format!("DELETE FROM entry WHERE case_id = '{THREE}'; DELETE FROM step WHERE case_id = '{THREE}'"),
        &format!("The entry {THREE} is missing (row 3 of the ledger)."),
    );
    check(
        "DELETE FROM kept_paper",
        &format!("A kept paper of version 1 of the entry {ONE} is missing; row 5 of the ledger has it."),
    );
}

#[test]
fn something_is_changed() {
    let holds = |number: u32| {
        format!(
            "What version {number} of the entry {ONE} holds is not what was written: its answers, its author or its time was changed."
        )
    };
    check("UPDATE entry SET body = replace(body, 'Threlkeld', 'Threlkelt') WHERE number = 1", &holds(1));
    check("UPDATE entry SET body = replace(body, 'Mosse', 'Mossa') WHERE number = 3", &holds(3));
    check(
        "UPDATE entry SET body = 'x' || body WHERE number = 2",
        &format!("What version 2 of the entry {ONE} holds is not what was written: it is no entry any more."),
    );
    let differ = |number: u32, what: &str| {
        format!(
            "In version {number} of the entry {ONE} and its history these differ, so one of them was changed: {what}."
        )
    };
    check("UPDATE entry SET addendum_text = 'She has not.' WHERE number = 2", &differ(2, "addendum's text"));
    check("UPDATE entry SET written_at = '2026-06-30T18:01' WHERE number = 2", &differ(2, "time"));
    let other = "INSERT INTO person (id, name, role, mark, added_at) VALUES (2, 'Dr Ann Other', 'surgeon', 'x', 'y');";
    check(&format!("{other} UPDATE entry SET author = 2 WHERE number = 1 AND kind = 'signed'"), &differ(1, "author"));
    check("UPDATE entry SET previous_hash = own_hash WHERE number = 2", &differ(2, "predecessor"));
    check("UPDATE person SET name = 'Ms Orla Quell'", &holds(1));
    // The same in both places.
    check(
        &format!(
            "UPDATE entry SET written_at = '2026-06-30T18:01' WHERE number = 2;
             UPDATE step SET written_at = '2026-06-30T18:01' WHERE number = 2 AND case_id = '{ONE}'"
        ),
        &holds(2),
    );
    check(
        "UPDATE entry SET addendum_text = 'No.' WHERE number = 2; UPDATE step SET addendum_text = 'No.' WHERE number = 2",
        &holds(2),
    );
    check(
        "UPDATE step SET written_at = '2026-06-30T08:00' WHERE sequence = 5",
        &format!(
            "The state of the entry {TWO} saved on 2026-06-30 at 08:00 by Ms Orla Quill, or what leads back to it, is not what was written."
        ),
    );
    check(
        "UPDATE step SET back = replace(back, 'A2', 'A9') WHERE sequence = 5",
        &format!(
            "The state of the entry {TWO} saved on 2026-06-30 at 08:07 by Ms Orla Quill, or what leads back to it, is not what was written."
        ),
    );
    check(
        "UPDATE step SET back = replace(back, 'lot', 'lots') WHERE sequence = 5",
        &format!(
            "What leads back from the state of the entry {TWO} saved on 2026-06-30 at 08:08 by Ms Orla Quill is not what was written."
        ),
    );
    check(
        "UPDATE kept_paper SET bytes = CAST('%PDF 0ne' AS BLOB)",
        &format!("The bytes of the kept operative-note of version 1 of the entry {ONE} are not what was written."),
    );
    let stranger = format!("The kept operative-note of version 1 of the entry {ONE} is not one that the ledger has.");
    for column in
        ["template_name = 'x'", "made_at = '2026-06-30T17:31'", "warnings = '[]x'", "language = 'de'", "page = 'us'"]
    {
        check(&format!("UPDATE kept_paper SET {column}"), &stranger);
    }
    for column in ["number = 2", "hash = own_hash", "own_hash = hash"] {
        check(
            &format!("UPDATE ledger SET {column} WHERE position = 3"),
            &format!("Row 3 of the ledger (begun, the entry {THREE}) is not what was written."),
        );
    }
}

#[test]
fn sums_that_are_none() {
    let unread = |column: &str, index: u32| {
        format!(
            "What is stored of the entry {ONE} cannot be read: Invalid column type Blob at index: {index}, name: {column}."
        )
    };
    check("UPDATE entry SET own_hash = x'00' WHERE number = 3", &unread("own_hash", 6));
    check(
        "UPDATE ledger SET hash = x'00' WHERE position = 3",
        "The tables of the file do not fit together: CHECK constraint failed in ledger.",
    );
}

/// Each letter of a signed entry, turned into its neighbour.
#[test]
fn every_letter_of_a_body() {
    let (bench, beside) = unguarded();
    let notebook = bench.open(WORDS).unwrap();
    let body: String = beside.query_row("SELECT body FROM entry WHERE kind = 'signed'", [], |row| row.get(0)).unwrap();
    for at in 0..body.len() {
        let mut bytes = body.clone().into_bytes();
        bytes[at] ^= 1;
        let changed = String::from_utf8(bytes).unwrap();
        beside.execute("UPDATE entry SET body = ?1 WHERE kind = 'signed'", [&changed]).unwrap();
        let problems = notebook.verify().unwrap().problems;
        let named = problems.first().is_some_and(|first| first.contains(&format!("version 1 of the entry {ONE}")));
        assert!(named, "{changed}: {problems:?}");
    }
    beside.execute("UPDATE entry SET body = ?1 WHERE kind = 'signed'", [&body]).unwrap();
    assert_eq!(notebook.verify().unwrap().problems, Vec::<String>::new(), "and put right again");
}

#[test]
fn two_rows_change_places() {
    let swapped = |table: &str, column: &str, one: i64, other: i64| {
        format!(
            "UPDATE {table} SET {column} = 1000 WHERE {column} = {one}; UPDATE {table} SET {column} = {one} WHERE {column} = {other};
             UPDATE {table} SET {column} = {other} WHERE {column} = 1000"
        )
    };
    check(
        &swapped("ledger", "position", 2, 3),
        &format!("Row 2 of the ledger (begun, the entry {THREE}) is not what was written."),
    );
    check(
        &swapped("step", "sequence", 4, 5),
        &format!(
            "The state of the entry {TWO} saved on 2026-06-30 at 08:08 by Ms Orla Quill stands before the one that it follows: they changed places."
        ),
    );
    check(
        &swapped("entry", "number", 2, 3),
        &format!("Version 2 of the entry {ONE} (addendum) is not the one in row 6 of the ledger."),
    );
}

#[test]
fn a_draft_goes_back() {
    // The newest state is taken away, and the entry is what it was before.
    let back = "
        UPDATE entry SET
            body = replace(body, 'A4', 'A3'), written_at = '2026-06-30T08:08',
            own_hash = (SELECT node FROM step WHERE sequence = 5), previous_hash = (SELECT node FROM step WHERE sequence = 4)
        WHERE case_id LIKE '%2';";
    check(
        back,
        &format!(
            "The newest version of the entry {TWO} does not follow from the state saved on 2026-06-30 at 08:09 by Ms Orla Quill."
        ),
    );
    let removed = format!("{back} DELETE FROM step WHERE sequence = 6;");
    check(&removed, "Saved states are missing: their numbers have a gap.");
}

#[test]
fn lists_that_say_something_else() {
    let again = "is not what it says. Nothing that was written is lost: list and search can be made again.";
    for sql in [
        "UPDATE case_line SET name = 'Nobody' WHERE id LIKE '%2'",
        "DELETE FROM component_line",
        "UPDATE component_line SET lot = 'A9'",
        "UPDATE case_line SET text_sum = NULL WHERE id LIKE '%2'",
        "DELETE FROM case_line WHERE id LIKE '%2'",
        "DELETE FROM case_text WHERE rowid = (SELECT place FROM case_line WHERE id LIKE '%2')",
    ] {
        check(sql, &format!("What list and search know of the entry {TWO} {again}"));
    }
}

/// The encoding as the documentation of the history gives it, written a second time.
fn sum(parts: &[&[u8]]) -> [u8; 32] {
    let mut bytes = Vec::new();
    for part in parts {
        bytes.extend(u64::try_from(part.len()).unwrap().to_be_bytes());
        bytes.extend(*part);
    }
    Sha256::digest(&bytes).into()
}

/// Sorted keys; the entries of this test hold plain texts only.
fn sorted(value: &Value) -> String {
    let Value::Object(map) = value else { return value.to_string() };
    let mut keys: Vec<_> = map.keys().collect();
    keys.sort();
    let pairs: Vec<_> = keys.into_iter().map(|key| format!("{}:{}", json!(key), sorted(&map[key]))).collect();
    format!("{{{}}}", pairs.join(","))
}

/// The node of the first draft of the first entry.
pub fn node_of_first(body: &Value, mark: &str, name: &str, written_at: &str) -> Node {
    let parts = ["evengap step 1", "", "", ONE, "draft", "1", mark, name, written_at, &sorted(body), ""];
    Node(sum(&parts.map(str::as_bytes)))
}

fn node_of_newest(beside: &Connection, body: &Value) -> Node {
    beside
        .query_row(
            "SELECT parent, number, mark, name, written_at, addendum_text FROM step JOIN person ON person.id = author
             WHERE number = 3",
            [],
            |row| {
                let text = |at: usize| row.get::<_, String>(at);
                let parent: [u8; 32] = row.get(0)?;
                Ok(Node(sum(&[
                    b"evengap step 1",
                    &parent,
                    b"",
                    ONE.as_bytes(),
                    b"addendum",
                    b"3",
                    text(2)?.as_bytes(),
                    text(3)?.as_bytes(),
                    text(4)?.as_bytes(),
                    sorted(body).as_bytes(),
                    text(5)?.as_bytes(),
                ])))
            },
        )
        .unwrap()
}

#[test]
fn a_paper_that_lies_aside() {
    let (bench, beside) = unguarded();
    beside
        .execute(
            "INSERT INTO aside_paper (case_id, node, kind, language, page, template_name, template_version, unfinished,
                 warnings, author, made_at, sha256, bytes)
             SELECT case_id, (SELECT node FROM step WHERE kind = 'signed'), kind, 'de', page, template_name,
                 template_version, unfinished, warnings, author, made_at, sha256, bytes
             FROM kept_paper",
            [],
        )
        .unwrap();
    assert_eq!(verified(&bench).problems, Vec::<String>::new(), "it is as it came");
    beside.execute("UPDATE aside_paper SET bytes = x'00'", []).unwrap();
    let said = format!(
        "The bytes of the operative-note of the entry {ONE} that came from another notebook and lies aside are not what \
         was written."
    );
    assert_eq!(verified(&bench).problems, [said], "and now it is not");
}

#[test]
fn somebody_else_can_compute_a_node() {
    let (bench, beside) = unguarded();
    let head = bench.open(WORDS).unwrap().head(id(1)).unwrap();
    assert_eq!(Some(node_of_newest(&beside, &named(1, "Mavis", "Mosse").to_value())), head, "from the documentation");
}

/// Whoever has a key can write the newest end anew, sums and all. Only a head that was noted elsewhere tells.
#[test]
fn what_cannot_be_noticed_here() {
    let (bench, beside) = unguarded();
    let honest = verified(&bench).ledger_head;
    let forged = named(1, "Mavis", "Forged").to_value();
    let node = node_of_newest(&beside, &forged);
    beside.execute("UPDATE step SET node = ?1 WHERE number = 3", [node.0]).unwrap();
    // What leads back from it still leads back: the patch names the answer that it replaces.
    beside
        .execute("UPDATE entry SET body = ?1, own_hash = ?2 WHERE number = 3", params![forged.to_string(), node.0])
        .unwrap();
    let previous: [u8; 32] =
        beside.query_row("SELECT previous_hash FROM ledger WHERE position = 7", [], |row| row.get(0)).unwrap();
    let halfway = verified(&bench).problems;
    let said = format!("Version 3 of the entry {ONE} (addendum) is not the one in row 7 of the ledger.");
    assert_eq!(halfway.first(), Some(&said), "without the ledger it is noticed");
    let own = sum(&[b"evengap ledger 1", b"7", b"addendum", ONE.as_bytes(), b"3", &node.0, &previous]);
    beside.execute("UPDATE ledger SET hash = ?1, own_hash = ?2 WHERE position = 7", params![node.0, own]).unwrap();
    drop(beside);
    let mut notebook = bench.open(WORDS).unwrap();
    notebook.rebuild().unwrap();
    let report = notebook.verify().unwrap();
    assert_eq!(report.problems, Vec::<String>::new(), "all sums fit, so the file alone does not tell");
    assert_ne!(report.ledger_head, honest, "but the head is not the one that was noted before");
}

#[test]
fn an_end_that_was_cut_off() {
    let (bench, beside) = unguarded();
    let honest = verified(&bench);
    beside
        .execute_batch(
            "DELETE FROM ledger WHERE position = 7; DELETE FROM entry WHERE number = 3; DELETE FROM step WHERE number = 3;",
        )
        .unwrap();
    drop(beside);
    let mut notebook = bench.open(WORDS).unwrap();
    notebook.rebuild().unwrap();
    let report = notebook.verify().unwrap();
    assert_eq!(report.problems, Vec::<String>::new(), "the newest addendum is gone and nothing in the file tells");
    assert!(report.ledger_rows < honest.ledger_rows, "but whoever noted how many rows there were knows");
}

#[test]
fn a_history_that_was_changed_is_not_shown() {
    let (bench, beside) = unguarded();
    beside.execute_batch("UPDATE step SET back = replace(back, 'A2', 'A9') WHERE sequence = 5").unwrap();
    drop(beside);
    let error = bench.open(WORDS).unwrap().history(id(2)).unwrap_err().to_string();
    let said = format!(
        "The history of the entry {TWO} is not what was written, so it is not shown. Verify the notebook, and use a copy of \
         it from before."
    );
    assert_eq!(error, said, "rather than to show what never was");
}

/// A byte that is changed on the disk itself, while the notebook is open.
#[test]
fn a_page_that_was_changed() {
    let bench = Bench::new();
    std::fs::write(bench.file(), notebook()).unwrap();
    let notebook = bench.open(WORDS).unwrap();
    let mut bytes = std::fs::read(bench.file()).unwrap();
    let at = bytes.len() - 2000;
    bytes[at] ^= 1;
    std::fs::OpenOptions::new()
        .write(true)
        .open(bench.file())
        .and_then(|mut file| std::io::Write::write_all(&mut file, &bytes))
        .unwrap();
    let problems = notebook.verify().unwrap().problems;
    assert_eq!(problems[0], "The file is damaged: one page is not as it was written.", "{problems:?}");
}
