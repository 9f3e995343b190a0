//! Signing an entry and adding to a signed one.

use evengap_notebook::{NewPaper, Notebook, NotebookError, Signature, State};

use crate::bench::{Bench, at, id, named, passphrase, past_the_door, save, sign};
use crate::exchange::dump;

fn quill(clock: &str) -> Option<Signature> {
    Some(Signature { by: "Ms Orla Quill".into(), at: format!("2026-06-30T{clock}") })
}

#[test]
fn a_signed_entry_says_who_and_when() {
    let bench = Bench::new();
    let mut notebook = bench.notebook([named(1, "Mavis", "Threlkeld"), named(2, "Ivo", "Sandringford")]);
    sign(&mut notebook, &named(1, "Mavis", "Threlkeld"), &[], at("17:30")).unwrap();
    let shown = notebook.show(id(1)).unwrap();
    assert_eq!((shown.state, shown.signed), (State::Signed, quill("17:30")), "who and when");
    assert_eq!((shown.number, shown.by.as_str()), (1, "Ms Orla Quill"), "the draft keeps its number");
    assert_eq!(shown.case, named(1, "Mavis", "Threlkeld"), "nothing in it changed");
    let states: Vec<_> = notebook.list().unwrap().into_iter().map(|line| (line.name, line.state)).collect();
    assert!(states.contains(&("Threlkeld, Mavis".into(), State::Signed)), "the list says it: {states:?}");
    assert_eq!(notebook.show(id(2)).unwrap().signed, None, "no other entry is");

    let error = save(&mut notebook, &named(1, "Mavis", "Changed"), at("18:00")).unwrap_err();
    let said = "The entry 00000000-0000-0000-0000-000000000001 is signed and never changes; add an addendum.";
    assert_eq!(error.to_string(), said, "saving is refused");
    assert_eq!(
        sign(&mut notebook, &shown.case, &[], at("18:00")).unwrap_err().to_string(),
        said,
        "so is signing again"
    );
    assert_eq!(notebook.show(id(1)).unwrap().signed, quill("17:30"), "the first signature stays");
}

#[test]
fn only_what_was_looked_at_is_signed() {
    let bench = Bench::new();
    let mut notebook = bench.notebook([named(1, "Mavis", "Threlkeld")]);
    let error = sign(&mut notebook, &named(1, "Mavis", "Threl"), &[], at("17:30")).unwrap_err();
    assert!(matches!(error, NotebookError::ChangedMeanwhile(_)), "another program saved in between: {error}");
    let error = sign(&mut notebook, &named(2, "Ivo", "Sandringford"), &[], at("17:30")).unwrap_err();
    assert!(matches!(error, NotebookError::UnknownCase(_)), "never saved: {error}");
    assert_eq!(notebook.show(id(1)).unwrap().state, State::Draft, "nothing was signed");
}

#[test]
fn only_the_state_that_the_papers_name_is_signed() {
    let bench = Bench::new();
    let case = named(1, "Mavis", "Threlkeld");
    let mut notebook = bench.notebook([case.clone()]);
    let node = notebook.node_when_signed(&case, at("17:30")).unwrap();
    let paper = NewPaper {
        kind: "operative-note".into(),
        language: "en".into(),
        page: "a4".into(),
        template_name: "Ours".into(),
        template_version: 1,
        unfinished: vec![],
        warnings: vec![],
        bytes: node.fingerprint().into_bytes(),
    };
    let error = notebook.sign(&case, &case, node, std::slice::from_ref(&paper), at("17:31")).unwrap_err();
    assert!(matches!(error, NotebookError::ChangedMeanwhile(_)), "a minute later it is another state: {error}");
    // Somebody else changes an answer and takes it back: the same answers, but another state.
    let mut other = Notebook::open(&bench.file(), &passphrase(), at("17:29")).unwrap();
    save(&mut other, &named(1, "Mavis", "Moss"), at("17:29")).unwrap();
    save(&mut other, &case, at("17:29")).unwrap();
    let before = dump(&other);
    let error = notebook.sign(&case, &case, node, std::slice::from_ref(&paper), at("17:30")).unwrap_err();
    assert!(matches!(error, NotebookError::ChangedMeanwhile(_)), "its paper would name no state: {error}");
    assert_eq!(dump(&other), before, "nothing was signed and nothing kept");
    let node = notebook.node_when_signed(&case, at("17:30")).unwrap();
    let signed = notebook.sign(&case, &case, node, &[paper], at("17:30")).unwrap();
    assert_eq!((signed, notebook.head(id(1)).unwrap()), (node, Some(node)), "and then the one that was promised");
}

#[test]
fn an_addendum_is_a_new_version() {
    let bench = Bench::new();
    let mut notebook = bench.notebook([named(1, "Mavis", "Threlkeld")]);
    let (first, second) = (named(1, "Mavis", "Threlkeld"), named(1, "Mavis", "Threlkeld-Moss"));
    sign(&mut notebook, &first, &[], at("17:30")).unwrap();
    assert_eq!(notebook.add_addendum(&first, " Seen on the ward. ", 1, at("18:00")).unwrap(), 2, "the first addendum");
    assert_eq!(notebook.add_addendum(&second, "She has married.", 2, at("19:00")).unwrap(), 3, "the next");

    let newest = notebook.show(id(1)).unwrap();
    assert_eq!((newest.number, &newest.case), (3, &second), "the entry is as it is since the newest addendum");
    assert_eq!(newest.addendum_text.as_deref(), Some("She has married."), "with its text");
    assert_eq!((newest.state, newest.signed), (State::Signed, quill("17:30")), "signed as it was");
    assert_eq!(newest.saved_at, "2026-06-30T19:00", "written when it was added");
    assert_eq!(notebook.entry_at(id(1), 1).unwrap().case, first, "what was signed is still there");
    assert_eq!(notebook.entry_at(id(1), 1).unwrap().addendum_text, None, "and is no addendum");
    let lines: Vec<_> = notebook.addenda(id(1)).unwrap().into_iter().map(|line| (line.number, line.text)).collect();
    assert_eq!(lines, [(2, "Seen on the ward.".into()), (3, "She has married.".into())], "the oldest first");
    assert_eq!(notebook.find("moss").unwrap().len(), 1, "search follows the newest version");
    assert_eq!(notebook.list().unwrap()[0].name, "Threlkeld-Moss, Mavis", "so does the list");
    drop(notebook);
    let opened = Notebook::open(&bench.file(), &passphrase(), at("12:00")).unwrap();
    assert_eq!(opened.show(id(1)).unwrap().case, second, "all of it is in the file");
}

