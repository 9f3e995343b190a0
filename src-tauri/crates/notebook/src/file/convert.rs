//! Notebooks of the older layout, in which one passphrase was the key of the pages themselves.
//!
//! Such a file is never changed. A whole new one with a door is built beside it and checked, the old one gets a second
//! name that says what it is, and only then does the new one take its place. Cut short at any instant, the old file is
//! there under its own name, or both are.

use std::path::{Path, PathBuf};

use evengap_case::LocalTime;
use evengap_door::{Cost, Door, FileKey, SlotKind};
use rusqlite::backup::{Backup, StepResult};
use rusqlite::{Connection, ErrorCode, OpenFlags};
use uuid::Uuid;

use super::open::recognise;
use super::{Beside, check_pages, check_whole, connect, journal, migrations, settle};
use crate::gate::{self, Changed};
use crate::{NotebookError, Passphrase, projections};

/// Converts a file and tells where the old one was kept.
pub(super) fn convert(path: &Path, passphrase: &Passphrase, now: LocalTime) -> Result<PathBuf, NotebookError> {
    let old = connect_older(path, passphrase).map_err(|error| at(error, path))?;
    // Whoever reads keeps others from writing into the old file until it has its new name. SQLite copies no database
    // into which the same connection writes.
    old.execute_batch(include_str!("hold.sql")).map_err(|error| at(error.into(), path))?;
    let new = Beside::claim(path)?;
    build(&old, new.path(), passphrase, now).map_err(|error| error.at(path).said_of(path, path))?;
    let kept = keep(path)?;
    if journal(path).exists() {
        // It belongs to the old pages and would be applied to the new ones.
        return Err(NotebookError::Busy(path.to_owned()));
    }
    // Windows replaces no open file.
    let old = if cfg!(windows) { None } else { Some(old) };
    new.publish(true)?;
    drop(old);
    Ok(kept)
}

/// Opens a file of the older layout and checks it as far as its own program did; nothing is written.
fn connect_older(path: &Path, passphrase: &Passphrase) -> Result<Connection, NotebookError> {
    let old = Connection::open_with_flags(path, OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX)?;
    // SQLCipher would write to the terminal about every page that a wrong key cannot open.
    old.pragma_update(None, "cipher_log_level", "NONE")?;
    old.pragma_update(None, "key", passphrase.reveal())?;
    recognise(&old, path)?;
    check_pages(&old, path)?;
    if old.is_readonly("main")? {
        return Err(NotebookError::ReadOnly(path.to_owned()));
    }
    old.busy_timeout(std::time::Duration::from_secs(5))?;
    Ok(old)
}

fn build(old: &Connection, path: &Path, passphrase: &Passphrase, now: LocalTime) -> Result<(), NotebookError> {
    let at_door = |error| NotebookError::of_door(path, error);
    let (mut door, key) = Door::new(Cost::ORDINARY).map_err(at_door)?;
    door.write(path).map_err(at_door)?;
    let mut new = connect(path, &key)?;
    match Backup::new(old, &mut new)?.step(-1)? {
        StepResult::Done => {}
        _ => return Err(NotebookError::Busy(path.to_owned())),
    }
    settle(&new)?;
    let mark = gate::write(&mut new, |transaction| {
        migrations::run(transaction)?;
        let mark: Option<String> = transaction.query_row(include_str!("first_mark.sql"), [], |row| row.get(0))?;
        let mark = mark.and_then(|mark| Uuid::parse_str(&mark).ok()).unwrap_or_else(Uuid::new_v4);
        transaction.execute(include_str!("mark_first.sql"), [mark.to_string()])?;
        transaction.execute(include_str!("mark_converted.sql"), [now.to_string()])?;
        projections::rebuild(transaction)?;
        Ok(Changed { result: mark, cases: Vec::new() })
    })?;
    drop(new);
    door.add(&key, mark, SlotKind::Person, passphrase.reveal()).map_err(at_door)?;
    door.write(path).map_err(at_door)?;
    check(old, path, &key)
}

/// Looks at the new file from outside: whole, and as many rows as the old one has in each of its tables.
fn check(old: &Connection, path: &Path, key: &FileKey) -> Result<(), NotebookError> {
    let new = connect(path, key)?;
    check_whole(&new, path)?;
    let mut tables = old.prepare(include_str!("written_tables.sql"))?;
    for table in tables.query_map([], |row| row.get::<_, String>(0))? {
        let table = table?;
        let count = |connection: &Connection| -> rusqlite::Result<i64> {
            connection.query_row(&format!("SELECT count(*) FROM \"{table}\""), [], |row| row.get(0))
        };
        if count(old)? > count(&new)? {
            return Err(NotebookError::Damaged { path: path.to_owned(), what: "not all of it could be copied".into() });
        }
    }
    Ok(())
}

/// Gives the old file a second name in its folder that is free.
fn keep(path: &Path) -> Result<PathBuf, NotebookError> {
    let stem = path.file_stem().unwrap_or_default().to_string_lossy();
    let ending = path.extension().map(|ending| format!(".{}", ending.to_string_lossy())).unwrap_or_default();
    for n in 1..10_000_u32 {
        let number = if n == 1 { String::new() } else { format!(" {n}") };
        let kept = path.with_file_name(format!("{stem} (older layout{number}){ending}"));
        if kept.try_exists().map_err(|error| NotebookError::of_file(&kept, error))? {
            continue;
        }
        if std::fs::hard_link(path, &kept).is_ok() {
            return Ok(kept);
        }
        // Sticks and some shared folders know no second name for a file.
        let copy = Beside::claim(&kept)?;
        std::fs::copy(path, copy.path()).map_err(|error| NotebookError::of_file(&kept, error))?;
        copy.publish(false)?;
        return Ok(kept);
    }
    Err(NotebookError::Exists(path.to_owned()))
}

fn at(error: NotebookError, path: &Path) -> NotebookError {
    match error {
        NotebookError::Database(error) if error.sqlite_error_code() == Some(ErrorCode::NotADatabase) => {
            NotebookError::WrongPassphraseOrDamaged(path.to_owned())
        }
        error => error.at(path),
    }
}
