//! Whoever stands between SQLite and the disk sees everything, and every refusal leaves a whole file.

use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use evengap_door::faults::{Act, Faults, FileKind, Op, Verdict, install};
use evengap_door::{Door, FileKey, LENGTH, connect};
use rusqlite::Connection;
use tempfile::TempDir;
use uuid::Uuid;

use crate::made::{LINES, READ_WRITE, check_pages, check_whole, count, fill, notebook};

/// The hook is one for the process, and other tests work meanwhile: it minds one folder, and one test at a time.
static ONE_AT_A_TIME: Mutex<()> = Mutex::new(());

/// Refuses one of the writes in a folder, and all that follow, and notes what was asked.
struct Refusing {
    folder: PathBuf,
    from: usize,
    with: Verdict,
    seen: Arc<Mutex<Vec<String>>>,
}

impl Faults for Refusing {
    fn before(&mut self, op: &Op<'_>) -> Verdict {
        if !op.path.starts_with(&self.folder) {
            return Verdict::Go;
        }
        let mut seen = self.seen.lock().unwrap();
        let (line, changes) = match op.act {
            Act::Open { create } => (format!("{:?} open {create}", op.file), false),
            Act::Write { offset, bytes } => (format!("{:?} write {offset} {}", op.file, bytes.len()), true),
            Act::Truncate { bytes } => (format!("{:?} cut {bytes}", op.file), true),
            Act::Sync => (format!("{:?} sync", op.file), true),
            Act::Delete { .. } => (format!("{:?} delete", op.file), true),
            Act::Close => (format!("{:?} close", op.file), false),
        };
        if !changes {
            return Verdict::Go;
        }
        seen.push(line);
        if seen.len() > self.from { self.with } else { Verdict::Go }
    }
}

/// Does something while changes are refused from the given one on; tells how it went and what was asked.
fn refusing<T>(folder: &TempDir, from: usize, with: Verdict, act: impl FnOnce() -> T) -> (T, Vec<String>) {
    let seen = Arc::new(Mutex::new(Vec::new()));
    install(Some(Box::new(Refusing { folder: folder.path().to_owned(), from, with, seen: Arc::clone(&seen) })));
    let done = act();
    install(None);
    let seen = seen.lock().unwrap().clone();
    (done, seen)
}

#[test]
fn a_refused_write_at_any_place_of_a_transaction_changes_nothing() {
    let _alone = ONE_AT_A_TIME.lock().unwrap_or_else(PoisonError::into_inner);
    let folder = TempDir::new().unwrap();
    let (path, key) = notebook(&folder, "refused");
    let whole = std::fs::read(&path).unwrap();
    let write = |from, with| {
        std::fs::write(&path, &whole).unwrap();
        let _ = std::fs::remove_file(folder.path().join("refused-journal"));
        refusing(&folder, from, with, || {
            let connection = connect(&path, READ_WRITE, &key).unwrap();
            connection.execute("UPDATE line SET words = 'changed' WHERE id % 100 = 0", [])
        })
    };
    let (done, seen) = write(usize::MAX, Verdict::Go);
    done.unwrap();
    assert!(seen.len() > 20, "{seen:?}");
    assert!(seen.contains(&"Notebook sync".to_owned()) && seen.contains(&"Journal sync".to_owned()), "{seen:?}");
    let before_door = |line: &&String| {
        line.strip_prefix("Notebook write ")
            .and_then(|rest| rest.split(' ').next()?.parse::<u64>().ok())
            .is_some_and(|offset| offset < LENGTH)
    };
    assert_eq!(seen.iter().find(before_door), None, "SQLite writes behind the door");
    for with in [Verdict::Full, Verdict::IoError, Verdict::ReadOnly] {
        for (from, asked) in seen.iter().enumerate() {
            let (done, _) = write(from, with);
            assert!(done.is_err(), "{with:?} at {asked}: nothing is acknowledged");
            check_whole(&path, &key, LINES);
            let connection = connect(&path, READ_WRITE, &key).unwrap();
            let changed: u32 = connection
                .query_row("SELECT count(*) FROM line WHERE words = 'changed'", [], |row| row.get(0))
                .unwrap();
            assert_eq!(changed, 0, "{with:?} at {asked}: all or nothing");
        }
    }
}

#[test]
fn a_refused_write_of_a_door_leaves_one() {
    let _alone = ONE_AT_A_TIME.lock().unwrap_or_else(PoisonError::into_inner);
    let folder = TempDir::new().unwrap();
    let (path, key) = notebook(&folder, "door");
    let whole = std::fs::read(&path).unwrap();
    let write = |from: usize| {
        std::fs::write(&path, &whole).unwrap();
        let mut door = Door::read(&path).unwrap();
        door.change(&key, Uuid::from_u128(1), "new words").unwrap();
        refusing(&folder, from, Verdict::Full, || door.write(&path))
    };
    let (done, seen) = write(usize::MAX);
    done.unwrap();
    assert_eq!(seen.len(), 4, "each copy is written, then made durable: {seen:?}");
    let opens = |words| -> Option<FileKey> { Some(Door::read(&path).unwrap().unlock(words).unwrap()?.key) };
    assert_eq!(opens("new words"), Some(key.clone()));
    for (from, asked) in seen.iter().enumerate() {
        let (done, _) = write(from);
        assert!(done.is_err(), "at {asked}");
        let opened = opens("new words").or_else(|| opens("one's own words"));
        assert_eq!(opened, Some(key.clone()), "at {asked}: the door before, or the new one");
        assert_eq!(opens("another's words"), Some(key.clone()), "at {asked}: the others open it anyway");
    }
}

