//! Addenda that were written on both sides of one common signed entry: each side keeps its own, and can read the other's.

use evengap_notebook::{Branch, ExchangeError, Keep, NewPaper, Notebook, NotebookError, Outcome, PaperKey};

use crate::bench::{at, id, named, sign};
use crate::exchange::{Ring, dump, save};

fn paper(bytes: &[u8]) -> NewPaper {
    NewPaper {
        kind: "addendum".into(),
        language: "en".into(),
        page: "a4".into(),
        template_name: "Ours".into(),
        template_version: 3,
        unfinished: vec![],
        warnings: vec![],
        bytes: bytes.to_vec(),
    }
}

fn kept(notebook: &Notebook, number: u32) -> Option<Vec<u8>> {
    let key = PaperKey { id: id(1), number, kind: "addendum", language: "en", page: "a4" };
    notebook.kept_paper(key).unwrap().map(|paper| paper.bytes)
}

/// Two notebooks with one signed entry, to which each added something of its own, with a paper.
fn added_on_both(ring: &mut Ring) -> (Notebook, Notebook) {
    let (mut theatre, mut clinic) = (ring.notebook("theatre"), ring.notebook("clinic"));
    save(&mut theatre, &named(1, "Mavis", "Threlkeld"), "09:00");
    sign(&mut theatre, &named(1, "Mavis", "Threlkeld"), &[], at("10:00")).unwrap();
    ring.send(&theatre, &mut clinic);
    theatre.add_addendum(&named(1, "Mavis", "Theatre"), "Words of the theatre.", 1, at("11:00")).unwrap();
    theatre.keep_paper(id(1), 2, &paper(b"t"), at("11:00")).unwrap();
    clinic.add_addendum(&named(1, "Mavis", "Clinic"), "Words of the clinic.", 1, at("11:30")).unwrap();
    clinic.keep_paper(id(1), 2, &paper(b"c"), at("11:30")).unwrap();
    (theatre, clinic)
}

fn one_outcome(ring: &mut Ring, from: &Notebook, to: &mut Notebook) -> Outcome {
    let report = ring.send(from, to);
    assert_eq!(report.cases.len(), 1, "one case goes over");
    report.cases[0].what
}

/// What the notebook says in words, newest first: the text of each addendum, and on which branch it lies.
fn texts(notebook: &Notebook) -> Vec<(String, Branch)> {
    let history = notebook.history(id(1)).unwrap();
    history.into_iter().filter_map(|step| Some((step.text?, step.branch))).collect()
}

#[test]
fn each_side_keeps_its_own_and_reads_the_other() {
    let mut ring = Ring::new();
    let (mut theatre, mut clinic) = added_on_both(&mut ring);
    let from_theatre = ring.file(&theatre);
    assert_eq!(one_outcome(&mut ring, &theatre, &mut clinic), Outcome::Conflict, "neither addendum follows the other");
    assert_eq!(one_outcome(&mut ring, &clinic, &mut theatre), Outcome::Conflict, "nor there");
    for (notebook, ours, theirs, paper) in
        [(&mut clinic, "clinic", "theatre", b"c"), (&mut theatre, "theatre", "clinic", b"t")]
    {
        let signed = notebook.entry_at(id(1), 1).unwrap();
        assert_eq!(signed.case, named(1, "Mavis", "Threlkeld"), "what was signed in common stands");
        let sequence = notebook.conflicts().unwrap()[0].sequence;
        let conflict = notebook.conflict(sequence).unwrap();
        let told = (conflict.ours.text.as_deref(), conflict.theirs.text.as_deref());
        let [our_words, their_words] = [ours, theirs].map(|who| format!("Words of the {who}."));
        assert_eq!(told, (Some(our_words.as_str()), Some(their_words.as_str())), "both are shown");
        assert_eq!((conflict.ours.number, conflict.theirs.number), (2, 2), "each is the first after the signature");
        assert_eq!(conflict.choices, [Keep::Ours], "what was added stays");
        let before = dump(notebook);
        let error = notebook.settle(sequence, Keep::Theirs, at("12:00")).unwrap_err();
        assert!(matches!(error, NotebookError::Exchange(ExchangeError::OursStays)), "and is not given up: {error}");
        assert_eq!(dump(notebook), before, "nothing was changed by asking");
        notebook.settle(sequence, Keep::Ours, at("12:00")).unwrap();
        let expected = [(our_words, Branch::Ours), (their_words, Branch::Theirs)];
        let mut found = texts(notebook);
        found.sort_by_key(|(_, branch)| *branch == Branch::Theirs);
        assert_eq!(found, expected, "the other one stays readable");
        assert_eq!(notebook.history(id(1)).unwrap().len(), 4, "draft, signature, and one addendum of each");
        assert_eq!(kept(notebook, 2).as_deref(), Some(&paper[..]), "its own paper is kept");
        let aside = dump(notebook).iter().filter(|row| row.starts_with("aside_paper")).count();
        assert_eq!(aside, 1, "and the other one lies aside");
        assert_eq!(notebook.verify().unwrap().problems, [] as [&str; 0], "whole");
    }
    assert_eq!(one_outcome(&mut ring, &theatre, &mut clinic), Outcome::Older, "it is asked once");
    assert_eq!(one_outcome(&mut ring, &clinic, &mut theatre), Outcome::Older, "on both sides");
    let once = dump(&clinic);
    crate::exchange::read(&mut clinic, &from_theatre).unwrap();
    assert_eq!(dump(&clinic), once, "the file from before it was settled says nothing new");
}

