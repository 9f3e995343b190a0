//! One open file: a notebook, whose positions are shifted, or a journal, whose positions are not.

use std::ffi::{c_int, c_void};

use rusqlite::ffi::{self, sqlite3_file, sqlite3_filename, sqlite3_int64, sqlite3_io_methods, sqlite3_vfs};

use super::behind;

/// What stands before SQLite's own file in the memory that SQLite gives; eight bytes each, so that what follows is aligned.
#[repr(C)]
pub(super) struct ShiftedFile {
    base: sqlite3_file,
    /// Added to every position.
    shift: sqlite3_int64,
    #[cfg(feature = "faults")]
    watched: *mut crate::faults::Watched,
}

/// Version 1: neither shared memory nor mapped pages, so nothing reaches the file but through these.
const METHODS: sqlite3_io_methods = sqlite3_io_methods {
    iVersion: 1,
    xClose: Some(close),
    xRead: Some(read),
    xWrite: Some(write),
    xTruncate: Some(truncate),
    xSync: Some(sync),
    xFileSize: Some(file_size),
    xLock: Some(lock),
    xUnlock: Some(unlock),
    xCheckReservedLock: Some(check_reserved_lock),
    xFileControl: Some(file_control),
    xSectorSize: Some(sector_size),
    xDeviceCharacteristics: Some(device_characteristics),
    xShmMap: None,
    xShmLock: None,
    xShmBarrier: None,
    xShmUnmap: None,
    xFetch: None,
    xUnfetch: None,
};

static OURS: sqlite3_io_methods = METHODS;

/// Opens a file; `shift` is added to every position in it.
///
/// SAFETY: as for `xOpen`; `base` is SQLite's own file system.
pub(super) unsafe fn open(
    base: *mut sqlite3_vfs,
    name: sqlite3_filename,
    file: *mut sqlite3_file,
    flags: c_int,
    out_flags: *mut c_int,
    shift: sqlite3_int64,
) -> c_int {
    // SAFETY: the caller's promise; `pMethods` stays empty where the file was not opened, so SQLite never closes it.
    unsafe {
        (*file).pMethods = std::ptr::null();
        #[cfg(feature = "faults")]
        let watched = match crate::faults::opened(name, flags) {
            Ok(watched) => watched,
            Err(code) => return code,
        };
        let real = behind(file);
        (*real).pMethods = std::ptr::null();
        let Some(of_base) = (*base).xOpen else { return ffi::SQLITE_MISUSE };
        let code = of_base(base, name, real, flags, out_flags);
        if code != ffi::SQLITE_OK {
            if let Some(close) = (*real).pMethods.as_ref().and_then(|methods| methods.xClose) {
                close(real);
            }
            return code;
        }
        file.cast::<ShiftedFile>().write(ShiftedFile {
            base: sqlite3_file { pMethods: &raw const OURS },
            shift,
            #[cfg(feature = "faults")]
            watched: Box::into_raw(Box::new(watched)),
        });
        code
    }
}

/// SAFETY: `file` was opened above.
unsafe fn shift(file: *mut sqlite3_file) -> sqlite3_int64 {
    unsafe { (*file.cast::<ShiftedFile>()).shift }
}

/// The position in the file. No length of a file comes near the end of the numbers.
///
/// SAFETY: `file` was opened above.
unsafe fn shifted(file: *mut sqlite3_file, at: sqlite3_int64) -> sqlite3_int64 {
    at.saturating_add(unsafe { shift(file) })
}

/// Asks the faults first, where tests put some in.
macro_rules! watch {
    ($file:expr, $act:expr) => {
        #[cfg(feature = "faults")]
        // SAFETY: the file was opened above and is not closed yet.
        if let Some(code) = unsafe { crate::faults::before(&*(*$file.cast::<ShiftedFile>()).watched, $act) } {
            return code;
        }
    };
}

