//! The notebook as a file: making one, opening one, and everything that is refused at the door.

mod create;
mod migrations;
mod open;

use std::path::{Path, PathBuf};

use rusqlite::{Connection, OpenFlags, OptionalExtension};

use crate::gate::{self, Changed};
use crate::{NotebookError, Passphrase};

/// Marks the file as a notebook (`PRAGMA application_id`): "EvGp" in ASCII.
const APPLICATION_ID: i64 = 0x4576_4770;

/// An open notebook.
pub struct Notebook {
    pub(crate) connection: Connection,
    path: PathBuf,
    writer: String,
    demonstration: bool,
}

impl Notebook {
    /// Tells where the file is.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Gives the name of the person who writes in it.
    pub fn writer(&self) -> &str {
        &self.writer
    }

    /// Tells whether it holds invented people only and every paper has to say so.
    pub fn is_demonstration(&self) -> bool {
        self.demonstration
    }

    /// Marks the notebook as the demonstration, for good.
    ///
    /// # Errors
    /// When the file cannot be written.
    pub fn mark_demonstration(&mut self) -> Result<(), NotebookError> {
        self.write(|transaction| {
            transaction.execute(include_str!("mark_demonstration.sql"), [])?;
            Ok(Changed { result: (), cases: Vec::new() })
        })?;
        self.demonstration = true;
        Ok(())
    }

    /// Gives a setting as it was stored, if it ever was.
    ///
    /// # Errors
    /// When the file can no longer be read.
    pub fn setting(&self, name: &str) -> Result<Option<String>, NotebookError> {
        self.read(|connection| {
            Ok(connection.query_row(include_str!("setting.sql"), [name], |row| row.get(0)).optional()?)
        })
    }

    /// Stores a setting.
    ///
    /// # Errors
    /// When the file cannot be written.
    pub fn set_setting(&mut self, name: &str, value: &str) -> Result<(), NotebookError> {
        self.write(|transaction| {
            transaction.execute(include_str!("set_setting.sql"), [name, value])?;
            Ok(Changed { result: (), cases: Vec::new() })
        })
    }

    pub(crate) fn write<T>(
        &mut self,
        act: impl FnOnce(&rusqlite::Transaction<'_>) -> Result<Changed<T>, NotebookError>,
    ) -> Result<T, NotebookError> {
        gate::write(&mut self.connection, act).map_err(|error| error.at(&self.path))
    }

    pub(crate) fn read<T>(
        &self,
        act: impl FnOnce(&Connection) -> Result<T, NotebookError>,
    ) -> Result<T, NotebookError> {
        act(&self.connection).map_err(|error| error.at(&self.path))
    }
}

/// Connects to an existing file with the key set; nothing is read or written yet.
fn connect(path: &Path, passphrase: &Passphrase) -> rusqlite::Result<Connection> {
    let connection =
        Connection::open_with_flags(path, OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX)?;
    // SQLCipher would write to the terminal about every page that a wrong key cannot open.
    connection.pragma_update(None, "cipher_log_level", "NONE")?;
    connection.pragma_update(None, "key", passphrase.reveal())?;
    Ok(connection)
}

/// Settles how the open file is written; called once it is known to be ours.
fn settle(connection: &Connection) -> rusqlite::Result<()> {
    connection.busy_timeout(std::time::Duration::from_secs(5))?;
    // A rollback journal rather than a write-ahead log: whenever no write is under way everything is in
    // the one file that people copy and carry about, and it works on shared folders too. The journal is
    // encrypted like the file. Temporary tables and sorting stay in memory: no plaintext on the disk.
    connection.execute_batch(include_str!("settle.sql"))
}
