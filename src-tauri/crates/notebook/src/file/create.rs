//! Makes a new notebook. It never takes the place of a file that is there already.

use std::fs::OpenOptions;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use evengap_case::LocalTime;

use super::{APPLICATION_ID, Notebook, connect, migrations, settle};
use crate::gate::{self, Changed};
use crate::{NotebookError, Passphrase};

impl Notebook {
    /// Makes a new, empty notebook and opens it.
    ///
    /// # Errors
    /// When the file exists, its folder does not, the writer has no name, or the disk refuses.
    pub fn create(path: &Path, passphrase: &Passphrase, writer: &str, now: LocalTime) -> Result<Self, NotebookError> {
        let writer = writer.trim();
        if writer.is_empty() {
            return Err(NotebookError::NoWriter);
        }
        claim(path)?;
        fill(path, passphrase, writer, now).map_err(|error| {
            // The file is ours and worthless; leaving it would only block the name.
            let _ = std::fs::remove_file(path);
            error.at(path)
        })
    }
}

/// Takes the name, readable for nobody else; fails when the file exists.
fn claim(path: &Path) -> Result<(), NotebookError> {
    let mut options = OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    let Err(error) = options.open(path) else { return Ok(()) };
    let folder = || match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder.to_owned(),
        _ => PathBuf::from("."),
    };
    Err(match error.kind() {
        ErrorKind::AlreadyExists => NotebookError::Exists(path.to_owned()),
        ErrorKind::NotFound | ErrorKind::NotADirectory => NotebookError::NoFolder(folder()),
        ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => NotebookError::FolderReadOnly(folder()),
        ErrorKind::StorageFull => NotebookError::Full(path.to_owned()),
        _ => NotebookError::Io { path: path.to_owned(), source: error },
    })
}

fn fill(path: &Path, passphrase: &Passphrase, writer: &str, now: LocalTime) -> Result<Notebook, NotebookError> {
    let mut connection = connect(path, passphrase)?;
    settle(&connection)?;
    gate::write(&mut connection, |transaction| {
        transaction.pragma_update(None, "application_id", APPLICATION_ID)?;
        migrations::run(transaction)?;
        transaction.execute(include_str!("add_writer.sql"), [writer, &now.to_string()])?;
        Ok(Changed { result: (), cases: Vec::new() })
    })?;
    Ok(Notebook { connection, path: path.to_owned(), writer: writer.to_owned(), demonstration: false })
}
