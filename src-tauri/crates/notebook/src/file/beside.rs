//! A file that is made beside the one that it shall become, and takes its name only when it is whole.

use std::fs::{File, OpenOptions};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

use uuid::Uuid;

use crate::NotebookError;

/// A file that is not whole yet. It goes, with its journal, when it is let go.
pub(crate) struct Beside {
    path: PathBuf,
    for_path: PathBuf,
}

impl Beside {
    /// Makes an empty file in the folder of `for_path`, readable for nobody else.
    pub(crate) fn claim(for_path: &Path) -> Result<Self, NotebookError> {
        let path = with_ending(for_path, &format!(".{}.unfinished", Uuid::new_v4().simple()));
        claim(&path).map_err(|error| error.said_of(for_path, for_path))?;
        Ok(Self { path, for_path: for_path.to_owned() })
    }

    /// Tells where it is for now.
    pub(crate) fn path(&self) -> &Path {
        &self.path
    }

    /// Gives it its name: durably, and over another file only with `replace`.
    pub(crate) fn publish(self, replace: bool) -> Result<(), NotebookError> {
        // A journal that waits there would be applied to pages to which it does not belong.
        if journal(&self.for_path).exists() {
            return Err(NotebookError::Exists(journal(&self.for_path)));
        }
        let refused = |error| NotebookError::of_file(&self.for_path, error);
        File::open(&self.path).and_then(|file| file.sync_all()).map_err(refused)?;
        if replace {
            std::fs::rename(&self.path, &self.for_path).map_err(refused)?;
        } else {
            rename_to_new(&self.path, &self.for_path).map_err(refused)?;
        }
        sync_folder(&self.for_path).map_err(refused)
    }
}

impl Drop for Beside {
    fn drop(&mut self) {
        // Nothing is there any more once it has its name.
        let _ = std::fs::remove_file(&self.path);
        let _ = std::fs::remove_file(journal(&self.path));
    }
}

/// Takes a name, readable for nobody else; fails when the file exists.
pub(crate) fn claim(path: &Path) -> Result<(), NotebookError> {
    let mut options = OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    let Err(error) = options.open(path) else { return Ok(()) };
    Err(match error.kind() {
        ErrorKind::AlreadyExists => NotebookError::Exists(path.to_owned()),
        ErrorKind::NotFound | ErrorKind::NotADirectory => NotebookError::NoFolder(folder(path).to_owned()),
        ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => {
            NotebookError::FolderReadOnly(folder(path).to_owned())
        }
        _ => NotebookError::of_file(path, error),
    })
}

/// Where SQLite keeps what undoes an interrupted write.
pub(crate) fn journal(path: &Path) -> PathBuf {
    with_ending(path, "-journal")
}

/// Makes what was done to the names in a file's folder durable.
pub(crate) fn sync_folder(path: &Path) -> io::Result<()> {
    if cfg!(unix) { File::open(folder(path))?.sync_all() } else { Ok(()) }
}

/// Renames, and fails where the name is taken.
pub(crate) fn rename_to_new(from: &Path, to: &Path) -> io::Result<()> {
    match std::fs::hard_link(from, to) {
        Ok(()) => std::fs::remove_file(from),
        Err(error) if error.kind() == ErrorKind::AlreadyExists => Err(error),
        // Sticks and some shared folders know no second name for a file.
        Err(_) if to.try_exists()? => Err(ErrorKind::AlreadyExists.into()),
        Err(_) => std::fs::rename(from, to),
    }
}

fn folder(path: &Path) -> &Path {
    path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

fn with_ending(path: &Path, ending: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(ending);
    PathBuf::from(name)
}
