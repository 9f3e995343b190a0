//! Exchanges, backups and restoring on a disk that refuses, and cut short at any instant: all of it, or as if nothing
//! had been done.

use std::collections::BTreeSet;
use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};

use evengap_door::faults::Verdict;
use evengap_notebook::{Notebook, NotebookError, restore};
use tempfile::TempDir;

use crate::bench::{Bench, WORDS, at, id, named, passphrase, save, sign};
use crate::exchange::dump;
use crate::older::notebook_of;
use crate::projections::cases;
use crate::refusing::{refusing, watching};

const REFUSALS: [Verdict; 3] = [Verdict::Full, Verdict::IoError, Verdict::ReadOnly];

/// Says what somebody can do, and names a file that they know; where a disk is full it says so.
#[track_caller]
fn check_plain(error: &NotebookError, with: Verdict, path: &Path, when: &str) {
    let fits = match with {
        Verdict::Full => matches!(error, NotebookError::Full(_)),
        Verdict::ReadOnly => matches!(error, NotebookError::ReadOnly(_)),
        _ => matches!(error, NotebookError::Disk(_) | NotebookError::Io { .. }),
    };
    let said = error.to_string();
    assert!(fits, "{when}: {error:?}");
    assert!(said.contains(&path.display().to_string()) && said.ends_with('.'), "{when}: {said}");
    assert!(!said.contains(".unfinished"), "{when}: nobody knows that file: {said}");
}

fn names(bench: &Bench) -> BTreeSet<OsString> {
    bench.everything().iter().map(|(path, _)| path.file_name().unwrap().to_owned()).collect()
}

/// Some cases: drafts, a signed one with an addendum.
fn notebook(bench: &Bench) -> Notebook {
    let mut notebook = bench.notebook((1..30).map(|n| named(n, "Mavis", "Threlkeld")));
    sign(&mut notebook, &named(1, "Mavis", "Threlkeld"), &[], at("09:00")).unwrap();
    notebook.add_addendum(&named(1, "Mavis", "Moss"), "She has married.", 1, at("10:00")).unwrap();
    notebook
}

/// A notebook that has some of the cases and others, and a file that brings new, newer and conflicting ones.
fn receiver() -> (Bench, Notebook, PathBuf) {
    let bench = Bench::new();
    let mut receiver = bench.notebook((2..20).map(|n| named(n, "Mavis", "Threlkeld")));
    let (sender, first) = (Bench::new(), bench.path("first.evengap-exchange"));
    receiver.write_exchange(&first, &passphrase(), None, at("11:00")).unwrap();
    let mut other = notebook(&sender);
    other.read_exchange(&first, &passphrase(), at("11:30")).unwrap();
    for n in 2..10 {
        save(&mut other, &named(n, "Mavis", "Sandringford"), at("12:00")).unwrap();
    }
    for n in 2..5 {
        save(&mut receiver, &named(n, "Mavis", "Oakley"), at("12:30")).unwrap();
    }
    fs::remove_file(&first).unwrap();
    let file = bench.path("all.evengap-exchange");
    other.write_exchange(&file, &passphrase(), None, at("13:00")).unwrap();
    (bench, receiver, file)
}

#[test]
fn a_refused_write_leaves_no_exchange_file() {
    let bench = Bench::new();
    let notebook = notebook(&bench);
    let to = bench.path("all.evengap-exchange");
    let run = |number: usize, with: Verdict| {
        refusing(&bench, number, with, || notebook.write_exchange(&to, &passphrase(), None, at("20:00")))
    };
    let (written, writes) = run(usize::MAX, Verdict::Go);
    assert_eq!(written.unwrap().cases, 29, "on a good disk all of them are written");
    fs::remove_file(&to).unwrap();
    assert!(writes > 10, "there are writes to refuse: {writes}");
    let before = bench.everything();
    for with in REFUSALS {
        for number in 1..=writes {
            let when = format!("{with:?} at write {number} of {writes}");
            let error = run(number, with).0.unwrap_err();
            check_plain(&error, with, &to, &when);
            assert!(bench.everything() == before, "{when}: nothing is left, and the notebook is as it was");
        }
    }
}

#[test]
fn a_refused_write_takes_nothing_from_an_exchange_file() {
    let (bench, mut receiver, file) = receiver();
    let (before, there, whole) = (dump(&receiver), names(&bench), fs::read(bench.file()).unwrap());
    let run = |receiver: &mut Notebook, number: usize, with: Verdict| {
        refusing(&bench, number, with, || receiver.read_exchange(&file, &passphrase(), at("21:00")))
    };
    let (read, writes) = run(&mut receiver, usize::MAX, Verdict::Go);
    let counts = |report: evengap_notebook::ExchangeReport| (report.new, report.newer, report.conflicts);
    assert_eq!(counts(read.unwrap()), (11, 5, 3), "on a good disk all of it is taken");
    assert!(writes > 20, "there are writes to refuse: {writes}");
    drop(receiver);
    fs::write(bench.file(), whole).unwrap();
    let mut receiver = bench.open(WORDS).unwrap();
    for with in REFUSALS {
        for number in 1..=writes {
            let when = format!("{with:?} at write {number} of {writes}");
            let error = run(&mut receiver, number, with).0.unwrap_err();
            check_plain(&error, with, &bench.file(), &when);
            assert!(dump(&receiver) == before, "{when}: no row of it was taken");
            assert_eq!(names(&bench), there, "{when}: nothing is left beside it");
        }
    }
    assert_eq!(receiver.verify().unwrap().problems, [] as [&str; 0], "whole after all of that");
    let read = run(&mut receiver, usize::MAX, Verdict::Go).0;
    assert_eq!(counts(read.unwrap()), (11, 5, 3), "and as soon as the disk is good it is taken");
}