/// Calls a function of SQLite's own file; one that it lacks is a misuse.
macro_rules! hand_on {
    ($file:expr, $function:ident $(, $argument:expr)*) => {{
        // SAFETY: the file was opened above, and SQLite gave the arguments for a function of the same contract.
        unsafe {
            let real = behind($file);
            (*(*real).pMethods).$function.map_or(ffi::SQLITE_MISUSE, |function| function(real $(, $argument)*))
        }
    }};
}

unsafe extern "C" fn close(file: *mut sqlite3_file) -> c_int {
    #[cfg(feature = "faults")]
    // SAFETY: the file was opened above. A file is closed whatever anybody says.
    let _ = unsafe { crate::faults::before(&*(*file.cast::<ShiftedFile>()).watched, crate::faults::Act::Close) };
    let code = hand_on!(file, xClose);
    #[cfg(feature = "faults")]
    // SAFETY: made by `open`, and SQLite closes a file once.
    drop(unsafe { Box::from_raw((*file.cast::<ShiftedFile>()).watched) });
    code
}

unsafe extern "C" fn read(file: *mut sqlite3_file, to: *mut c_void, bytes: c_int, at: sqlite3_int64) -> c_int {
    hand_on!(file, xRead, to, bytes, shifted(file, at))
}

unsafe extern "C" fn write(file: *mut sqlite3_file, from: *const c_void, bytes: c_int, at: sqlite3_int64) -> c_int {
    watch!(file, crate::faults::written(from, bytes, shifted(file, at)));
    hand_on!(file, xWrite, from, bytes, shifted(file, at))
}

unsafe extern "C" fn truncate(file: *mut sqlite3_file, bytes: sqlite3_int64) -> c_int {
    watch!(file, crate::faults::Act::Truncate { bytes: shifted(file, bytes).cast_unsigned() });
    hand_on!(file, xTruncate, shifted(file, bytes))
}

unsafe extern "C" fn sync(file: *mut sqlite3_file, flags: c_int) -> c_int {
    watch!(file, crate::faults::Act::Sync);
    hand_on!(file, xSync, flags)
}

unsafe extern "C" fn file_size(file: *mut sqlite3_file, answer: *mut sqlite3_int64) -> c_int {
    let code = hand_on!(file, xFileSize, answer);
    if code != ffi::SQLITE_OK {
        return code;
    }
    // SAFETY: SQLite's own file has just written there.
    unsafe {
        *answer -= shift(file);
        // The door is written before the database is made; a shorter file is cut off and not a new one.
        if *answer < 0 { ffi::SQLITE_CORRUPT } else { code }
    }
}

unsafe extern "C" fn lock(file: *mut sqlite3_file, level: c_int) -> c_int {
    hand_on!(file, xLock, level)
}

unsafe extern "C" fn unlock(file: *mut sqlite3_file, level: c_int) -> c_int {
    hand_on!(file, xUnlock, level)
}

unsafe extern "C" fn check_reserved_lock(file: *mut sqlite3_file, answer: *mut c_int) -> c_int {
    hand_on!(file, xCheckReservedLock, answer)
}

unsafe extern "C" fn file_control(file: *mut sqlite3_file, what: c_int, argument: *mut c_void) -> c_int {
    match what {
        // Nothing is ever mapped.
        ffi::SQLITE_FCNTL_MMAP_SIZE => ffi::SQLITE_NOTFOUND,
        ffi::SQLITE_FCNTL_SIZE_HINT => {
            // SAFETY: the argument of this control is a length, which SQLite's own file only reads.
            let mut bytes = unsafe { shifted(file, *argument.cast::<sqlite3_int64>()) };
            hand_on!(file, xFileControl, what, (&raw mut bytes).cast())
        }
        _ => hand_on!(file, xFileControl, what, argument),
    }
}

unsafe extern "C" fn sector_size(file: *mut sqlite3_file) -> c_int {
    hand_on!(file, xSectorSize)
}

unsafe extern "C" fn device_characteristics(file: *mut sqlite3_file) -> c_int {
    hand_on!(file, xDeviceCharacteristics)
}
