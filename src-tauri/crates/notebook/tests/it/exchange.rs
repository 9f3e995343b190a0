//! Two notebooks exchange cases: told apart by their histories, kept aside, settled, and nothing lost.

use std::path::PathBuf;

use evengap_case::Case;
use evengap_notebook::{
    ExchangeError, ExchangeReport, Keep, NewPaper, Node, Notebook, NotebookError, Outcome, PaperKey, State,
};
use tempfile::TempDir;

use crate::bench::{at, create, id, named, passphrase, past_the_door, sign};

/// Some notebooks in one folder, and the files that go from one to another.
pub struct Ring {
    folder: TempDir,
    written: usize,
}

impl Ring {
    pub fn new() -> Self {
        Self { folder: TempDir::new().unwrap(), written: 0 }
    }

    pub fn notebook(&self, name: &str) -> Notebook {
        create(&self.folder.path().join(name)).unwrap()
    }

    /// Writes everything of a notebook into a new file.
    pub fn file(&mut self, from: &Notebook) -> PathBuf {
        self.written += 1;
        let path = self.folder.path().join(format!("{}.evengap-exchange", self.written));
        from.write_exchange(&path, &passphrase(), None, at("20:00")).unwrap();
        path
    }

    /// Takes everything of one notebook into another one.
    pub fn send(&mut self, from: &Notebook, to: &mut Notebook) -> ExchangeReport {
        let file = self.file(from);
        let report = read(to, &file).unwrap();
        let (once, wholly) = (dump(to), to.verify().unwrap().problems);
        assert_eq!(wholly, [] as [&str; 0], "what was read is whole");
        read(to, &file).unwrap();
        assert_eq!(dump(to), once, "reading it again changes nothing");
        report
    }
}

pub fn read(to: &mut Notebook, file: &std::path::Path) -> Result<ExchangeReport, NotebookError> {
    to.read_exchange(file, &passphrase(), at("21:00"))
}

/// Saves on top of what stands.
pub fn save(notebook: &mut Notebook, case: &Case, clock: &str) -> Node {
    let head = notebook.head(case.id).unwrap();
    notebook.save(case, head, at(clock)).unwrap()
}

/// Every row of every table that is not made from others.
pub fn dump(notebook: &Notebook) -> Vec<String> {
    let file = past_the_door(notebook.path());
    let mut rows = Vec::new();
    for table in ["person", "entry", "step", "aside", "aside_paper", "ledger", "kept_paper", "case_line"] {
        let mut statement = file.prepare(&format!("SELECT * FROM {table} ORDER BY 1")).unwrap();
        let columns = statement.column_count();
        let of = |row: &rusqlite::Row<'_>| {
            let values: Vec<_> = (0..columns).map(|at| format!("{:?}", row.get_ref(at).unwrap())).collect();
            Ok(format!("{table}: {}", values.join(" | ")))
        };
        rows.extend(statement.query_map([], of).unwrap().map(Result::unwrap));
    }
    rows
}

fn what(report: &ExchangeReport) -> Vec<Outcome> {
    report.cases.iter().map(|case| case.what).collect()
}

fn paper(bytes: &[u8]) -> NewPaper {
    NewPaper {
        kind: "operative-note".into(),
        language: "en".into(),
        page: "a4".into(),
        template_name: "Ours".into(),
        template_version: 3,
        unfinished: vec![],
        warnings: vec!["one".into()],
        bytes: bytes.to_vec(),
    }
}

fn kept(notebook: &Notebook, number: u32) -> Option<Vec<u8>> {
    let key = PaperKey { id: id(1), number, kind: "operative-note", language: "en", page: "a4" };
    notebook.kept_paper(key).unwrap().map(|paper| paper.bytes)
}

fn threlkeld() -> Case {
    named(1, "Mavis", "Threlkeld")
}