#[test]
fn a_refused_write_leaves_the_backup_from_before() {
    let bench = Bench::new();
    let mut notebook = notebook(&bench);
    let to = bench.path("copy.evengap");
    notebook.back_up().run(&to, false, |_, _| true).unwrap();
    save(&mut notebook, &named(40, "Ivo", "Sandringford"), at("11:00")).unwrap();
    let before = bench.everything();
    let run = |number: usize, with: Verdict| {
        refusing(&bench, number, with, || notebook.back_up().run(&to, true, |_, _| true))
    };
    let aside = fs::read(&to).unwrap();
    let (made, writes) = run(usize::MAX, Verdict::Go);
    assert_eq!(made.unwrap().cases, 30, "on a good disk it takes the place of the older one");
    fs::write(&to, aside).unwrap();
    for with in REFUSALS {
        for number in 1..=writes {
            let when = format!("{with:?} at write {number} of {writes}");
            let error = run(number, with).0.unwrap_err();
            check_plain(&error, with, &to, &when);
            assert!(bench.everything() == before, "{when}: the older one stays, and nothing else is left");
        }
    }
}

/// Only an older notebook is written through the database when it is restored: it is converted. Stretching a
/// passphrase takes its time, so not every place is tried.
#[test]
fn a_refused_write_restores_nothing() {
    let bench = notebook_of(3, &cases());
    let to = bench.path("restored.evengap");
    let run = |number: usize, with: Verdict| {
        refusing(&bench, number, with, || restore(&bench.file(), &passphrase(), &to, at("18:00")))
    };
    let (restored, writes) = run(usize::MAX, Verdict::Go);
    assert_eq!(restored.unwrap().cases, 3, "on a good disk all of it is restored");
    fs::remove_file(&to).unwrap();
    let before = bench.everything();
    for with in REFUSALS {
        for number in (1..=writes).step_by((writes / 4).max(1)) {
            let when = format!("{with:?} at write {number} of {writes}");
            let error = run(number, with).0.unwrap_err();
            check_plain(&error, with, &to, &when);
            assert!(bench.everything() == before, "{when}: nothing is left, and the copy is as it was");
        }
    }
}

/// Looks at every change whether the name is still free, or what stands there is what stood there before.
fn name_stays(to: &Path) -> (impl FnMut() + Send + use<>, Arc<Mutex<(usize, usize)>>) {
    let (to, stood) = (to.to_owned(), fs::read(to).ok());
    let seen = Arc::new(Mutex::new((0, 0)));
    let counted = Arc::clone(&seen);
    let look = move || {
        let mut counted = counted.lock().unwrap();
        counted.0 += 1;
        counted.1 += usize::from(fs::read(&to).ok() == stood);
    };
    (look, seen)
}

#[track_caller]
fn check_seen(seen: &Mutex<(usize, usize)>, what: &str) {
    let (looked, stayed) = *seen.lock().unwrap();
    assert!(looked > 10, "{what}: somebody looked, {looked} times");
    assert_eq!(looked, stayed, "{what}: a file under that name is whole, at every instant");
}

#[test]
fn ended_half_way_there_is_no_half_file() {
    let bench = Bench::new();
    let mut notebook = notebook(&bench);
    let exchange = bench.path("all.evengap-exchange");
    let (look, seen) = name_stays(&exchange);
    watching(&bench, look, || notebook.write_exchange(&exchange, &passphrase(), None, at("20:00"))).unwrap();
    check_seen(&seen, "an exchange file");

    let copy = bench.path("copy.evengap");
    for replace in [false, true] {
        let (look, seen) = name_stays(&copy);
        watching(&bench, look, || notebook.back_up().run(&copy, replace, |_, _| true)).unwrap();
        check_seen(&seen, "a backup");
        save(&mut notebook, &named(40, "Ivo", "Sandringford"), at("11:00")).unwrap();
    }

    let bench = notebook_of(3, &cases());
    let restored = bench.path("restored.evengap");
    let (look, seen) = name_stays(&restored);
    watching(&bench, look, || restore(&bench.file(), &passphrase(), &restored, at("18:00"))).unwrap();
    check_seen(&seen, "a restored notebook");
}

#[test]
fn ended_half_way_an_exchange_file_is_taken_wholly_or_not() {
    let (bench, mut receiver, file) = receiver();
    let before = dump(&receiver);
    let copies = TempDir::new().unwrap();
    let (from, into) = (bench.file(), copies.path().to_owned());
    let mut number = 0;
    let look = move || {
        fs::copy(&from, into.join(format!("{number}"))).unwrap();
        let _ = fs::copy(from.with_extension("evengap-journal"), into.join(format!("{number}-journal")));
        number += 1;
    };
    watching(&bench, look, || receiver.read_exchange(&file, &passphrase(), at("21:00"))).unwrap();
    let after = dump(&receiver);
    assert_ne!(before, after, "something came");
    let cuts = (0..).map(|number| copies.path().join(format!("{number}"))).take_while(|copy| copy.exists());
    let mut seen = [0, 0];
    for copy in cuts {
        let mut cut = Notebook::open(&copy, &passphrase(), at("21:01")).unwrap();
        let rows = dump(&cut);
        let is_after = rows == after;
        assert!(is_after || rows == before, "{} is half of it", copy.display());
        seen[usize::from(is_after)] += 1;
        if seen[0] == 1 || is_after {
            cut.read_exchange(&file, &passphrase(), at("21:00")).unwrap();
            assert!(dump(&cut) == after, "{}: and then it is taken, once", copy.display());
        }
    }
    assert!(seen[0] > 20, "there were changes to end it at: {seen:?}");
    assert_eq!(receiver.show(id(2)).unwrap().case, named(2, "Mavis", "Oakley"), "the whole one goes on");
}
