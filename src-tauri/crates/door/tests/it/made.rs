//! Files for the tests.

use std::path::{Path, PathBuf};

use evengap_door::{Cost, Door, FileKey, SlotKind, connect};
use rusqlite::{Connection, OpenFlags};
use tempfile::TempDir;
use uuid::Uuid;

pub const READ_WRITE: OpenFlags = OpenFlags::SQLITE_OPEN_READ_WRITE;
/// Where the two copies of a door begin, and how long either may be.
pub const COPIES: [usize; 2] = [0, 16 * 1024];
/// Lines of a database of the tests, about 400 bytes each.
pub const LINES: u32 = 2_000;

/// A door for two people and a sheet.
pub fn door() -> (Door, FileKey) {
    let (mut door, key) = Door::new(Cost::LEAST).unwrap();
    door.add(&key, Uuid::from_u128(1), SlotKind::Person, "one's own words").unwrap();
    door.add(&key, Uuid::from_u128(2), SlotKind::Person, "another's words").unwrap();
    door.add(&key, Uuid::from_u128(3), SlotKind::Recovery, "the sheet's words").unwrap();
    (door, key)
}

/// A file with that door and nothing behind it.
pub fn file_with(door: &mut Door, folder: &TempDir, name: &str) -> PathBuf {
    let path = folder.path().join(name);
    std::fs::write(&path, []).unwrap();
    door.write(&path).unwrap();
    path
}

/// A file with a door and a database of a few hundred pages.
pub fn notebook(folder: &TempDir, name: &str) -> (PathBuf, FileKey) {
    let (mut door, key) = door();
    let path = file_with(&mut door, folder, name);
    let connection = connect(&path, READ_WRITE, &key).unwrap();
    connection.execute_batch("CREATE TABLE line (id INTEGER PRIMARY KEY, words TEXT)").unwrap();
    fill(&connection, LINES);
    (path, key)
}

pub fn fill(connection: &Connection, lines: u32) {
    connection
        .execute(
            "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < ?1)
             INSERT INTO line (words) SELECT hex(randomblob(200)) FROM n",
            [lines],
        )
        .unwrap();
}

pub fn count(connection: &Connection) -> rusqlite::Result<u32> {
    connection.query_row("SELECT count(*) FROM line", [], |row| row.get(0))
}

/// Everything that SQLite and SQLCipher can say about a file.
#[track_caller]
pub fn check_whole(path: &Path, key: &FileKey, lines: u32) {
    let connection = connect(path, READ_WRITE, key).unwrap();
    check_pages(&connection);
    assert_eq!(count(&connection).unwrap(), lines, "every line is there");
}

#[track_caller]
pub fn check_pages(connection: &Connection) {
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
}

/// The key of a file, by somebody's passphrase.
#[track_caller]
pub fn key_by(path: &Path, passphrase: &str) -> FileKey {
    Door::read(path).unwrap().unlock(passphrase).unwrap().expect("the passphrase opens it").key
}
