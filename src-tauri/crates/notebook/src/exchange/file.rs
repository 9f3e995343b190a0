//! The exchange file: a door with one passphrase, and a database that is never trusted further than its shape.

use std::path::Path;

use evengap_case::LocalTime;
use evengap_door::{Cost, Door, SlotKind};
use rusqlite::{Connection, OpenFlags, Row, params};
use uuid::Uuid;

use super::error::{ExchangeError, refused};
use crate::file::{check_whole, connect};
use crate::{NotebookError, Passphrase, Person};

/// Marks the file as an exchange file (`PRAGMA application_id`): "EvGx" in ASCII.
pub(crate) const APPLICATION_ID: i64 = 0x4576_4778;

/// The version of the exchange file that this program writes.
const NEWEST: i64 = 1;

const SCHEMA: &str = include_str!("schema.sql");

/// An exchange file that is being read.
pub(super) struct ExchangeFile<'a> {
    pub connection: Connection,
    pub path: &'a Path,
}

/// Makes the empty file; the name is taken already.
pub(super) fn begin(
    path: &Path,
    passphrase: &Passphrase,
    cost: Cost,
    by: &Person,
    now: LocalTime,
) -> Result<Connection, NotebookError> {
    let at_door = |error| NotebookError::of_door(path, error);
    let (mut door, key) = Door::new(cost).map_err(at_door)?;
    door.add(&key, Uuid::new_v4(), SlotKind::Person, passphrase.reveal()).map_err(at_door)?;
    door.write(path).map_err(at_door)?;
    let connection = connect(path, &key)?;
    // Until it has its name, nobody needs the file after a crash.
    connection.execute_batch("PRAGMA journal_mode = MEMORY; PRAGMA synchronous = OFF; PRAGMA temp_store = MEMORY;")?;
    connection.execute_batch("BEGIN")?;
    connection.pragma_update(None, "application_id", APPLICATION_ID)?;
    connection.pragma_update(None, "user_version", NEWEST)?;
    connection.execute_batch(SCHEMA)?;
    let mut about = connection.prepare("INSERT INTO about (name, value) VALUES (?1, ?2)")?;
    about.execute(params!["written_by", by.name])?;
    about.execute(params!["written_at", now.to_string()])?;
    drop(about);
    Ok(connection)
}

impl<'a> ExchangeFile<'a> {
    /// Opens a file for reading only, and checks that it is whole and has exactly the tables that it should have.
    pub fn open(path: &'a Path, passphrase: &Passphrase) -> Result<Self, NotebookError> {
        let not_one = |what| ExchangeError::NotOne { path: path.to_owned(), what };
        match std::fs::metadata(path) {
            Ok(about) if about.is_dir() => return Err(not_one("it is a folder").into()),
            Ok(_) => {}
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => {
                return Err(ExchangeError::Missing(path.to_owned()).into());
            }
            Err(error) => return Err(NotebookError::of_file(path, error)),
        }
        if !Door::is_at(path).map_err(|error| NotebookError::of_file(path, error))? {
            return Err(not_one("it does not begin like one").into());
        }
        let at_door = |error| NotebookError::of_door(path, error);
        let unlocked = Door::read(path).map_err(at_door)?.unlock(passphrase.reveal()).map_err(at_door)?;
        let key = unlocked.ok_or_else(|| ExchangeError::WrongPassphrase(path.to_owned()))?.key;
        let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let connection = evengap_door::connect(path, flags, &key).map_err(|_| damaged(path))?;
        let file = Self { connection, path };
        file.settle().map_err(|_| damaged(path))?;
        file.recognise()?;
        check_whole(&file.connection, path).map_err(|error| match error {
            NotebookError::Database(_) => damaged(path),
            error => error,
        })?;
        Ok(file)
    }

    fn settle(&self) -> rusqlite::Result<()> {
        self.connection.execute_batch(
            "PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON; PRAGMA query_only = ON; \
             PRAGMA temp_store = MEMORY; PRAGMA mmap_size = 0;",
        )
    }

    fn recognise(&self) -> Result<(), NotebookError> {
        let path = self.path.to_owned();
        let pragma = |name: &str| self.connection.pragma_query_value(None, name, |row| row.get::<_, i64>(0));
        let (application, version) = pragma("application_id")
            .and_then(|id| Ok((id, pragma("user_version")?)))
            .map_err(|_| damaged(self.path))?;
        if application != APPLICATION_ID || version < 1 {
            return Err(ExchangeError::NotOne { path, what: "it is a notebook or something else" }.into());
        }
        if version > NEWEST {
            return Err(ExchangeError::Newer { path, theirs: version, ours: NEWEST }.into());
        }
        let tables = |connection: &Connection| -> rusqlite::Result<Vec<(String, String, Option<String>)>> {
            // Statistics may come and go, and hold nothing.
            let sql = "SELECT type, name, sql FROM sqlite_schema \
                       WHERE type <> 'table' OR name NOT IN ('sqlite_stat1', 'sqlite_stat4') ORDER BY type, name";
            let mut statement = connection.prepare(sql)?;
            let rows = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))?;
            rows.collect()
        };
        let expected = Connection::open_in_memory()?;
        expected.execute_batch(SCHEMA)?;
        // No view, no trigger, no table that is not one: nothing in the file is run.
        if tables(&self.connection).map_err(|_| damaged(self.path))? != tables(&expected)? {
            return Err(refused(self.path, "its tables are not those of an exchange file"));
        }
        Ok(())
    }

    /// Reads what the file says of itself.
    pub fn about(&self, name: &str) -> Result<String, NotebookError> {
        let sql = "SELECT value FROM about WHERE name = ?1";
        self.connection
            .query_row(sql, [name], |row| row.get(0))
            .map_err(|_| refused(self.path, "it does not say who wrote it"))
    }

    /// Reads rows of one case, or of all where the statement asks for none.
    pub fn rows<T>(
        &self,
        sql: &str,
        given: impl rusqlite::Params,
        read: impl FnMut(&Row<'_>) -> rusqlite::Result<T>,
    ) -> Result<Vec<T>, NotebookError> {
        let all = || {
            let mut statement = self.connection.prepare_cached(sql)?;
            statement.query_map(given, read)?.collect::<rusqlite::Result<Vec<T>>>()
        };
        all().map_err(|_| damaged(self.path))
    }
}

/// Says that something in the file is not of the sort that it should be.
fn damaged(path: &Path) -> NotebookError {
    refused(path, "it is damaged, or a value in it is not of the sort that it should be")
}
