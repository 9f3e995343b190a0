//! Looking at a door, or writing it, does not loosen the locks of connections on the same file.

use std::path::Path;
use std::process::Command;

use evengap_door::{Door, LENGTH, Tries, connect, copy_out, note_try, tries};
use rusqlite::ErrorCode;
use tempfile::TempDir;

use crate::made::{READ_WRITE, fill, key_by, notebook};

const FILE: &str = "EVENGAP_TEST_FILE";

/// Whether another program that wants to write has to wait.
fn is_locked(path: &Path) -> bool {
    let program = std::env::current_exe().unwrap();
    let answer = Command::new(program)
        .args(["--exact", "locks::as_another_program", "--nocapture", "--test-threads=1"])
        .env(FILE, path)
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&answer.stdout).into_owned();
    assert_ne!(said.contains("the file is busy"), said.contains("the file is free"), "{said}");
    said.contains("the file is busy")
}

#[track_caller]
fn check_locked(path: &Path, after: &str) {
    assert!(is_locked(path), "after {after}");
}

/// Does nothing but where the test below starts it in a program of its own.
#[test]
fn as_another_program() {
    let Some(path) = std::env::var_os(FILE) else { return };
    let path = Path::new(&path);
    let connection = connect(path, READ_WRITE, &key_by(path, "one's own words")).unwrap();
    connection.busy_timeout(std::time::Duration::ZERO).unwrap();
    let begun = connection.execute_batch("BEGIN IMMEDIATE");
    let is_busy = begun.is_err_and(|error| error.sqlite_error_code() == Some(ErrorCode::DatabaseBusy));
    println!("{}", if is_busy { "the file is busy" } else { "the file is free" });
}

#[test]
fn they_hold_whatever_is_done_with_the_door() {
    let folder = TempDir::new().unwrap();
    let (path, key) = notebook(&folder, "locked");
    let connection = connect(&path, READ_WRITE, &key).unwrap();
    connection.execute_batch("BEGIN IMMEDIATE").unwrap();
    fill(&connection, 1);
    check_locked(&path, "nothing");
    assert!(Door::is_at(&path).unwrap());
    check_locked(&path, "looking for a door");
    let mut door = Door::read(&path).unwrap();
    check_locked(&path, "reading it");
    door.write(&path).unwrap();
    check_locked(&path, "writing it");
    let mut copy = Vec::new();
    copy_out(&path, &mut copy).unwrap();
    check_locked(&path, "copying it");
    assert!(copy.len() as u64 > LENGTH, "door and pages");
    let _ = tries(&path);
    check_locked(&path, "reading the tries");
    note_try(&path, &Tries { failed: 1, last_at: None }).unwrap();
    check_locked(&path, "noting one");
    drop(connect(&path, READ_WRITE, &key).unwrap());
    check_locked(&path, "closing another connection");
    // What all this is about: were the door read as any file is, the lock would be gone.
    if cfg!(unix) {
        drop(std::fs::File::open(&path).unwrap());
        assert!(!is_locked(&path), "the operating system drops locks as POSIX says");
    }
    connection.execute_batch("ROLLBACK").unwrap();
}