#[test]
fn new_same_newer_and_older() {
    let mut ring = Ring::new();
    let (mut theatre, mut clinic) = (ring.notebook("theatre"), ring.notebook("clinic"));
    save(&mut theatre, &threlkeld(), "09:00");
    save(&mut theatre, &named(2, "Ivo", "Sandringford"), "09:00");
    let early = ring.file(&theatre);

    let report = ring.send(&theatre, &mut clinic);
    assert_eq!(what(&report), [Outcome::New, Outcome::New], "nothing was here");
    assert_eq!(report.cases[0].name, "Threlkeld, Mavis", "called by their names");
    assert_eq!((report.written_by.as_str(), report.written_at.as_str()), ("Ms Orla Quill", "2026-06-30T20:00"), "from");
    assert_eq!(clinic.show(id(1)).unwrap().saved_at, "2026-06-30T09:00", "dated as it was written");
    assert_eq!(clinic.find("threl").unwrap().len(), 1, "and found at once");
    assert_eq!(clinic.head(id(1)).unwrap(), theatre.head(id(1)).unwrap(), "by the same name");

    assert_eq!(what(&ring.send(&clinic, &mut theatre)), [Outcome::Same, Outcome::Same], "sent back");
    save(&mut clinic, &named(1, "Mavis", "Moss"), "10:00");
    let report = ring.send(&clinic, &mut theatre);
    assert_eq!(what(&report), [Outcome::Newer, Outcome::Same], "it follows from ours");
    assert_eq!((report.new, report.newer, report.same, report.older, report.conflicts), (0, 1, 1, 0, 0), "counted");
    assert_eq!(theatre.show(id(1)).unwrap().case, named(1, "Mavis", "Moss"), "and was taken");
    assert_eq!(theatre.history(id(1)).unwrap().len(), 2, "with what was before it");
    assert_eq!(what(&ring_read(&mut theatre, &early)), [Outcome::Older, Outcome::Same], "the first file again");
    assert_eq!(theatre.show(id(1)).unwrap().case, named(1, "Mavis", "Moss"), "takes nothing back");
}

fn ring_read(to: &mut Notebook, file: &std::path::Path) -> ExchangeReport {
    read(to, file).unwrap()
}

/// Two notebooks with one case that was changed in both.
fn apart(ring: &mut Ring) -> (Notebook, Notebook) {
    let (mut theatre, mut clinic) = (ring.notebook("theatre"), ring.notebook("clinic"));
    save(&mut theatre, &threlkeld(), "09:00");
    ring.send(&theatre, &mut clinic);
    save(&mut theatre, &named(1, "Mavis", "Theatre"), "10:00");
    save(&mut clinic, &named(1, "Mavis", "Clinic"), "10:00");
    (theatre, clinic)
}

#[test]
fn a_conflict_keeps_both_and_asks() {
    for keep in Keep::ALL {
        let mut ring = Ring::new();
        let (mut theatre, mut clinic) = apart(&mut ring);
        let report = ring.send(&theatre, &mut clinic);
        assert_eq!(what(&report), [Outcome::Conflict], "neither follows from the other");
        assert_eq!(clinic.show(id(1)).unwrap().case, named(1, "Mavis", "Clinic"), "ours stands");
        let open = clinic.conflicts().unwrap();
        assert_eq!((open.len(), clinic.open_conflicts().unwrap()), (1, 1), "one question");
        let (line, sequence) = (&open[0], open[0].sequence);
        let told = (line.id, line.name.as_str(), line.by.as_str(), line.at.as_str(), line.received_at.as_str());
        let expected = (id(1), "Clinic, Mavis", "Ms Orla Quill", "2026-06-30T10:00", "2026-06-30T21:00");
        assert_eq!(told, expected, "about what");
        let conflict = clinic.conflict(sequence).unwrap();
        assert_eq!(conflict.ours.case, named(1, "Mavis", "Clinic"), "ours");
        assert_eq!(conflict.theirs.case, named(1, "Mavis", "Theatre"), "theirs");
        assert_eq!(conflict.changes.len(), 1, "one answer differs");
        assert_eq!(conflict.choices, Keep::ALL, "between drafts either can be chosen");

        let settled = clinic.settle(sequence, keep, at("22:00")).unwrap();
        let chosen = if keep == Keep::Ours { conflict.ours.case } else { conflict.theirs.case };
        assert_eq!(clinic.show(id(1)).unwrap().case, chosen, "the choice stands");
        assert_eq!(clinic.conflicts().unwrap(), [], "and nothing is open");
        assert_eq!(clinic.history(id(1)).unwrap().len(), 4, "the first, both, and the one that settled them");
        assert_eq!(clinic.verify().unwrap().problems, [] as [&str; 0], "all of it whole");
        let error = clinic.settle(sequence, keep, at("22:00")).unwrap_err();
        assert!(matches!(error, NotebookError::Exchange(ExchangeError::NoConflict(_))), "once is enough: {error}");

        let expected = if keep == Keep::Ours { Outcome::Newer } else { Outcome::Same };
        assert_eq!(what(&ring.send(&clinic, &mut theatre)), [expected], "the other notebook follows");
        assert_eq!(theatre.head(id(1)).unwrap(), Some(settled), "to the very same state");
        assert_eq!(theatre.history(id(1)).unwrap().len(), 4, "with the same history");
        assert_eq!(what(&ring.send(&theatre, &mut clinic)), [Outcome::Same], "and all is said");
    }
}

