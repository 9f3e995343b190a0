//! A change of keys that is cut short: whoever stays opens the file and finishes it, whoever was removed does not.

use evengap_door::faults::Verdict;
use evengap_door::{Door, FileKey};
use evengap_notebook::NotebookError;
use rusqlite::OpenFlags;
use uuid::Uuid;

use crate::bench::{Bench, WORDS, at, past_the_door};
use crate::people::{KEEPER, REGISTRAR, three};
use crate::refusing::refusing;

fn mark_removed(bench: &Bench, mark: Uuid) {
    let sql = "UPDATE person SET removed_at = '2026-06-30T09:00' WHERE mark = ?1";
    assert_eq!(past_the_door(&bench.file()).execute(sql, [mark.to_string()]).unwrap(), 1, "somebody is removed");
}

/// The door without the person, and the next key sealed to everybody else.
fn write_door(bench: &Bench, mark: Uuid) -> (FileKey, FileKey) {
    let mut door = Door::read(&bench.file()).unwrap();
    let key = door.unlock(WORDS).unwrap().unwrap().key;
    assert!(door.remove(mark), "the place was there");
    let next = door.begin_rotation(&key).unwrap();
    door.write(&bench.file()).unwrap();
    (key, next)
}

fn rekey(bench: &Bench, key: &FileKey, next: &FileKey) {
    let pages = evengap_door::connect(&bench.file(), OpenFlags::SQLITE_OPEN_READ_WRITE, key).unwrap();
    next.replace_on(&pages).unwrap();
}

/// Cuts a removal short after some of its steps; everybody who stays opens it, in whatever order.
#[track_caller]
fn check_cut(steps: impl Fn(&Bench, Uuid), why: &str) {
    for order in [[WORDS, KEEPER], [KEEPER, WORDS]] {
        let bench = Bench::new();
        let (notebook, registrar, _) = three(&bench);
        drop(notebook);
        let old = Door::read(&bench.file()).unwrap().unlock(WORDS).unwrap().unwrap().key;
        steps(&bench, registrar);
        let error = bench.open(REGISTRAR).err();
        assert!(matches!(error, Some(NotebookError::WrongPassphrase(_))), "{why}: the removed person: {error:?}");
        for words in order {
            let opened = bench.open(words).unwrap();
            assert_eq!(opened.count().unwrap(), 1, "{why}: {words} opens it with all that is in it");
        }
        let door = Door::read(&bench.file()).unwrap();
        let unlocked = door.unlock(WORDS).unwrap().unwrap();
        assert!(unlocked.next_key.is_none(), "{why}: it is finished");
        assert!(unlocked.key != old, "{why}: with a key that the removed person never had");
        assert_eq!(door.slots().count(), 2, "{why}: and their place is gone");
    }
}

#[test]
fn before_the_door_was_written() {
    check_cut(mark_removed, "only the row says so");
}

#[test]
fn after_the_door_was_written() {
    let steps = |bench: &Bench, mark| {
        mark_removed(bench, mark);
        write_door(bench, mark);
    };
    check_cut(steps, "the door is written, the pages have the old key");
}

#[test]
fn after_the_pages_got_their_key() {
    let steps = |bench: &Bench, mark| {
        mark_removed(bench, mark);
        let (key, next) = write_door(bench, mark);
        rekey(bench, &key, &next);
    };
    check_cut(steps, "the pages have the new key, the door does not say so");
}

#[test]
fn a_place_without_a_person_is_cleared_away() {
    let bench = Bench::new();
    drop(three(&bench));
    let mut door = Door::read(&bench.file()).unwrap();
    let key = door.unlock(WORDS).unwrap().unwrap().key;
    door.add(&key, Uuid::from_u128(9), evengap_door::SlotKind::Person, "nobody was written down").unwrap();
    door.write(&bench.file()).unwrap();
    let error = bench.open("nobody was written down").err();
    assert!(matches!(error, Some(NotebookError::WrongPassphrase(_))), "it lets nobody in: {error:?}");
    drop(bench.open(WORDS).unwrap());
    assert_eq!(Door::read(&bench.file()).unwrap().slots().count(), 3, "and is gone after the next opening");
}

#[test]
fn a_disk_that_refuses_shuts_nobody_out_who_stays() {
    let ran = |number: usize, verdict: Verdict| {
        let bench = Bench::new();
        let (mut notebook, registrar, _) = three(&bench);
        let (removed, used) = refusing(&bench, number, verdict, || notebook.remove_person(registrar, at("09:00")));
        (bench, removed, used)
    };
    let (_, removed, writes) = ran(usize::MAX, Verdict::Go);
    removed.unwrap();
    assert!(writes > 30, "a removal writes {writes} times");
    for (verdict, step) in [(Verdict::Full, 2), (Verdict::IoError, 7)] {
        for number in (1..=writes).step_by(step) {
            let (bench, removed, _) = ran(number, verdict);
            for words in [KEEPER, WORDS] {
                let opened =
                    bench.open(words).unwrap_or_else(|error| panic!("{verdict:?} at {number}: {words}: {error}"));
                assert_eq!(opened.count().unwrap(), 1, "{verdict:?} at {number}: all that was in it");
            }
            if removed.is_ok() {
                assert!(bench.open(REGISTRAR).is_err(), "{verdict:?} at {number}: what was said to be done is done");
            }
        }
    }
}

#[test]
fn somebody_who_reads_delays_it() {
    let bench = Bench::new();
    let (mut notebook, registrar, _) = three(&bench);
    let reading = past_the_door(&bench.file());
    reading.execute_batch("BEGIN; SELECT count(*) FROM entry;").unwrap();
    let error = notebook.remove_person(registrar, at("09:00")).unwrap_err();
    assert!(matches!(error, NotebookError::Busy(_)), "{error}");
    drop((reading, notebook));
    assert_eq!(bench.open(WORDS).unwrap().count().unwrap(), 1, "it opens");
}
