//! A notebook's file opened by itself, at its real positions: for the door, never for pages.
//!
//! It goes through SQLite's own file system and not through `std::fs`: on POSIX systems, closing a file drops every
//! lock that the process has on it, those of SQLite's connections too. SQLite's own file system puts such closing off.

use std::ffi::{CString, c_int};
use std::io;
use std::path::Path;
use std::ptr;

use rusqlite::ffi::{self, sqlite3_file, sqlite3_filename, sqlite3_int64};

use super::{base, file, register};

/// Calls a function of an open file and reads its answer.
macro_rules! call {
    ($self:expr, $function:ident $(, $argument:expr)*) => {{
        let file = $self.file();
        // SAFETY: the file is open for as long as this structure lives.
        match unsafe { (*(*file).pMethods).$function.map(|function| function(file $(, $argument)*)) } {
            Some(ffi::SQLITE_OK) => Ok(()),
            Some(code) => Err(failed(code)),
            None => Err(failed(ffi::SQLITE_MISUSE)),
        }
    }};
}

/// One open file.
pub(crate) struct InPlace {
    /// What SQLite asks for, aligned to eight bytes; it does not move when this structure does.
    memory: Vec<u64>,
    name: sqlite3_filename,
}

impl InPlace {
    /// Opens a file that is there.
    pub(crate) fn open(path: &Path, to_write: bool) -> io::Result<Self> {
        // Tells a missing file, or a folder, in the words of the operating system.
        if std::fs::metadata(path)?.is_dir() {
            return Err(io::ErrorKind::IsADirectory.into());
        }
        register().map_err(failed)?;
        // SQLite's own file follows no symbolic link; a connection has followed it before.
        let path = if path.is_symlink() { path.canonicalize()? } else { std::path::absolute(path)? };
        let name = name_of(&path)?;
        // SAFETY: the name was registered just now and stays so; the names of journals are not used.
        let (ours, name) = unsafe {
            let name = ffi::sqlite3_create_filename(name.as_ptr(), c"".as_ptr(), c"".as_ptr(), 0, ptr::null_mut());
            (ffi::sqlite3_vfs_find(super::NAME.as_ptr()), name)
        };
        if ours.is_null() || name.is_null() {
            return Err(io::ErrorKind::OutOfMemory.into());
        }
        // SAFETY: `ours` is the structure that `register` made.
        let size = usize::try_from(unsafe { (*ours).szOsFile }).map_err(|_| failed(ffi::SQLITE_ERROR))?;
        let mut opened = Self { memory: vec![0; size.div_ceil(8)], name };
        let access = if to_write { ffi::SQLITE_OPEN_READWRITE } else { ffi::SQLITE_OPEN_READONLY };
        let mut given: c_int = 0;
        // SAFETY: the memory is as large as the file system asks, and `name` lives until the file is closed.
        let code = unsafe {
            file::open(base(ours), name, opened.file(), ffi::SQLITE_OPEN_MAIN_DB | access, &raw mut given, 0)
        };
        match code {
            // SQLite opens what it may not write only to be read.
            ffi::SQLITE_OK if to_write && given & ffi::SQLITE_OPEN_READONLY != 0 => Err(failed(ffi::SQLITE_READONLY)),
            ffi::SQLITE_OK => Ok(opened),
            code => Err(failed(code)),
        }
    }

    pub(crate) fn length(&mut self) -> io::Result<u64> {
        let mut bytes: sqlite3_int64 = 0;
        call!(self, xFileSize, &raw mut bytes)?;
        Ok(bytes.cast_unsigned())
    }

    /// Reads from a position, at most so many bytes; fewer where the file ends.
    pub(crate) fn read(&mut self, at: u64, most: usize) -> io::Result<Vec<u8>> {
        let there = usize::try_from(self.length()?.saturating_sub(at)).unwrap_or(usize::MAX);
        let mut bytes = vec![0; most.min(there)];
        let length = c_int::try_from(bytes.len()).map_err(|_| failed(ffi::SQLITE_TOOBIG))?;
        call!(self, xRead, bytes.as_mut_ptr().cast(), length, at.cast_signed())?;
        Ok(bytes)
    }

    pub(crate) fn write(&mut self, at: u64, bytes: &[u8]) -> io::Result<()> {
        let length = c_int::try_from(bytes.len()).map_err(|_| failed(ffi::SQLITE_TOOBIG))?;
        call!(self, xWrite, bytes.as_ptr().cast(), length, at.cast_signed())
    }

    pub(crate) fn set_length(&mut self, bytes: u64) -> io::Result<()> {
        call!(self, xTruncate, bytes.cast_signed())
    }

    /// Makes durable what was written.
    pub(crate) fn sync(&mut self) -> io::Result<()> {
        call!(self, xSync, ffi::SQLITE_SYNC_FULL)
    }

    /// Keeps everybody from writing as long as this file is open.
    pub(crate) fn hold(&mut self) -> io::Result<()> {
        call!(self, xLock, ffi::SQLITE_LOCK_SHARED)
    }

    fn file(&mut self) -> *mut sqlite3_file {
        self.memory.as_mut_ptr().cast()
    }
}

impl Drop for InPlace {
    fn drop(&mut self) {
        let file = self.file();
        // SAFETY: a file without methods was never opened; the name is not used after the file is closed.
        unsafe {
            if let Some(methods) = (*file).pMethods.as_ref() {
                if let Some(unlock) = methods.xUnlock {
                    unlock(file, ffi::SQLITE_LOCK_NONE);
                }
                if let Some(close) = methods.xClose {
                    close(file);
                }
            }
            ffi::sqlite3_free_filename(self.name);
        }
    }
}

fn name_of(path: &Path) -> io::Result<CString> {
    #[cfg(unix)]
    let bytes = std::os::unix::ffi::OsStrExt::as_bytes(path.as_os_str()).to_vec();
    #[cfg(not(unix))]
    let bytes = path.to_str().ok_or(io::ErrorKind::InvalidInput)?.as_bytes().to_vec();
    Ok(CString::new(bytes)?)
}

fn failed(code: c_int) -> io::Error {
    match code & 0xff {
        ffi::SQLITE_FULL => io::ErrorKind::StorageFull.into(),
        ffi::SQLITE_READONLY | ffi::SQLITE_PERM | ffi::SQLITE_CANTOPEN => io::ErrorKind::PermissionDenied.into(),
        ffi::SQLITE_BUSY => io::ErrorKind::ResourceBusy.into(),
        ffi::SQLITE_NOMEM => io::ErrorKind::OutOfMemory.into(),
        _ => io::Error::other(ffi::Error::new(code)),
    }
}
