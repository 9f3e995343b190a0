//! Putting a finished paper into a file: whole or not at all.

use std::io::{self, ErrorKind, Write};
use std::path::Path;

use crate::{DeskError, ErrorCode};

/// Writes a file beside its final name and then gives it that name.
///
/// A crash leaves the old file or the new one, never half of one.
pub(crate) fn put(to: &Path, content: &[u8], replace: bool) -> Result<(), DeskError> {
    let folder = folder_of(to)?;
    let mut beside =
        tempfile::Builder::new().prefix(".evengap-").tempfile_in(folder).map_err(|error| told(&error, to, folder))?;
    beside.write_all(content).and_then(|()| beside.as_file().sync_all()).map_err(|error| told(&error, to, folder))?;
    let named = if replace { beside.persist(to) } else { beside.persist_noclobber(to) };
    named.map(drop).map_err(|error| told(&error.error, to, folder))
}

/// Makes sure that a file could be written beside its final name, and leaves nothing.
pub(crate) fn try_beside(to: &Path) -> Result<(), DeskError> {
    let folder = folder_of(to)?;
    tempfile::Builder::new().prefix(".evengap-").tempfile_in(folder).map(drop).map_err(|error| told(&error, to, folder))
}

/// The folder of a file that is to be written.
fn folder_of(to: &Path) -> Result<&Path, DeskError> {
    if to.file_name().is_none() || to.is_dir() {
        return Err(DeskError::failed(format!("{} is a folder; give the name of a file in it.", to.display())));
    }
    Ok(match to.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    })
}

/// Makes a folder of its own beside a file that is to be written; it goes when it is dropped.
pub(crate) fn folder_beside(to: &Path) -> Result<tempfile::TempDir, DeskError> {
    let folder = folder_of(to)?;
    tempfile::Builder::new().prefix(".evengap-").tempdir_in(folder).map_err(|error| told(&error, to, folder))
}

/// Gives a file that was written beside its final name that name.
pub(crate) fn take(beside: &Path, to: &Path, replace: bool) -> Result<(), DeskError> {
    let folder = folder_of(to)?;
    if replace {
        return std::fs::rename(beside, to).map_err(|error| told(&error, to, folder));
    }
    // A link fails where the name is taken meanwhile; not every file system has them.
    match std::fs::hard_link(beside, to) {
        Err(error) if error.kind() != ErrorKind::AlreadyExists && !to.exists() => {
            std::fs::rename(beside, to).map_err(|error| told(&error, to, folder))
        }
        linked => linked.map_err(|error| told(&error, to, folder)),
    }
}

/// Makes a folder with those above it.
pub(crate) fn make_folder(folder: &Path) -> Result<(), DeskError> {
    std::fs::create_dir_all(folder).map_err(|error| match error.kind() {
        ErrorKind::AlreadyExists | ErrorKind::NotADirectory => DeskError::failed(format!(
            "{} cannot be a folder, because a file of that name is in the way; choose another.",
            folder.display()
        )),
        _ => told(&error, folder, folder.parent().unwrap_or(folder)),
    })
}

/// Takes out of a person's name what a file name cannot hold on one of the systems.
pub(crate) fn fit_for_a_name(text: &str) -> String {
    let kept = |letter: char| letter.is_alphanumeric() || matches!(letter, '-' | '\'' | '’' | '\u{300}'..='\u{36F}');
    let words = text.chars().map(|letter| if kept(letter) { letter } else { ' ' }).collect::<String>();
    let name = words.split_whitespace().collect::<Vec<_>>().join(" ");
    name.chars().take(40).collect::<String>().trim_end().to_owned()
}

/// Says that a file is in the way.
pub(crate) fn exists(to: &Path) -> DeskError {
    let to = to.display();
    DeskError::new(ErrorCode::Exists, format!("{to} exists already. Replace it, or choose another name."))
}

fn told(error: &io::Error, path: &Path, folder: &Path) -> DeskError {
    let (to, folder) = (path.display(), folder.display());
    match error.kind() {
        ErrorKind::AlreadyExists => exists(path),
        ErrorKind::NotFound => {
            DeskError::failed(format!("The folder {folder} does not exist. Make it first, or choose another."))
        }
        ErrorKind::NotADirectory => DeskError::failed(format!("{folder} is not a folder. Choose another.")),
        ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => {
            DeskError::failed(format!("{to} may not be written. Allow writing to {folder}, or choose another folder."))
        }
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => {
            DeskError::failed(format!("There is no room left to write {to}. Nothing was written; free some space."))
        }
        ErrorKind::InvalidFilename => {
            DeskError::failed(format!("{to} is not a possible file name here. Choose a shorter or simpler one."))
        }
        _ => DeskError::failed(format!("{to} could not be written: {error}.")),
    }
}
