//! The database behind the door, as SQLite and SQLCipher see it.

use std::time::Duration;

use evengap_door::{Door, FileKey, LENGTH, connect};
use rusqlite::backup::Backup;
use rusqlite::{Connection, ErrorCode, OpenFlags};
use tempfile::TempDir;

use crate::made::{LINES, READ_WRITE, check_pages, check_whole, count, door, file_with, fill, key_by, notebook};

#[test]
fn what_is_written_is_read_again() {
    let folder = TempDir::new().unwrap();
    let (path, key) = notebook(&folder, "pages");
    check_whole(&path, &key, LINES);
    assert!(std::fs::metadata(&path).unwrap().len() > LENGTH + 500_000, "behind the door");
    check_whole(&path, &key_by(&path, "one's own words"), LINES);
}

#[test]
fn the_door_is_not_touched_by_the_pages_nor_the_pages_by_the_door() {
    let folder = TempDir::new().unwrap();
    let (path, key) = notebook(&folder, "apart");
    let halves = || {
        let bytes = std::fs::read(&path).unwrap();
        let (door, pages) = bytes.split_at(LENGTH as usize);
        (door.to_vec(), pages.to_vec())
    };
    let (door_before, _) = halves();
    fill(&connect(&path, READ_WRITE, &key).unwrap(), 100);
    let (door_after, pages_before) = halves();
    assert!(door_before == door_after, "SQLite writes nothing into the door");
    Door::read(&path).unwrap().write(&path).unwrap();
    let (_, pages_after) = halves();
    assert!(pages_before == pages_after, "the door writes nothing into the pages");
}

#[test]
fn a_wrong_key_opens_nothing() {
    let folder = TempDir::new().unwrap();
    let (path, _) = notebook(&folder, "wrong");
    let connection = connect(&path, READ_WRITE, &FileKey::random().unwrap()).unwrap();
    let refused = count(&connection).unwrap_err();
    assert_eq!(refused.sqlite_error_code(), Some(ErrorCode::NotADatabase), "{refused}");
}

/// The part behind the door is a database that SQLite's own file system opens with the same key: nothing but the
/// position was changed on the way.
#[test]
fn cut_out_it_is_a_plain_sqlcipher_file() {
    let folder = TempDir::new().unwrap();
    let (path, key) = notebook(&folder, "whole");
    let cut_out = folder.path().join("cut-out");
    std::fs::write(&cut_out, &std::fs::read(&path).unwrap()[LENGTH as usize..]).unwrap();
    let connection = Connection::open_in_memory().unwrap();
    key.attach(&connection, cut_out.to_str().unwrap(), "plain").unwrap();
    let count: u32 = connection.query_row("SELECT count(*) FROM plain.line", [], |row| row.get(0)).unwrap();
    assert_eq!(count, LINES, "every line is there");
    let said: String = connection.query_row("PRAGMA plain.integrity_check", [], |row| row.get(0)).unwrap();
    assert_eq!(said, "ok");
    // And the other way round: behind a door it is a notebook again.
    let (mut door, _) = door();
    let again = file_with(&mut door, &folder, "again");
    let put_in = [std::fs::read(&again).unwrap(), std::fs::read(&cut_out).unwrap()].concat();
    std::fs::write(&again, put_in).unwrap();
    check_whole(&again, &key, LINES);
}

#[test]
fn one_sqlite_file_of_each_sort_can_be_attached() {
    let folder = TempDir::new().unwrap();
    let (one, one_key) = notebook(&folder, "one");
    let (other, other_key) = notebook(&folder, "other");
    let connection = connect(&one, READ_WRITE | OpenFlags::SQLITE_OPEN_URI, &one_key).unwrap();
    other_key.attach(&connection, other.to_str().unwrap(), "other").unwrap();
    connection
        .execute_batch(
            "BEGIN; INSERT INTO main.line (words) SELECT words FROM other.line; DELETE FROM other.line; COMMIT;
             ATTACH ':memory:' AS memory KEY ''; CREATE TABLE memory.t (x); INSERT INTO memory.t VALUES (1);
             CREATE TEMP TABLE temporary AS SELECT * FROM line; DETACH other;",
        )
        .unwrap();
    drop(connection);
    check_whole(&one, &one_key, 2 * LINES);
    check_whole(&other, &other_key, 0);
}

#[test]
fn the_online_backup_runs_between_two_of_them() {
    let folder = TempDir::new().unwrap();
    let (from, key) = notebook(&folder, "from");
    let to = folder.path().join("to");
    std::fs::write(&to, []).unwrap();
    Door::read(&from).unwrap().write(&to).unwrap();
    let (source, mut target) = (connect(&from, READ_WRITE, &key).unwrap(), connect(&to, READ_WRITE, &key).unwrap());
    let backup = Backup::new(&source, &mut target).unwrap();
    backup.step(20).unwrap();
    // Somebody works on meanwhile, over another connection.
    fill(&connect(&from, READ_WRITE, &key).unwrap(), 10);
    backup.run_to_completion(100, Duration::ZERO, None).unwrap();
    drop(backup);
    drop(target);
    check_whole(&to, &key_by(&to, "another's words"), LINES + 10);
    check_whole(&from, &key, LINES + 10);
}

#[test]
fn a_new_key_goes_over_every_page() {
    let folder = TempDir::new().unwrap();
    let (path, old) = notebook(&folder, "rekeyed");
    let new = FileKey::random().unwrap();
    let connection = connect(&path, READ_WRITE, &old).unwrap();
    new.replace_on(&connection).unwrap();
    assert_eq!(count(&connection).unwrap(), LINES, "the connection goes on");
    drop(connection);
    check_whole(&path, &new, LINES);
    assert!(count(&connect(&path, READ_WRITE, &old).unwrap()).is_err(), "the old key opens nothing");
}

