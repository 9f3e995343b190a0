//! A connection to the database behind a door.

use std::ffi::c_int;
use std::path::Path;

use rusqlite::{Connection, OpenFlags, ffi};

use crate::{FileKey, vfs};

/// Connects to the database behind the door of a file, with the key set; nothing is read or written yet. The door must
/// have been written.
///
/// # Errors
/// When SQLite cannot open the file.
pub fn connect(path: &Path, flags: OpenFlags, key: &FileKey) -> rusqlite::Result<Connection> {
    vfs::register().map_err(failed)?;
    // SQLite reads a name that begins with "file:" as a URI, which may mean another file, or none at all.
    let path = std::path::absolute(path).map_err(|_| failed(ffi::SQLITE_CANTOPEN))?;
    let connection = Connection::open_with_flags_and_vfs(path, flags, vfs::NAME)?;
    // SQLCipher would write to the terminal about every page that a wrong key cannot open.
    connection.pragma_update(None, "cipher_log_level", "NONE")?;
    connection.pragma_update(None, "key", key.as_pragma().as_str())?;
    Ok(connection)
}

fn failed(code: c_int) -> rusqlite::Error {
    rusqlite::Error::SqliteFailure(ffi::Error::new(code), None)
}