#[test]
fn a_conflict_settled_elsewhere_is_settled_here() {
    let mut ring = Ring::new();
    let (mut theatre, mut clinic) = apart(&mut ring);
    ring.send(&theatre, &mut clinic);
    ring.send(&clinic, &mut theatre);
    assert_eq!((theatre.open_conflicts().unwrap(), clinic.open_conflicts().unwrap()), (1, 1), "open on both sides");
    let sequence = clinic.conflicts().unwrap()[0].sequence;
    clinic.settle(sequence, Keep::Ours, at("22:00")).unwrap();
    assert_eq!(what(&ring.send(&clinic, &mut theatre)), [Outcome::Newer], "it follows both");
    assert_eq!(theatre.conflicts().unwrap(), [], "so the question is answered");
}

#[test]
fn the_same_choice_on_both_sides_is_no_new_conflict() {
    let mut ring = Ring::new();
    let (mut theatre, mut clinic) = apart(&mut ring);
    ring.send(&theatre, &mut clinic);
    ring.send(&clinic, &mut theatre);
    let (here, there) = (theatre.conflicts().unwrap()[0].sequence, clinic.conflicts().unwrap()[0].sequence);
    theatre.settle(here, Keep::Ours, at("22:00")).unwrap();
    clinic.settle(there, Keep::Theirs, at("22:05")).unwrap();
    assert_eq!(what(&ring.send(&clinic, &mut theatre)), [Outcome::Same], "the same answers");
    ring.send(&theatre, &mut clinic);
    assert_eq!(theatre.head(id(1)).unwrap(), clinic.head(id(1)).unwrap(), "reached on two ways, one state again");
}

#[test]
fn the_same_entry_begun_twice() {
    let mut ring = Ring::new();
    let (mut theatre, mut clinic) = (ring.notebook("theatre"), ring.notebook("clinic"));
    save(&mut theatre, &threlkeld(), "09:00");
    save(&mut clinic, &threlkeld(), "09:30");
    assert_eq!(what(&ring.send(&theatre, &mut clinic)), [Outcome::Same], "no common beginning, the same answers");
    let back = ring.file(&clinic);
    save(&mut clinic, &named(1, "Mavis", "Moss"), "11:00");
    assert_eq!(what(&ring_read(&mut theatre, &back)), [Outcome::Same], "sent back");
    assert_eq!(what(&ring.send(&clinic, &mut theatre)), [Outcome::Newer], "and from there on one history");
    assert_eq!(theatre.verify().unwrap().problems, [] as [&str; 0], "whole");
}

#[test]
fn a_draft_here_is_signed_there() {
    let mut ring = Ring::new();
    let (mut theatre, mut clinic) = (ring.notebook("theatre"), ring.notebook("clinic"));
    save(&mut theatre, &threlkeld(), "09:00");
    ring.send(&theatre, &mut clinic);
    sign(&mut clinic, &threlkeld(), &[paper(b"signed")], at("10:00")).unwrap();
    clinic.add_addendum(&named(1, "Mavis", "Moss"), "She has married.", 1, at("11:00")).unwrap();
    assert_eq!(what(&ring.send(&theatre, &mut clinic)), [Outcome::Older], "a draft takes nothing back");
    let report = ring.send(&clinic, &mut theatre);
    assert_eq!((what(&report), report.papers), (vec![Outcome::Newer], 1), "signed here too, with its paper");
    let shown = theatre.show(id(1)).unwrap();
    assert_eq!((shown.state, shown.number), (State::Signed, 2), "with its addendum");
    assert_eq!(shown.signed, clinic.show(id(1)).unwrap().signed, "by whoever signed it, when they did");
    assert_eq!(theatre.entry_at(id(1), 1).unwrap().case, threlkeld(), "what was signed");
    assert_eq!(kept(&theatre, 1).as_deref(), Some(&b"signed"[..]), "byte for byte");
    let error = theatre.save(&threlkeld(), None, at("12:00")).unwrap_err();
    assert!(matches!(error, NotebookError::Signed(_)), "and it never changes: {error}");
    theatre.add_addendum(&threlkeld(), "And back.", 2, at("12:00")).unwrap();
    assert_eq!(what(&ring.send(&theatre, &mut clinic)), [Outcome::Newer], "addenda follow");
    assert_eq!(clinic.addenda(id(1)).unwrap().len(), 2, "one more");
    assert_eq!(clinic.head(id(1)).unwrap(), theatre.head(id(1)).unwrap(), "the same state");
}

