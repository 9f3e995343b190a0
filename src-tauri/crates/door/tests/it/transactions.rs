//! Two connections on one file, and what is left of one that ended in the middle.

use std::path::Path;

use evengap_door::connect;
use rusqlite::{Connection, ErrorCode};
use tempfile::TempDir;

use crate::made::{LINES, READ_WRITE, check_whole, count, fill, notebook};

#[track_caller]
fn check_busy(connection: &Connection, statement: &str) {
    let refused = connection.execute_batch(statement).unwrap_err();
    assert_eq!(refused.sqlite_error_code(), Some(ErrorCode::DatabaseBusy), "{statement}: {refused}");
}

#[test]
fn two_connections_keep_out_of_one_anothers_way() {
    let folder = TempDir::new().unwrap();
    let (path, key) = notebook(&folder, "two");
    let [one, other] = [connect(&path, READ_WRITE, &key).unwrap(), connect(&path, READ_WRITE, &key).unwrap()];
    for connection in [&one, &other] {
        connection.busy_timeout(std::time::Duration::ZERO).unwrap();
    }
    one.execute_batch("BEGIN IMMEDIATE").unwrap();
    fill(&one, 5);
    check_busy(&other, "BEGIN IMMEDIATE");
    assert_eq!(count(&other).unwrap(), LINES, "the other one reads what was before");
    one.execute_batch("COMMIT").unwrap();
    assert_eq!(count(&other).unwrap(), LINES + 5, "and then what is now");
    other.execute_batch("BEGIN; SELECT count(*) FROM line").unwrap();
    one.execute_batch("BEGIN").unwrap();
    fill(&one, 1);
    check_busy(&one, "COMMIT");
    other.execute_batch("COMMIT").unwrap();
    one.execute_batch("COMMIT").unwrap();
    assert_eq!(count(&other).unwrap(), LINES + 6);
}

#[test]
fn two_threads_lose_no_line() {
    let folder = TempDir::new().unwrap();
    let (path, key) = notebook(&folder, "threads");
    std::thread::scope(|scope| {
        for _ in 0..2 {
            scope.spawn(|| {
                let connection = connect(&path, READ_WRITE, &key).unwrap();
                connection.busy_timeout(std::time::Duration::from_mins(1)).unwrap();
                for _ in 0..50 {
                    connection.execute_batch("BEGIN IMMEDIATE").unwrap();
                    fill(&connection, 3);
                    connection.execute_batch("COMMIT").unwrap();
                }
            });
        }
    });
    check_whole(&path, &key, LINES + 300);
}

#[test]
fn a_rolled_back_transaction_leaves_nothing() {
    let folder = TempDir::new().unwrap();
    let (path, key) = notebook(&folder, "rolled back");
    let before = std::fs::read(&path).unwrap();
    let connection = connect(&path, READ_WRITE, &key).unwrap();
    // So few pages in memory that the others are written before the end.
    connection.execute_batch("PRAGMA cache_size = 5; BEGIN; UPDATE line SET words = 'changed'").unwrap();
    fill(&connection, 1_000);
    connection.execute_batch("ROLLBACK").unwrap();
    drop(connection);
    check_whole(&path, &key, LINES);
    assert_eq!(std::fs::read(&path).unwrap().len(), before.len(), "the file is as long as before");
}

/// The file and its journal as a program leaves them that ends in the middle of a transaction.
fn ended_in_the_middle(from: &Path, to: &Path, connection: &Connection) {
    connection
        .execute_batch("PRAGMA cache_size = 5; BEGIN; UPDATE line SET words = 'changed'; DELETE FROM line WHERE id > 9")
        .unwrap();
    fill(connection, 1_000);
    let journal = |path: &Path| path.with_file_name(format!("{}-journal", path.file_name().unwrap().to_str().unwrap()));
    std::fs::copy(from, to).unwrap();
    std::fs::copy(journal(from), journal(to)).unwrap();
}

#[test]
fn a_hot_journal_is_rolled_back() {
    let folder = TempDir::new().unwrap();
    let (path, key) = notebook(&folder, "left");
    let before = connect(&path, READ_WRITE, &key)
        .unwrap()
        .query_row("SELECT group_concat(words) FROM line", [], |row| row.get::<_, String>(0))
        .unwrap();
    let copy = folder.path().join("found");
    let connection = connect(&path, READ_WRITE, &key).unwrap();
    ended_in_the_middle(&path, &copy, &connection);
    assert_ne!(std::fs::read(&copy).unwrap().len(), 0);
    let found = connect(&copy, READ_WRITE, &key).unwrap();
    let after: String = found.query_row("SELECT group_concat(words) FROM line", [], |row| row.get(0)).unwrap();
    assert!(before == after, "every line is as it was before the transaction");
    drop(found);
    assert!(!folder.path().join("found-journal").exists(), "the journal has done its work");
    check_whole(&copy, &key, LINES);
}

#[test]
fn the_journal_shows_nothing_of_what_is_written() {
    let folder = TempDir::new().unwrap();
    let (path, key) = notebook(&folder, "secret");
    let connection = connect(&path, READ_WRITE, &key).unwrap();
    connection.execute("UPDATE line SET words = 'Ottilie Brandt-Example ' || words", []).unwrap();
    let copy = folder.path().join("found");
    ended_in_the_middle(&path, &copy, &connection);
    for name in ["secret", "secret-journal", "found", "found-journal"] {
        let bytes = std::fs::read(folder.path().join(name)).unwrap();
        let shows = |words: &[u8]| bytes.windows(words.len()).any(|window| window == words);
        assert!(!shows(b"Ottilie") && !shows(b"changed") && !shows(b"SQLite format"), "{name}");
    }
}
