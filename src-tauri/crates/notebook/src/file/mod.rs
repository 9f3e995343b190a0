//! The notebook as a file: making one, opening one, and everything that is refused at the door.

mod beside;
mod check;
mod convert;
mod create;
mod identity;
pub(crate) mod migrations;
mod open;
#[cfg(feature = "bench")]
mod unencrypted;

use std::path::{Path, PathBuf};

use evengap_door::FileKey;
use rusqlite::{Connection, OpenFlags, OptionalExtension};

pub(crate) use beside::{Beside, journal};
pub(crate) use check::{check_pages, check_whole, mend_free_pages};
pub(crate) use identity::Identity;
pub(crate) use open::{Layout, followed, look_outside, unlock_door};

use crate::gate::{self, Changed};
use crate::{NotebookError, Person};

/// Marks the file as a notebook (`PRAGMA application_id`): "EvGp" in ASCII.
const APPLICATION_ID: i64 = 0x4576_4770;

/// An open notebook.
pub struct Notebook {
    pub(crate) connection: Connection,
    pub(crate) path: PathBuf,
    /// Whoever opened it.
    pub(crate) person: Person,
    /// The key of its pages.
    pub(crate) key: FileKey,
    /// The file that was opened, however it is called now.
    pub(crate) identity: Identity,
    /// Where the file of the older layout was kept, if it was converted just now.
    kept_as: Option<PathBuf>,
    demonstration: bool,
}

impl Notebook {
    /// Tells where the file is.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Gives the name of the person who writes in it.
    pub fn writer(&self) -> &str {
        &self.person.name
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

    /// Tells where the file of an older layout was kept, if it was converted on opening. Whoever knew its passphrase
    /// still opens that one.
    pub fn kept_as(&self) -> Option<&Path> {
        self.kept_as.as_deref()
    }

    pub(crate) fn write<T>(
        &mut self,
        act: impl FnOnce(&rusqlite::Transaction<'_>) -> Result<Changed<T>, NotebookError>,
    ) -> Result<T, NotebookError> {
        let written = gate::write(&mut self.connection, act);
        // What was committed to a file that nobody finds any more was not saved.
        match (self.identity.is_at(&self.path), written) {
            (false, Ok(_) | Err(NotebookError::Database(_))) => Err(NotebookError::Gone(self.path.clone())),
            (_, written) => written.map_err(|error| error.at(&self.path)),
        }
    }

    pub(crate) fn read<T>(
        &self,
        act: impl FnOnce(&Connection) -> Result<T, NotebookError>,
    ) -> Result<T, NotebookError> {
        act(&self.connection).map_err(|error| error.at(&self.path))
    }
}

/// Connects to an existing file with the key set; nothing is read or written yet.
pub(crate) fn connect(path: &Path, key: &FileKey) -> rusqlite::Result<Connection> {
    evengap_door::connect(path, OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX, key)
}

/// Settles how the open file is written; called once it is known to be ours.
pub(crate) fn settle(connection: &Connection) -> rusqlite::Result<()> {
    connection.busy_timeout(std::time::Duration::from_secs(5))?;
    // A rollback journal rather than a write-ahead log: whenever no write is under way everything is in
    // the one file that people copy and carry about, and it works on shared folders too. The journal is
    // encrypted like the file. Temporary tables and sorting stay in memory: no plaintext on the disk.
    connection.execute_batch(include_str!("settle.sql"))
}