#[test]
fn papers_of_a_version_that_is_here() {
    let mut ring = Ring::new();
    let (mut theatre, mut clinic) = (ring.notebook("theatre"), ring.notebook("clinic"));
    save(&mut theatre, &threlkeld(), "09:00");
    sign(&mut theatre, &threlkeld(), &[], at("10:00")).unwrap();
    ring.send(&theatre, &mut clinic);
    clinic.keep_paper(id(1), 1, &paper(b"made in the clinic"), at("11:00")).unwrap();
    theatre.keep_paper(id(1), 1, &NewPaper { language: "de".into(), ..paper(b"deutsch") }, at("11:00")).unwrap();
    let report = ring.send(&clinic, &mut theatre);
    assert_eq!((what(&report), report.papers), (vec![Outcome::Same], 1), "the paper came");
    assert_eq!(kept(&theatre, 1).as_deref(), Some(&b"made in the clinic"[..]), "and is kept");

    let mut ward = ring.notebook("ward");
    ring.send(&theatre, &mut ward);
    assert_eq!(kept(&ward, 1).as_deref(), Some(&b"made in the clinic"[..]), "and goes on");
}

#[test]
fn both_signed_alone() {
    let mut ring = Ring::new();
    let (mut theatre, mut clinic) = apart(&mut ring);
    sign(&mut theatre, &named(1, "Mavis", "Theatre"), &[paper(b"t")], at("11:00")).unwrap();
    sign(&mut clinic, &named(1, "Mavis", "Clinic"), &[paper(b"c")], at("11:00")).unwrap();
    clinic.add_addendum(&named(1, "Mavis", "Clinic"), "Words of the clinic.", 1, at("12:00")).unwrap();
    theatre.add_addendum(&named(1, "Mavis", "Theatre"), "Words of the theatre.", 1, at("12:00")).unwrap();
    assert_eq!(what(&ring.send(&theatre, &mut clinic)), [Outcome::Conflict], "two signatures");
    let conflict = clinic.conflict(clinic.conflicts().unwrap()[0].sequence).unwrap();
    assert_eq!((conflict.theirs.number, conflict.theirs.text.as_deref()), (2, Some("Words of the theatre.")), "theirs");
    assert_eq!(conflict.choices, [Keep::Ours], "ours is signed and stays");
    let error = clinic.settle(conflict.sequence, Keep::Theirs, at("22:00")).unwrap_err();
    assert!(matches!(error, NotebookError::Exchange(ExchangeError::OursStays)), "no way around: {error}");
    clinic.settle(conflict.sequence, Keep::Ours, at("22:00")).unwrap();
    assert_eq!(clinic.show(id(1)).unwrap().case, named(1, "Mavis", "Clinic"), "ours stays");
    assert_eq!(clinic.history(id(1)).unwrap().len(), 7, "theirs can be read beside it");
    assert_eq!(what(&ring.send(&theatre, &mut clinic)), [Outcome::Older], "asked once");
    assert_eq!(kept(&clinic, 1).as_deref(), Some(&b"c"[..]), "each keeps its paper");

    let mut ward = ring.notebook("ward");
    assert_eq!(what(&ring.send(&clinic, &mut ward)), [Outcome::New], "what was settled there is no question here");
    assert_eq!(ward.history(id(1)).unwrap().len(), 7, "but all of it came along");
}