#[test]
fn what_is_added_after_that_is_asked_again() {
    let mut ring = Ring::new();
    let (mut theatre, mut clinic) = added_on_both(&mut ring);
    ring.send(&theatre, &mut clinic);
    let sequence = clinic.conflicts().unwrap()[0].sequence;
    clinic.settle(sequence, Keep::Ours, at("12:00")).unwrap();
    theatre.add_addendum(&named(1, "Mavis", "Theatre"), "More words of the theatre.", 2, at("13:00")).unwrap();
    assert_eq!(one_outcome(&mut ring, &theatre, &mut clinic), Outcome::Conflict, "words that were not read yet");
    let open = clinic.conflicts().unwrap();
    assert_eq!(open.len(), 1, "one question, about the newest");
    let conflict = clinic.conflict(open[0].sequence).unwrap();
    assert_eq!(conflict.theirs.text.as_deref(), Some("More words of the theatre."), "about these words");
    clinic.settle(open[0].sequence, Keep::Ours, at("14:00")).unwrap();
    clinic.add_addendum(&named(1, "Mavis", "Theatre"), "The theatre is right.", 2, at("14:01")).unwrap();
    let expected =
        ["The theatre is right.", "More words of the theatre.", "Words of the theatre.", "Words of the clinic."];
    let found: Vec<_> = texts(&clinic).into_iter().map(|(text, _)| text).collect();
    for text in expected {
        assert!(found.iter().any(|one| one == text), "{text} is lost: {found:?}");
    }
    assert_eq!(clinic.addenda(id(1)).unwrap().len(), 2, "of which two are in force here");
    assert_eq!(clinic.verify().unwrap().problems, [] as [&str; 0], "whole");
}

#[test]
fn a_third_one_gets_both() {
    let mut ring = Ring::new();
    let (mut theatre, mut clinic) = added_on_both(&mut ring);
    let mut ward = ring.notebook("ward");
    assert_eq!(one_outcome(&mut ring, &theatre, &mut ward), Outcome::New, "first the one");
    assert_eq!(one_outcome(&mut ring, &clinic, &mut ward), Outcome::Conflict, "then the other");
    assert_eq!(kept(&ward, 2).as_deref(), Some(&b"t"[..]), "the one that came first is in force");
    assert_eq!(ring.send(&theatre, &mut ward).conflicts, 0, "the first again says nothing new");
    assert_eq!(ward.conflicts().unwrap().len(), 1, "and settles nothing");
    assert_eq!(one_outcome(&mut ring, &ward, &mut clinic), Outcome::Conflict, "the theatre's, by way of the ward");
    assert_eq!(one_outcome(&mut ring, &ward, &mut theatre), Outcome::Conflict, "the clinic's, by way of the ward");
    for notebook in [&theatre, &clinic, &ward] {
        assert_eq!(texts(notebook).len(), 2, "nobody has lost a word");
    }
}
