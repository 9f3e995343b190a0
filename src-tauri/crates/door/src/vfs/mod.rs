//! Where the pages of the database lie in the file: behind the door.
//!
//! A virtual file system of SQLite that adds the door's length to every position in a notebook and hands everything
//! else, locks, journals and syncs among it, to SQLite's own one. It knows neither keys nor pages. It alone in the
//! house is not safe Rust, because SQLite calls it.
#![expect(unsafe_code, reason = "SQLite calls these functions, and they call SQLite's own")]

mod file;
mod in_place;

use std::ffi::{CStr, c_char, c_int, c_void};
use std::mem::size_of;
use std::sync::OnceLock;

use rusqlite::ffi::{self, sqlite3_file, sqlite3_filename, sqlite3_int64, sqlite3_vfs};

use file::ShiftedFile;
pub(crate) use in_place::InPlace;

use crate::LENGTH;

/// The name under which connections ask for it.
pub(crate) const NAME: &CStr = c"evengap";

/// Registers the file system, once for the process; later calls only tell how it went.
pub(crate) fn register() -> Result<(), c_int> {
    static DONE: OnceLock<c_int> = OnceLock::new();
    match *DONE.get_or_init(|| {
        // SAFETY: initialising SQLite and looking for its default file system may be done at any time.
        let base = unsafe {
            let begun = ffi::sqlite3_initialize();
            if begun != ffi::SQLITE_OK {
                return begun;
            }
            ffi::sqlite3_vfs_find(std::ptr::null())
        };
        if base.is_null() {
            return ffi::SQLITE_ERROR;
        }
        // SAFETY: SQLite's default file system lives as long as the process.
        let of_base = unsafe { *base };
        let ours = Box::new(sqlite3_vfs {
            iVersion: 2,
            szOsFile: of_base.szOsFile + size_of::<ShiftedFile>() as c_int,
            mxPathname: of_base.mxPathname,
            pNext: std::ptr::null_mut(),
            zName: NAME.as_ptr(),
            pAppData: base.cast(),
            xOpen: Some(open),
            xDelete: Some(delete),
            xAccess: Some(access),
            xFullPathname: Some(full_pathname),
            // Extensions are never loaded.
            xDlOpen: None,
            xDlError: None,
            xDlSym: None,
            xDlClose: None,
            xRandomness: Some(randomness),
            xSleep: Some(sleep),
            xCurrentTime: Some(current_time),
            xGetLastError: Some(get_last_error),
            xCurrentTimeInt64: Some(current_time_int64),
            xSetSystemCall: None,
            xGetSystemCall: None,
            xNextSystemCall: None,
        });
        // SAFETY: the structure is never freed, as SQLite asks; it is not made the default.
        unsafe { ffi::sqlite3_vfs_register(Box::into_raw(ours), 0) }
    }) {
        ffi::SQLITE_OK => Ok(()),
        code => Err(code),
    }
}

/// Gives SQLite's own file system.
///
/// SAFETY: `ours` is the structure that `register` made.
unsafe fn base(ours: *mut sqlite3_vfs) -> *mut sqlite3_vfs {
    unsafe { (*ours).pAppData.cast() }
}

/// Calls a function of SQLite's own file system; one that it lacks is a misuse.
macro_rules! hand_on {
    ($ours:expr, $function:ident, $($argument:expr),*) => {{
        // SAFETY: SQLite gave the arguments for a function of the same contract.
        unsafe {
            let base = base($ours);
            (*base).$function.map_or(ffi::SQLITE_MISUSE, |function| function(base, $($argument),*))
        }
    }};
}

unsafe extern "C" fn open(
    ours: *mut sqlite3_vfs,
    name: sqlite3_filename,
    file: *mut sqlite3_file,
    flags: c_int,
    out_flags: *mut c_int,
) -> c_int {
    let shift = if flags & ffi::SQLITE_OPEN_MAIN_DB == 0 { 0 } else { LENGTH.cast_signed() };
    // SAFETY: SQLite gives `szOsFile` bytes at `file`; `name` stays valid until the file is closed.
    unsafe { file::open(base(ours), name, file, flags, out_flags, shift) }
}

unsafe extern "C" fn delete(ours: *mut sqlite3_vfs, name: *const c_char, sync_folder: c_int) -> c_int {
    #[cfg(feature = "faults")]
    // SAFETY: SQLite gives a name that ends in a zero byte.
    if let Some(code) = unsafe { crate::faults::deleted(name, sync_folder != 0) } {
        return code;
    }
    hand_on!(ours, xDelete, name, sync_folder)
}

unsafe extern "C" fn access(ours: *mut sqlite3_vfs, name: *const c_char, flags: c_int, answer: *mut c_int) -> c_int {
    hand_on!(ours, xAccess, name, flags, answer)
}

unsafe extern "C" fn full_pathname(
    ours: *mut sqlite3_vfs,
    name: *const c_char,
    length: c_int,
    out: *mut c_char,
) -> c_int {
    hand_on!(ours, xFullPathname, name, length, out)
}

unsafe extern "C" fn randomness(ours: *mut sqlite3_vfs, length: c_int, out: *mut c_char) -> c_int {
    hand_on!(ours, xRandomness, length, out)
}

unsafe extern "C" fn sleep(ours: *mut sqlite3_vfs, microseconds: c_int) -> c_int {
    hand_on!(ours, xSleep, microseconds)
}

unsafe extern "C" fn current_time(ours: *mut sqlite3_vfs, out: *mut f64) -> c_int {
    hand_on!(ours, xCurrentTime, out)
}

unsafe extern "C" fn get_last_error(ours: *mut sqlite3_vfs, length: c_int, out: *mut c_char) -> c_int {
    hand_on!(ours, xGetLastError, length, out)
}

unsafe extern "C" fn current_time_int64(ours: *mut sqlite3_vfs, out: *mut sqlite3_int64) -> c_int {
    hand_on!(ours, xCurrentTimeInt64, out)
}

/// The place behind a structure, where SQLite's own file begins.
///
/// SAFETY: `file` points to `szOsFile` bytes of the file system above.
unsafe fn behind(file: *mut sqlite3_file) -> *mut sqlite3_file {
    unsafe { file.cast::<c_void>().byte_add(size_of::<ShiftedFile>()).cast() }
}