#[test]
fn sorts_of_files_are_told_apart() {
    let _alone = ONE_AT_A_TIME.lock().unwrap_or_else(PoisonError::into_inner);
    let folder = TempDir::new().unwrap();
    let (path, key) = notebook(&folder, "sorts");
    let (_, seen) = refusing(&folder, usize::MAX, Verdict::Go, || {
        fill(&connect(&path, READ_WRITE, &key).unwrap(), 1);
    });
    let sorts = [FileKind::Notebook, FileKind::Journal].map(|sort| format!("{sort:?}"));
    for sort in sorts {
        assert!(seen.iter().any(|line| line.starts_with(&sort)), "{sort} in {seen:?}");
    }
}

/// Copies a file and its journal before each change, as a program leaves them that is ended there.
struct Copying {
    path: PathBuf,
    into: PathBuf,
    copies: usize,
}

fn journal(path: &Path) -> PathBuf {
    path.with_file_name(format!("{}-journal", path.file_name().unwrap().to_str().unwrap()))
}

impl Faults for Copying {
    fn before(&mut self, op: &Op<'_>) -> Verdict {
        let is_ours = op.path == self.path || op.path == journal(&self.path);
        if is_ours && !matches!(op.act, Act::Open { .. } | Act::Close) {
            let to = self.into.join(self.copies.to_string());
            std::fs::copy(&self.path, &to).unwrap();
            let _ = std::fs::copy(journal(&self.path), journal(&to));
            self.copies += 1;
        }
        Verdict::Go
    }
}

/// Ends a program at every change that an act makes; the pages then open with one of the keys, whole.
#[track_caller]
fn check_cuts(cache_pages: u32, keys: impl Fn(&Connection) -> Option<FileKey>, is_one: impl Fn(&Connection) -> bool) {
    let _alone = ONE_AT_A_TIME.lock().unwrap_or_else(PoisonError::into_inner);
    let [folder, copies] = [TempDir::new().unwrap(), TempDir::new().unwrap()];
    let (path, old) = notebook(&folder, "cut");
    let connection = connect(&path, READ_WRITE, &old).unwrap();
    connection
        .execute_batch(&format!("DELETE FROM line WHERE id > 60; VACUUM; PRAGMA cache_size = {cache_pages}"))
        .unwrap();
    install(Some(Box::new(Copying { path: path.clone(), into: copies.path().to_owned(), copies: 0 })));
    let new = keys(&connection);
    install(None);
    drop(connection);
    let cuts = (0..).map(|number| copies.path().join(number.to_string())).take_while(|copy| copy.exists());
    let mut seen = [0; 2];
    for copy in cuts {
        let again = copies.path().join("again");
        std::fs::copy(&copy, &again).unwrap();
        let _ = std::fs::copy(journal(&copy), journal(&again));
        // Whichever key is tried first: the wrong one may meet a journal that is not rolled back yet.
        for (copy, keys) in [(&copy, [Some(&old), new.as_ref()]), (&again, [new.as_ref(), Some(&old)])] {
            let mut opened = keys.into_iter().flatten().filter_map(|key| {
                let connection = connect(copy, READ_WRITE, key).unwrap();
                count(&connection).is_ok_and(|count| count == 60).then_some((connection, key != &old))
            });
            let (connection, is_new) = opened.next().unwrap_or_else(|| panic!("{} opens with neither", copy.display()));
            check_pages(&connection);
            seen[usize::from(is_new)] += 1;
            assert!(is_one(&connection), "{} is half of a change", copy.display());
        }
        let _ = std::fs::remove_file(journal(&again));
    }
    assert!(seen[0] > 40, "there were changes to end it at: {seen:?}");
}

#[test]
fn every_cut_of_a_transaction_leaves_all_or_nothing() {
    for cache_pages in [3, 1_000] {
        check_cuts(
            cache_pages,
            |connection| {
                connection.execute("UPDATE line SET words = 'changed ' || words", []).unwrap();
                None
            },
            |connection| {
                let changed: u32 = connection
                    .query_row("SELECT count(*) FROM line WHERE words LIKE 'changed %'", [], |row| row.get(0))
                    .unwrap();
                changed == 0 || changed == 60
            },
        );
    }
}

#[test]
fn every_cut_of_a_change_of_keys_leaves_pages_that_one_of_them_opens() {
    for cache_pages in [3, 1_000] {
        check_cuts(
            cache_pages,
            |connection| {
                let new = FileKey::random().unwrap();
                new.replace_on(connection).unwrap();
                Some(new)
            },
            |_| true,
        );
    }
}