#[test]
fn signed_there_and_changed_here() {
    let mut ring = Ring::new();
    let (mut theatre, mut clinic) = apart(&mut ring);
    sign(&mut theatre, &named(1, "Mavis", "Theatre"), &[paper(b"t")], at("11:00")).unwrap();
    assert_eq!(what(&ring.send(&theatre, &mut clinic)), [Outcome::Conflict], "our draft does not lie before it");
    assert_eq!(kept(&clinic, 1), None, "no paper of a version that is not in force");
    let sequence = clinic.conflicts().unwrap()[0].sequence;
    assert_eq!(clinic.conflict(sequence).unwrap().choices, [Keep::Theirs], "what is signed stays");
    let error = clinic.settle(sequence, Keep::Ours, at("22:00")).unwrap_err();
    assert!(matches!(error, NotebookError::Exchange(ExchangeError::TheirsStays)), "no draft follows it: {error}");
    let back = ring.file(&clinic);
    clinic.settle(sequence, Keep::Theirs, at("22:00")).unwrap();
    assert_eq!(clinic.show(id(1)).unwrap().state, State::Signed, "signed here now");
    assert_eq!(kept(&clinic, 1).as_deref(), Some(&b"t"[..]), "with the paper that waited");
    assert_eq!(clinic.verify().unwrap().problems, [] as [&str; 0], "whole");
    let versions: Vec<_> = clinic.history(id(1)).unwrap().into_iter().map(|step| step.node).collect();
    assert_eq!(versions.len(), 4, "our draft is in the history: {versions:?}");

    assert_eq!(what(&ring_read(&mut theatre, &back)), [Outcome::Conflict], "the draft, from before it was settled");
    assert_eq!(theatre.conflict(theatre.conflicts().unwrap()[0].sequence).unwrap().choices, [Keep::Ours], "signed");
    assert_eq!(theatre.show(id(1)).unwrap().state, State::Signed, "and stands");
}

#[test]
fn a_ring_of_three() {
    let mut ring = Ring::new();
    let (mut one, mut two, mut three) = (ring.notebook("one"), ring.notebook("two"), ring.notebook("three"));
    save(&mut one, &threlkeld(), "09:00");
    ring.send(&one, &mut two);
    ring.send(&two, &mut three);
    save(&mut one, &named(1, "Mavis", "One"), "10:00");
    save(&mut two, &named(1, "Mavis", "Two"), "10:01");
    save(&mut three, &named(1, "Mavis", "Three"), "10:02");
    ring.send(&one, &mut two);
    assert_eq!(what(&ring.send(&two, &mut three)), [Outcome::Conflict], "two and what it has aside");
    assert_eq!(three.conflicts().unwrap().len(), 2, "both are asked about");
    for line in three.conflicts().unwrap() {
        three.settle(line.sequence, Keep::Ours, at("22:00")).unwrap();
    }
    assert_eq!(what(&ring.send(&three, &mut one)), [Outcome::Newer], "follows one");
    assert_eq!(what(&ring.send(&one, &mut two)), [Outcome::Newer], "and two, by way of one");
    assert_eq!(two.conflicts().unwrap(), [], "whose question is answered");
    let heads = [&one, &two, &three].map(|notebook| notebook.head(id(1)).unwrap());
    assert!(heads.iter().all(|head| *head == heads[0]), "one state everywhere");
    let histories = [&one, &two, &three].map(|notebook| notebook.history(id(1)).unwrap().len());
    assert_eq!(histories, [6, 6, 6], "and one history");
}

#[test]
fn a_file_from_here_and_a_copy_from_before() {
    let mut ring = Ring::new();
    let mut theatre = ring.notebook("theatre");
    save(&mut theatre, &threlkeld(), "09:00");
    let before = dump(&theatre);
    assert_eq!(
        what(&ring.send(&theatre, &mut theatre_again(&theatre))),
        [Outcome::Same],
        "a copy with the same people"
    );
    let own = ring.file(&theatre);
    assert_eq!(what(&ring_read(&mut theatre, &own)), [Outcome::Same], "its own file");
    assert_eq!(dump(&theatre), before, "tells it nothing");

    let mut copy = theatre_again(&theatre);
    save(&mut theatre, &named(1, "Mavis", "Moss"), "10:00");
    assert_eq!(what(&ring.send(&theatre, &mut copy)), [Outcome::Newer], "a restored one catches up");
    assert_eq!(copy.people().unwrap().len(), 1, "with nobody from elsewhere");
}

/// The notebook as somebody restored it from a copy.
fn theatre_again(notebook: &Notebook) -> Notebook {
    let copy = notebook.path().with_extension("copy");
    std::fs::copy(notebook.path(), &copy).unwrap();
    Notebook::open(&copy, &passphrase(), at("12:00")).unwrap()
}

