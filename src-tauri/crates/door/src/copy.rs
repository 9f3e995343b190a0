//! Copying a notebook's file as it is, while others may have it open.

use std::io::{self, Write};
use std::path::Path;

use crate::vfs::InPlace;

/// Bytes that are copied at once.
const CHUNK: usize = 1024 * 1024;

/// Copies every byte of a notebook's file, door and pages. Nobody can write to it meanwhile, and the locks of those who
/// have it open stay.
///
/// # Errors
/// When somebody is writing just now (`ResourceBusy`), or either file fails.
pub fn copy_out(path: &Path, to: &mut impl Write) -> io::Result<u64> {
    let mut file = InPlace::open(path, false)?;
    file.hold()?;
    let length = file.length()?;
    let mut at = 0;
    while at < length {
        let bytes = file.read(at, CHUNK)?;
        if bytes.is_empty() {
            return Err(io::ErrorKind::UnexpectedEof.into());
        }
        to.write_all(&bytes)?;
        at += bytes.len() as u64;
    }
    Ok(length)
}