#[test]
fn a_vacuum_makes_the_file_shorter() {
    let folder = TempDir::new().unwrap();
    let (path, key) = notebook(&folder, "long");
    let before = std::fs::metadata(&path).unwrap().len();
    let connection = connect(&path, READ_WRITE, &key).unwrap();
    connection.execute_batch("DELETE FROM line WHERE id > 100; VACUUM").unwrap();
    check_pages(&connection);
    drop(connection);
    let after = std::fs::metadata(&path).unwrap().len();
    assert!(after < before / 5 && after > LENGTH, "{before} bytes became {after}");
    assert_eq!((after - LENGTH) % 4096, 0, "door and whole pages");
    check_whole(&path, &key, 100);
}

#[test]
fn several_megabytes_and_settings_that_reach_the_file_system() {
    let folder = TempDir::new().unwrap();
    let (path, key) = notebook(&folder, "large");
    let connection = connect(&path, READ_WRITE, &key).unwrap();
    connection.execute_batch("PRAGMA mmap_size = 1000000000; PRAGMA cache_size = 10").unwrap();
    let mode: String = connection.query_row("PRAGMA journal_mode = WAL", [], |row| row.get(0)).unwrap();
    assert_eq!(mode, "delete", "there is no shared memory, so no write-ahead log");
    fill(&connection, 20_000);
    assert!(std::fs::metadata(&path).unwrap().len() > 8_000_000, "it is large enough to spill");
    check_pages(&connection);
    drop(connection);
    check_whole(&path, &key, LINES + 20_000);
}

#[test]
fn without_a_door_before_it_nothing_is_read_or_made() {
    let folder = TempDir::new().unwrap();
    let key = FileKey::random().unwrap();
    let create = READ_WRITE | OpenFlags::SQLITE_OPEN_CREATE;
    for length in [0, 1, LENGTH - 1] {
        let path = folder.path().join(format!("short-{length}"));
        std::fs::write(&path, vec![0; length as usize]).unwrap();
        let connection = connect(&path, create, &key).unwrap();
        let refused = connection.execute_batch("CREATE TABLE line (id)").unwrap_err();
        assert_eq!(refused.sqlite_error_code(), Some(ErrorCode::DatabaseCorrupt), "{length}: {refused}");
        assert_eq!(std::fs::metadata(&path).unwrap().len(), length, "nothing is written");
    }
    assert!(connect(&folder.path().join("nowhere"), READ_WRITE, &key).is_err(), "nor is a missing file made");
}

#[test]
fn a_file_cut_within_its_pages_is_noticed() {
    let folder = TempDir::new().unwrap();
    let (path, key) = notebook(&folder, "cut");
    let bytes = std::fs::read(&path).unwrap();
    for length in [LENGTH as usize + 4096, LENGTH as usize + 10 * 4096 + 17, bytes.len() - 1, bytes.len() - 4096] {
        std::fs::write(&path, &bytes[..length]).unwrap();
        let connection = connect(&path, READ_WRITE, &key).unwrap();
        assert!(
            connection
                .prepare("SELECT sum(length(words)) FROM line")
                .and_then(|mut sum| sum.query_row([], |row| row.get::<_, i64>(0)))
                .is_err(),
            "{length} bytes of {}",
            bytes.len()
        );
    }
    // Of nothing behind the door SQLite makes a new database: whoever opens a notebook looks for its tables.
    std::fs::write(&path, &bytes[..LENGTH as usize]).unwrap();
    assert!(count(&connect(&path, READ_WRITE, &key).unwrap()).is_err(), "no table is there");
}

#[test]
fn a_file_that_may_not_be_written_is_read() {
    let folder = TempDir::new().unwrap();
    let (path, key) = notebook(&folder, "kept");
    let connection = connect(&path, OpenFlags::SQLITE_OPEN_READ_ONLY, &key).unwrap();
    assert_eq!(count(&connection).unwrap(), LINES);
    let refused = connection.execute("DELETE FROM line", []).unwrap_err();
    assert_eq!(refused.sqlite_error_code(), Some(ErrorCode::ReadOnly), "{refused}");
}

/// SQLite takes a name that begins with "file:" for a URI, in which `mode=memory` means no file at all.
#[test]
fn a_name_is_a_name() {
    let folder = TempDir::new().unwrap();
    let (path, key) = notebook(&folder, "file:odd?mode=memory");
    // Only a name without a folder can begin so.
    let here = std::env::current_dir().unwrap();
    std::env::set_current_dir(folder.path()).unwrap();
    let counted = connect("file:odd?mode=memory".as_ref(), READ_WRITE, &key).and_then(|connection| count(&connection));
    std::env::set_current_dir(here).unwrap();
    assert_eq!(counted.unwrap(), LINES, "{} is what was opened", path.display());
}

#[test]
#[cfg(unix)]
fn a_symbolic_link_leads_to_the_file() {
    let folder = TempDir::new().unwrap();
    let (path, key) = notebook(&folder, "behind");
    let link = folder.path().join("link");
    std::os::unix::fs::symlink(&path, &link).unwrap();
    assert!(Door::is_at(&link).unwrap(), "the door is found by it");
    Door::read(&link).unwrap().write(&link).unwrap();
    check_whole(&link, &key, LINES);
    assert!(link.is_symlink(), "and it stays a link");
}
