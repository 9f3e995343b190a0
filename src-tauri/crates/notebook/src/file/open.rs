//! Opens a notebook. Invariant: nothing is written before the file is known to be one that this
//! program understands; whatever is refused stays as it was, byte for byte.

use std::fs::File;
use std::io::Read;
use std::path::{Path, PathBuf};

use evengap_case::LocalTime;
use evengap_door::{Door, FileKey, LENGTH, RecoveryCode, Unlocked};
use rusqlite::{Connection, ErrorCode};

use super::{
    APPLICATION_ID, Identity, Notebook, check_pages, connect, convert, journal, mend_free_pages, migrations, settle,
};
use crate::gate::{self, Changed};
use crate::{NotebookError, Passphrase, exchange, people, projections};

/// SQLCipher's page, and thus the length of the smallest file that it can open.
const PAGE_BYTES: u64 = 4096;
/// Bytes of a file whose pages are all checked on opening: about a second of work. Those of a larger one are checked
/// as they are read, at each backup, and when somebody asks.
const CHECKED_BYTES: u64 = 32 * 1024 * 1024;

impl Notebook {
    /// Opens a notebook as the person to whom the passphrase belongs, or as the recovery sheet whose code was typed.
    /// One of an older program is brought up to date; one of the older layout is kept beside the new one.
    ///
    /// # Errors
    /// When the file is missing, write-protected, damaged, of another sort or of a newer program, or the
    /// passphrase is wrong.
    pub fn open(path: &Path, passphrase: &Passphrase, now: LocalTime) -> Result<Self, NotebookError> {
        let path = &followed(path)?;
        let kept_as = match look_outside(path)? {
            Layout::Door => None,
            Layout::Older => Some(convert::convert(path, passphrase, now)?),
        };
        let mut notebook = unlock(path, passphrase).map_err(|error| error.at(path))?;
        notebook.kept_as = kept_as;
        Ok(notebook)
    }
}

/// Gives the file that a symbolic link leads to: its journal and what is made in its place belong beside that one.
pub(crate) fn followed(path: &Path) -> Result<PathBuf, NotebookError> {
    if path.is_symlink() {
        return path.canonicalize().map_err(|source| NotebookError::of_file(path, source));
    }
    Ok(path.to_owned())
}

/// How a file is laid out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Layout {
    /// A door, and pages behind it.
    Door,
    /// Pages alone, whose key is the passphrase.
    Older,
}

/// Checks what can be seen without the key.
pub(crate) fn look_outside(path: &Path) -> Result<Layout, NotebookError> {
    let io = |source| NotebookError::of_file(path, source);
    let about = std::fs::metadata(path).map_err(io)?;
    if about.is_dir() {
        return Err(NotebookError::Folder(path.to_owned()));
    }
    if about.len() == 0 {
        return Err(NotebookError::Damaged { path: path.to_owned(), what: "the file is empty".into() });
    }
    let layout = if Door::is_at(path).map_err(io)? { Layout::Door } else { Layout::Older };
    if layout == Layout::Older {
        // A notebook with a door is never opened past SQLite: closing such a file would end SQLite's locks on it.
        let mut beginning = Vec::new();
        File::open(path).and_then(|file| file.take(16).read_to_end(&mut beginning)).map_err(io)?;
        if beginning.starts_with(b"SQLite format 3") {
            let what = "it is a database without encryption";
            return Err(NotebookError::NotANotebook { path: path.to_owned(), what });
        }
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
    Ok(layout)
}

/// Tries a passphrase on the door, as what it was typed as: a recovery code, or words.
pub(crate) fn unlock_door(door: &Door, path: &Path, passphrase: &Passphrase) -> Result<Unlocked, NotebookError> {
    let try_on = |words: &str| door.unlock(words).map_err(|error| NotebookError::of_door(path, error));
    let code = RecoveryCode::read(passphrase.reveal());
    if let Ok(code) = &code
        && let Some(unlocked) = try_on(code.as_passphrase())?
    {
        return Ok(unlocked);
    }
    try_on(passphrase.reveal())?.ok_or_else(|| match code {
        Ok(_) => NotebookError::OldRecoverySheet(path.to_owned()),
        Err(slip) if RecoveryCode::is_meant(passphrase.reveal()) => NotebookError::RecoverySlip(slip),
        _ => NotebookError::WrongPassphrase(path.to_owned()),
    })
}

fn unlock(path: &Path, passphrase: &Passphrase) -> Result<Notebook, NotebookError> {
    let was_cut_short = journal(path).exists();
    let door = Door::read(path).map_err(|error| NotebookError::of_door(path, error))?;
    let unlocked = unlock_door(&door, path, passphrase)?;
    let key = key_of_pages(path, &unlocked)?;
    let mut connection = connect(path, &key)?;
    recognise(&connection, path)?;
    let about = std::fs::metadata(path).map_err(|error| NotebookError::of_file(path, error))?;
    let is_torn = about.len() <= CHECKED_BYTES + LENGTH && check_pages(&connection, path)?;
    if connection.is_readonly("main")? {
        return Err(NotebookError::ReadOnly(path.to_owned()));
    }
    settle(&connection)?;
    if is_torn || was_cut_short {
        // That it cannot be done is no reason to keep anybody out: nothing stands in free pages.
        let _ = mend_free_pages(&connection);
    }
    if migrations::version(&connection)? < migrations::NEWEST {
        gate::write(&mut connection, |transaction| {
            if migrations::run(transaction)? {
                projections::rebuild(transaction)?;
            }
            Ok(Changed { result: (), cases: Vec::new() })
        })?;
    }
    // A removal that was cut short is finished by whoever opens next; the removed person is not let in any more.
    let person =
        people::of_mark(&connection, unlocked.slot)?.ok_or_else(|| NotebookError::WrongPassphrase(path.to_owned()))?;
    let demonstration = connection.query_row(include_str!("is_demonstration.sql"), [], |row| row.get(0))?;
    let identity = Identity::of(path).map_err(|error| NotebookError::of_file(path, error))?;
    let path = path.to_owned();
    let mut notebook = Notebook { connection, path, person, key, identity, kept_as: None, demonstration };
    notebook.finish_removals(&door, &unlocked)?;
    Ok(notebook)
}

/// Tells which of the keys in the door opens the pages: a change of keys may have been cut short.
fn key_of_pages(path: &Path, unlocked: &Unlocked) -> Result<FileKey, NotebookError> {
    let keys = [Some(&unlocked.key), unlocked.next_key.as_ref()];
    for key in keys.into_iter().flatten() {
        match migrations::version(&connect(path, key)?) {
            Err(error) if error.sqlite_error_code() == Some(ErrorCode::NotADatabase) => {}
            Err(error) => return Err(error.into()),
            Ok(_) => return Ok(key.clone()),
        }
    }
    Err(NotebookError::Damaged { path: path.to_owned(), what: "its first page is not as it was written".into() })
}

/// Reads the first page: the right key, our file, a version that we know.
pub(super) fn recognise(connection: &Connection, path: &Path) -> Result<(), NotebookError> {
    let application: i64 = connection.pragma_query_value(None, "application_id", |row| row.get(0))?;
    let version = migrations::version(connection)?;
    if application == exchange::APPLICATION_ID {
        return Err(NotebookError::ExchangeFile(path.to_owned()));
    }
    if application != APPLICATION_ID || version < 1 {
        return Err(NotebookError::NotANotebook { path: path.to_owned(), what: "it is another program's database" });
    }
    if version > migrations::NEWEST {
        return Err(NotebookError::Newer { path: path.to_owned(), theirs: version, ours: migrations::NEWEST });
    }
    Ok(())
}
