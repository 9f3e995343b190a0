//! The database behind the door, as SQLite and SQLCipher see it.

use std::path::{Path, PathBuf};

use evengap_door::{Cost, Door, FileKey, LENGTH, SlotKind, connect};
use rusqlite::{Connection, OpenFlags};
use tempfile::TempDir;
use uuid::Uuid;

const READ_WRITE: OpenFlags = OpenFlags::SQLITE_OPEN_READ_WRITE;

/// A file with a door and a database of a few hundred pages.
fn made(folder: &TempDir) -> (PathBuf, FileKey) {
    let path = folder.path().join("pages");
    std::fs::write(&path, []).unwrap();
    let (mut door, key) = Door::new(Cost::LEAST).unwrap();
    door.add(&key, Uuid::from_u128(1), SlotKind::Person, "some words").unwrap();
    door.write(&path).unwrap();
    let connection = connect(&path, READ_WRITE, &key).unwrap();
    connection.execute_batch("CREATE TABLE line (id INTEGER PRIMARY KEY, words TEXT)").unwrap();
    fill(&connection, 2_000);
    (path, key)
}

fn fill(connection: &Connection, lines: u32) {
    connection
        .execute(
            "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < ?1)
             INSERT INTO line (words) SELECT hex(randomblob(200)) FROM n",
            [lines],
        )
        .unwrap();
}

#[track_caller]
fn check_whole(path: &Path, key: &FileKey, lines: u32) {
    let connection = connect(path, READ_WRITE, key).unwrap();
    let said: String = connection.pragma_query_value(None, "integrity_check", |row| row.get(0)).unwrap();
    assert_eq!(said, "ok", "SQLite finds its pages");
    let mut broken = 0;
    connection
        .pragma_query(None, "cipher_integrity_check", |_| {
            broken += 1;
            Ok(())
        })
        .unwrap();
    assert_eq!(broken, 0, "SQLCipher finds every seal");
    let count: u32 = connection.query_row("SELECT count(*) FROM line", [], |row| row.get(0)).unwrap();
    assert_eq!(count, lines, "and every line is there");
}

#[test]
fn what_is_written_is_read_again() {
    let folder = TempDir::new().unwrap();
    let (path, key) = made(&folder);
    check_whole(&path, &key, 2_000);
    assert!(std::fs::metadata(&path).unwrap().len() > LENGTH + 500_000, "behind the door");
    let opened = Door::read(&path).unwrap().unlock("some words").unwrap().unwrap();
    check_whole(&path, &opened.key, 2_000);
}
