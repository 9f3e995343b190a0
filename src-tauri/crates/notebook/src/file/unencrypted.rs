//! For the bench alone: the same notebook without its door and its encryption, to be held against the real one.

use std::path::Path;

use evengap_door::FileKey;
use rusqlite::{Connection, OpenFlags};

use super::{Identity, Notebook, settle};
use crate::NotebookError;

impl Notebook {
    /// Copies the notebook into a file that protects nothing, and opens that.
    ///
    /// # Errors
    /// When one of the two files refuses.
    pub fn unencrypted(&self, to: &Path) -> Result<Self, NotebookError> {
        let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_URI;
        let from = evengap_door::connect(&self.path, flags, &self.key)?;
        super::beside::claim(to)?;
        let address = format!("file:{}?vfs=unix", to.display());
        from.execute("ATTACH DATABASE ?1 AS plain KEY ''", [address])?;
        from.execute_batch("PRAGMA plain.synchronous = OFF; PRAGMA plain.journal_mode = OFF;")?;
        from.query_row("SELECT sqlcipher_export('plain')", [], |_| Ok(()))?;
        from.execute_batch("DETACH DATABASE plain")?;
        let connection = Connection::open(to)?;
        settle(&connection)?;
        let identity = Identity::of(to).map_err(|error| NotebookError::of_file(to, error))?;
        let key = FileKey::random().map_err(|error| NotebookError::of_door(to, error))?;
        let person = self.person.clone();
        Ok(Self { connection, path: to.to_owned(), person, key, identity, kept_as: None, demonstration: false })
    }
}