#[test]
fn people_from_elsewhere() {
    let mut ring = Ring::new();
    let (mut theatre, mut clinic) = (ring.notebook("theatre"), ring.notebook("clinic"));
    save(&mut theatre, &threlkeld(), "09:00");
    ring.send(&theatre, &mut clinic);
    let people = clinic.people().unwrap();
    let told: Vec<_> = people.iter().map(|line| (line.from_elsewhere, line.can_open, line.keeper)).collect();
    assert_eq!(told, [(false, true, true), (true, false, false)], "known by the mark, opens nothing, keeps nothing");
    assert_eq!(people[1].mark, theatre.person().mark, "the same mark");
    ring.send(&clinic, &mut theatre);
    assert_eq!(theatre.people().unwrap().len(), 1, "who wrote nothing that came is not named");
}

#[test]
fn only_what_was_asked_for() {
    let ring = Ring::new();
    let (mut theatre, mut clinic) = (ring.notebook("theatre"), ring.notebook("clinic"));
    save(&mut theatre, &threlkeld(), "09:00");
    save(&mut theatre, &named(2, "Ivo", "Sandringford"), "09:00");
    let file = ring.folder.path().join("one.evengap-exchange");
    let written = theatre.write_exchange(&file, &passphrase(), Some(&[id(2), id(2)]), at("20:00")).unwrap();
    assert_eq!((written.cases, written.steps, written.papers), (1, 1, 0), "named twice, written once");
    read(&mut clinic, &file).unwrap();
    let names: Vec<_> = clinic.list().unwrap().into_iter().map(|line| line.name).collect();
    assert_eq!(names, ["Sandringford, Ivo"], "the other one stays at home");
    let error = theatre.write_exchange(&file, &passphrase(), None, at("20:00")).unwrap_err();
    assert!(matches!(error, NotebookError::Exchange(ExchangeError::Exists(_))), "no file is overwritten: {error}");
    let nowhere = ring.folder.path().join("two.evengap-exchange");
    let error = theatre.write_exchange(&nowhere, &passphrase(), Some(&[id(7)]), at("20:00")).unwrap_err();
    assert!(matches!(error, NotebookError::UnknownCase(_)), "no such case: {error}");
    assert!(!nowhere.exists(), "and no half file");
    let left = std::fs::read_dir(ring.folder.path()).unwrap().count();
    assert_eq!(left, 3, "nor anything beside it");
}

#[test]
fn the_same_answers_signed_twice() {
    let mut ring = Ring::new();
    let (mut theatre, mut clinic) = (ring.notebook("theatre"), ring.notebook("clinic"));
    save(&mut theatre, &threlkeld(), "09:00");
    ring.send(&theatre, &mut clinic);
    sign(&mut theatre, &threlkeld(), &[paper(b"t")], at("11:00")).unwrap();
    sign(&mut clinic, &threlkeld(), &[paper(b"c")], at("11:30")).unwrap();
    assert_eq!(what(&ring.send(&theatre, &mut clinic)), [Outcome::Same], "the same answers ask nothing");
    assert_eq!(clinic.conflicts().unwrap(), [], "nothing is open");
    assert_eq!(clinic.show(id(1)).unwrap().saved_at, "2026-06-30T11:30", "each keeps its signature");
    assert_eq!(clinic.history(id(1)).unwrap().len(), 3, "and knows of the other one");
    assert_eq!(kept(&clinic, 1).as_deref(), Some(&b"c"[..]), "and its paper");
}

#[test]
fn two_papers_for_one_place() {
    let mut ring = Ring::new();
    let (mut theatre, mut clinic) = (ring.notebook("theatre"), ring.notebook("clinic"));
    save(&mut theatre, &threlkeld(), "09:00");
    sign(&mut theatre, &threlkeld(), &[], at("10:00")).unwrap();
    ring.send(&theatre, &mut clinic);
    theatre.keep_paper(id(1), 1, &paper(b"theatre"), at("11:00")).unwrap();
    clinic.keep_paper(id(1), 1, &paper(b"clinic"), at("11:00")).unwrap();
    assert_eq!(ring.send(&theatre, &mut clinic).papers, 1, "another paper came");
    assert_eq!(kept(&clinic, 1).as_deref(), Some(&b"clinic"[..]), "the one that is here stays what it is");
    let aside = dump(&clinic).into_iter().filter(|row| row.starts_with("aside_paper")).count();
    assert_eq!(aside, 1, "and the other one is not lost");
}
