//! The disk is full, or fails, at every single step of a save.

use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

use evengap_door::faults::{Act, Faults, Op, Verdict};
use evengap_notebook::NotebookError;
use tempfile::TempDir;

use crate::shelf::{Watch, check_sound, create, file, id, now, open, round_of, state};

/// Refuses the step with the given number, of those that `counts` names, and everything of the sort after it.
struct Refusal {
    folder: PathBuf,
    counts: fn(&Act<'_>) -> bool,
    verdict: Verdict,
    from: usize,
    seen: Arc<AtomicUsize>,
    /// Whether what comes after is refused too, as on a full disk.
    stays: bool,
}

impl Faults for Refusal {
    fn before(&mut self, op: &Op<'_>) -> Verdict {
        if !op.path.starts_with(&self.folder) || !(self.counts)(&op.act) {
            return Verdict::Go;
        }
        let seen = self.seen.fetch_add(1, Ordering::Relaxed) + 1;
        if seen == self.from || (self.stays && seen > self.from) { self.verdict } else { Verdict::Go }
    }
}

/// Refuses each step of a save in turn, until the save needs no more of them; gives how many were refused.
#[track_caller]
fn check(
    verdict: Verdict,
    stays: bool,
    counts: fn(&Act<'_>) -> bool,
    expected: fn(&NotebookError) -> bool,
    why: &str,
) -> usize {
    let folder = TempDir::new().unwrap();
    let mut notebook = create(&file(&folder));
    let mut node = notebook.save(&state(0, 1), None, now()).unwrap();
    let watch = Watch::new();
    for from in 1.. {
        let (round, seen) = (from * 2 + 1, Arc::new(AtomicUsize::new(0)));
        watch.set(Refusal { folder: folder.path().to_owned(), counts, verdict, from, seen: Arc::clone(&seen), stays });
        let saved = notebook.save(&state(0, round), Some(node), now());
        watch.clear();
        let refused = seen.load(Ordering::Relaxed) >= from;
        if let Err(error) = &saved {
            let said = error.to_string();
            assert!(expected(error), "{why}, step {from}: {error:?}");
            assert!(said.contains("knees.evengap") && said.ends_with('.'), "{why}, step {from}: a sentence: “{said}”");
        }
        // The old state, or where the step came after the commit the new one: never anything between.
        let stored = notebook.show(id(0)).unwrap_or_else(|error| panic!("{why}, step {from}: {error}"));
        let there = round_of(&stored.case, 0);
        let ok = if saved.is_ok() { there == round } else { there < round };
        assert!(ok, "{why}, step {from}: {there} is stored and {round} was {saved:?}");
        check_sound(&notebook);
        let again = open(&file(&folder));
        assert_eq!(
            round_of(&again.show(id(0)).unwrap().case, 0),
            there,
            "{why}, step {from}: whoever opens it sees the same"
        );
        drop(again);
        node = notebook
            .save(&state(0, round + 1), Some(stored.node), now())
            .unwrap_or_else(|error| panic!("{why}, step {from}: the next save works: {error}"));
        if !refused {
            assert!(saved.is_ok(), "{why}: nothing was refused, so it was saved");
            assert!(from > 1, "{why}: a save has such steps");
            return from - 1;
        }
    }
    unreachable!("a save ends");
}

const fn writes(act: &Act<'_>) -> bool {
    matches!(act, Act::Write { .. })
}

#[test]
fn a_full_disk_at_every_write_of_a_save() {
    let full = |error: &NotebookError| matches!(error, NotebookError::Full(_));
    let all = check(Verdict::Full, true, writes, full, "full and stays full");
    let one = check(Verdict::Full, false, writes, full, "full once");
    println!(
        "disk full: at each of {all} writes of a save and ever after, at each of {one} once; old state readable, next save works"
    );
}

#[test]
fn a_failing_disk_at_every_step_of_a_save() {
    let disk = |error: &NotebookError| matches!(error, NotebookError::Disk(_));
    let writing = check(Verdict::IoError, false, writes, disk, "a write fails");
    let syncing = check(Verdict::IoError, false, |act| matches!(act, Act::Sync), disk, "a sync fails");
    let deleting =
        check(Verdict::IoError, false, |act| matches!(act, Act::Delete { .. }), disk, "removing the journal fails");
    let opening = check(
        Verdict::IoError,
        false,
        |act| matches!(act, Act::Open { .. }),
        |error| matches!(error, NotebookError::Disk(_) | NotebookError::FolderReadOnly(_) | NotebookError::ReadOnly(_)),
        "opening the journal fails",
    );
    println!(
        "disk fails: at each of {writing} writes, {syncing} syncs, {deleting} removals, {opening} openings of a save"
    );
}
