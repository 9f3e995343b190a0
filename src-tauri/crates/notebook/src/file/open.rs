//! Opens a notebook. Invariant: nothing is written before the file is known to be one that this
//! program understands; whatever is refused stays as it was, byte for byte.

use std::fs::File;
use std::io::{ErrorKind, Read};
use std::path::{Path, PathBuf};

use rusqlite::Connection;

use super::{APPLICATION_ID, Notebook, connect, migrations, settle};
use crate::gate::{self, Changed};
use crate::{NotebookError, Passphrase, projections};

/// SQLCipher's page, and thus the length of the smallest file that it can open.
const PAGE_BYTES: u64 = 4096;

impl Notebook {
    /// Opens a notebook, bringing one of an older program up to date.
    ///
    /// # Errors
    /// When the file is missing, write-protected, damaged, of another sort or of a newer program, or the
    /// passphrase is wrong.
    pub fn open(path: &Path, passphrase: &Passphrase) -> Result<Self, NotebookError> {
        look_outside(path)?;
        unlock(path, passphrase).map_err(|error| error.at(path))
    }
}

/// Checks what can be seen without the key.
fn look_outside(path: &Path) -> Result<(), NotebookError> {
    let io = |source: std::io::Error| match source.kind() {
        ErrorKind::NotFound | ErrorKind::NotADirectory => NotebookError::Missing(path.to_owned()),
        _ => NotebookError::Io { path: path.to_owned(), source },
    };
    let about = std::fs::metadata(path).map_err(io)?;
    if about.is_dir() {
        return Err(NotebookError::Folder(path.to_owned()));
    }
    if about.len() == 0 {
        return Err(NotebookError::Damaged { path: path.to_owned(), what: "the file is empty".into() });
    }
    let mut beginning = Vec::new();
    File::open(path).and_then(|file| file.take(16).read_to_end(&mut beginning)).map_err(io)?;
    if beginning.starts_with(b"SQLite format 3") {
        return Err(NotebookError::NotANotebook { path: path.to_owned(), what: "it is a database without encryption" });
    }
    // A crash can leave half a page at the end; the journal beside the file then says how to undo it.
    if about.len() % PAGE_BYTES != 0 && !journal(path).exists() {
        return Err(NotebookError::Damaged {
            path: path.to_owned(),
            what: format!("its length of {} bytes is not that of a whole notebook (or it never was one)", about.len()),
        });
    }
    if about.permissions().readonly() {
        return Err(NotebookError::ReadOnly(path.to_owned()));
    }
    Ok(())
}

fn journal(path: &Path) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push("-journal");
    PathBuf::from(name)
}

fn unlock(path: &Path, passphrase: &Passphrase) -> Result<Notebook, NotebookError> {
    let mut connection = connect(path, passphrase)?;
    recognise(&connection, path)?;
    check_pages(&connection, path)?;
    if connection.is_readonly("main")? {
        return Err(NotebookError::ReadOnly(path.to_owned()));
    }
    settle(&connection)?;
    if migrations::version(&connection)? < migrations::NEWEST {
        gate::write(&mut connection, |transaction| {
            if migrations::run(transaction)? {
                projections::rebuild(transaction)?;
            }
            Ok(Changed { result: (), cases: Vec::new() })
        })?;
    }
    let writer = connection.query_row(include_str!("first_writer.sql"), [], |row| row.get(0))?;
    let demonstration = connection.query_row(include_str!("is_demonstration.sql"), [], |row| row.get(0))?;
    Ok(Notebook { connection, path: path.to_owned(), writer, demonstration })
}

/// Reads the first page: the right key, our file, a version that we know.
fn recognise(connection: &Connection, path: &Path) -> Result<(), NotebookError> {
    let application: i64 = connection.pragma_query_value(None, "application_id", |row| row.get(0))?;
    let version = migrations::version(connection)?;
    if application != APPLICATION_ID || version < 1 {
        return Err(NotebookError::NotANotebook { path: path.to_owned(), what: "it is another program's database" });
    }
    if version > migrations::NEWEST {
        return Err(NotebookError::Newer { path: path.to_owned(), theirs: version, ours: migrations::NEWEST });
    }
    Ok(())
}

/// Checks the seal of every page, so that damage is noticed now and not in the middle of a list.
fn check_pages(connection: &Connection, path: &Path) -> Result<(), NotebookError> {
    let mut broken: Vec<String> = Vec::new();
    connection.pragma_query(None, "cipher_integrity_check", |row| {
        broken.push(row.get(0)?);
        Ok(())
    })?;
    match broken.len() {
        0 => Ok(()),
        1 => Err(NotebookError::Damaged { path: path.to_owned(), what: "one page is not as it was written".into() }),
        pages => Err(NotebookError::Damaged {
            path: path.to_owned(),
            what: format!("{pages} pages are not as they were written"),
        }),
    }
}
