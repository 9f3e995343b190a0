//! For tests: somebody who stands between SQLite and the disk, sees what is asked of it and may refuse.

#![expect(unsafe_code, reason = "names and bytes come from SQLite")]

use std::ffi::{CStr, c_char, c_int, c_void};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

use rusqlite::ffi;

/// Which file something is asked of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum FileKind {
    /// The notebook; positions are those of the file, the door included.
    Notebook,
    /// Its rollback journal.
    Journal,
    /// Anything else, such as a temporary file.
    Other,
}

/// What is asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Act<'a> {
    /// To open it.
    Open {
        /// Whether it may be made.
        create: bool,
    },
    /// To write bytes.
    Write {
        /// Position in the file.
        offset: u64,
        /// What is written.
        bytes: &'a [u8],
    },
    /// To cut it to a length.
    Truncate {
        /// The new length.
        bytes: u64,
    },
    /// To make everything that was written durable.
    Sync,
    /// To remove it.
    Delete {
        /// Whether the removal is to be durable at once, and not only at the next sync of the folder.
        durable: bool,
    },
    /// To close it, which cannot be refused.
    Close,
}

/// What is asked of which file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Op<'a> {
    /// The sort of the file.
    pub file: FileKind,
    /// The file; empty for a temporary one without a name.
    pub path: &'a Path,
    /// What is asked.
    pub act: Act<'a>,
}

/// What becomes of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// It is done.
    Go,
    /// There is no room.
    Full,
    /// The disk fails.
    IoError,
    /// It may not be written.
    ReadOnly,
}

/// Somebody who is asked before each operation.
pub trait Faults: Send {
    /// Decides about one operation, before it is done.
    fn before(&mut self, op: &Op<'_>) -> Verdict;
}

static FAULTS: Mutex<Option<Box<dyn Faults>>> = Mutex::new(None);

/// Puts somebody in, or takes them out. It counts for the whole process, and for writing a door as well as for SQLite.
/// Whoever is asked must not use a notebook meanwhile.
pub fn install(faults: Option<Box<dyn Faults>>) {
    *FAULTS.lock().unwrap_or_else(PoisonError::into_inner) = faults;
}

/// An open file.
pub(crate) struct Watched {
    file: FileKind,
    path: PathBuf,
}

fn ask(file: FileKind, path: &Path, act: Act<'_>) -> Option<c_int> {
    let mut faults = FAULTS.lock().unwrap_or_else(PoisonError::into_inner);
    let is_open = matches!(act, Act::Open { .. });
    let is_delete = matches!(act, Act::Delete { .. });
    match faults.as_mut()?.before(&Op { file, path, act }) {
        Verdict::Go => None,
        Verdict::Full => Some(ffi::SQLITE_FULL),
        Verdict::IoError if is_delete => Some(ffi::SQLITE_IOERR_DELETE),
        Verdict::IoError if is_open => Some(ffi::SQLITE_CANTOPEN),
        Verdict::IoError => Some(ffi::SQLITE_IOERR_WRITE),
        Verdict::ReadOnly if is_open => Some(ffi::SQLITE_CANTOPEN),
        Verdict::ReadOnly => Some(ffi::SQLITE_READONLY),
    }
}

pub(crate) fn opened(name: *const c_char, flags: c_int) -> Result<Watched, c_int> {
    let file = if flags & ffi::SQLITE_OPEN_MAIN_DB != 0 {
        FileKind::Notebook
    } else if flags & ffi::SQLITE_OPEN_MAIN_JOURNAL != 0 {
        FileKind::Journal
    } else {
        FileKind::Other
    };
    // SAFETY: SQLite gives no name, or one that ends in a zero byte.
    let path = if name.is_null() { PathBuf::new() } else { unsafe { path_of(name) } };
    match ask(file, &path, Act::Open { create: flags & ffi::SQLITE_OPEN_CREATE != 0 }) {
        Some(code) => Err(code),
        None => Ok(Watched { file, path }),
    }
}

/// SAFETY: the name ends in a zero byte.
pub(crate) unsafe fn deleted(name: *const c_char, durable: bool) -> Option<c_int> {
    let path = unsafe { path_of(name) };
    let is_journal = path.to_string_lossy().ends_with("-journal");
    ask(if is_journal { FileKind::Journal } else { FileKind::Other }, &path, Act::Delete { durable })
}

pub(crate) fn before(file: &Watched, act: Act<'_>) -> Option<c_int> {
    ask(file.file, &file.path, act)
}

/// What is about to be written.
///
/// SAFETY: as for `xWrite`; the answer is used before `xWrite` returns.
pub(crate) unsafe fn written<'a>(from: *const c_void, bytes: c_int, at: i64) -> Act<'a> {
    // SAFETY: SQLite gives that many bytes.
    let bytes = unsafe { std::slice::from_raw_parts(from.cast::<u8>(), usize::try_from(bytes).unwrap_or(0)) };
    Act::Write { offset: at.cast_unsigned(), bytes }
}

/// SAFETY: the name ends in a zero byte.
unsafe fn path_of(name: *const c_char) -> PathBuf {
    let name = unsafe { CStr::from_ptr(name) };
    PathBuf::from(name.to_string_lossy().into_owned())
}