#[test]
fn what_is_no_addendum_is_refused() {
    let bench = Bench::new();
    let case = named(1, "Mavis", "Threlkeld");
    let mut notebook = bench.notebook([case.clone()]);
    let error = notebook.add_addendum(&case, "words", 1, at("18:00")).unwrap_err().to_string();
    assert!(error.ends_with("is a draft; change the draft itself, or sign it before adding to it."), "draft: {error}");
    sign(&mut notebook, &case, &[], at("17:30")).unwrap();
    let error = notebook.add_addendum(&case, " \n", 1, at("18:00")).unwrap_err().to_string();
    assert_eq!(error, "The addendum has no text; write what it adds or corrects, and why.", "blank");
    let error = notebook.add_addendum(&named(2, "Ivo", "Sandringford"), "words", 1, at("18:00")).unwrap_err();
    assert!(matches!(error, NotebookError::UnknownCase(_)), "not in the notebook: {error}");
    let error = notebook.entry_at(id(1), 2).unwrap_err().to_string();
    assert_eq!(error, "The entry 00000000-0000-0000-0000-000000000001 has no version 2.", "nothing was added");
}

#[test]
fn the_file_itself_keeps_what_was_signed() {
    let bench = Bench::new();
    let case = named(1, "Mavis", "Threlkeld");
    let mut notebook = bench.notebook([case.clone()]);
    sign(&mut notebook, &case, &[], at("17:30")).unwrap();
    notebook.add_addendum(&case, "words", 1, at("18:00")).unwrap();
    let beside = past_the_door(&bench.file());
    for sql in [
        "UPDATE entry SET body = '{}' WHERE number = 1",
        "UPDATE entry SET addendum_text = 'other words' WHERE number = 2",
        "DELETE FROM entry WHERE number = 2",
    ] {
        let error = beside.execute(sql, []).unwrap_err().to_string();
        assert!(error.starts_with("a signed entry"), "{sql}: {error}");
    }
}

#[test]
fn an_addendum_is_to_what_was_looked_at() {
    let bench = Bench::new();
    let case = named(1, "Mavis", "Threlkeld");
    let mut notebook = bench.notebook([case.clone()]);
    sign(&mut notebook, &case, &[], at("17:30")).unwrap();
    notebook.add_addendum(&named(1, "Mavis", "Moss"), "She has married.", 1, at("18:00")).unwrap();
    let error = notebook.add_addendum(&case, "The bottle was read again.", 1, at("19:00")).unwrap_err();
    assert!(matches!(error, NotebookError::ChangedMeanwhile(_)), "it would take the other one back: {error}");
    assert_eq!(notebook.show(id(1)).unwrap().case, named(1, "Mavis", "Moss"), "the first addendum stands");
    let error = notebook.add_addendum(&case, "words", 2, at("17:59")).unwrap_err().to_string();
    let said = "The addendum would be dated 2026-06-30T17:59, before 2026-06-30T18:00, when what it adds to was written; \
                set the clock right.";
    assert_eq!(error, said, "no addendum comes before what it adds to");
    for blank in ["\u{200B}", " \u{2800}\u{00AD} ", "\u{3164}\u{115F}", "\u{FEFF}\u{2060}", "--"] {
        let error = notebook.add_addendum(&case, blank, 2, at("19:00")).unwrap_err();
        assert!(matches!(error, NotebookError::NoAddendumText), "{blank:?} says nothing: {error}");
    }
}

#[test]
fn replacing_is_no_way_around() {
    let bench = Bench::new();
    let case = named(1, "Mavis", "Threlkeld");
    let mut notebook = bench.notebook([case.clone()]);
    sign(&mut notebook, &case, &[], at("17:30")).unwrap();
    let beside = past_the_door(&bench.file());
    let columns = "case_id, number, kind, author, written_at, schema, body";
    for sql in [
        format!("INSERT OR REPLACE INTO entry ({columns}) SELECT case_id, number, kind, 1, 'x', 1, '{{}}' FROM entry"),
        format!(
            "INSERT OR REPLACE INTO entry (sequence, {columns}) SELECT sequence, 'y', 9, 'draft', 1, 'x', 1, '{{}}' FROM entry"
        ),
    ] {
        let error = beside.execute(&sql, []).unwrap_err().to_string();
        assert_eq!(error, "a signed entry is never replaced", "{sql}");
    }
    let second = format!("INSERT INTO entry ({columns}) SELECT case_id, 2, 'signed', 1, 'x', 1, '{{}}' FROM entry");
    let error = beside.execute(&second, []).unwrap_err().to_string();
    assert!(error.starts_with("UNIQUE constraint failed"), "an entry is signed once: {error}");
}
