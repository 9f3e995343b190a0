//! How often in a row somebody typed a wrong passphrase.
//!
//! It stands in the file, so that it counts for every program on it; in a sector of its own, which no sum covers.
//! Whoever copies the file can set it back: it slows a person at the keyboard, not somebody with the file.

use std::io;
use std::path::Path;

use chrono::{DateTime, NaiveDateTime};
use sha2::{Digest, Sha256};

use crate::vfs::InPlace;

const PLACE: u64 = 15 * 1024 + 512;
const MAGIC: &[u8; 4] = b"try\x01";

/// Wrong passphrases in a row.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Tries {
    /// How many.
    pub failed: u32,
    /// When the last one was typed, to the second, by the computer's clock.
    pub last_at: Option<NaiveDateTime>,
}

/// Reads the count; one that cannot be read is none.
pub fn tries(path: &Path) -> Tries {
    read(path).ok().flatten().unwrap_or_default()
}

fn read(path: &Path) -> io::Result<Option<Tries>> {
    let bytes = InPlace::open(path, false)?.read(PLACE, 24)?;
    if bytes.len() < 24 {
        return Ok(None);
    }
    let (told, sum) = bytes.split_at(16);
    if !told.starts_with(MAGIC) || Sha256::digest(told)[..8] != *sum {
        return Ok(None);
    }
    let number =
        |range: std::ops::Range<usize>| told[range].iter().fold(0_u64, |sum, byte| sum << 8 | u64::from(*byte));
    let last_at = DateTime::from_timestamp(number(8..16).cast_signed(), 0).map(|at| at.naive_utc());
    Ok(Some(Tries { failed: u32::try_from(number(4..8)).unwrap_or(u32::MAX), last_at }))
}

/// Writes the count. Nothing else of the file is touched.
///
/// # Errors
/// When the file cannot be written, or is too short to have a door.
pub fn note_try(path: &Path, tries: &Tries) -> io::Result<()> {
    let mut bytes = Vec::with_capacity(24);
    bytes.extend(MAGIC);
    bytes.extend(tries.failed.to_be_bytes());
    // The least number is no time at all.
    bytes.extend(tries.last_at.map_or(i64::MIN, |at| at.and_utc().timestamp()).to_be_bytes());
    let sum = Sha256::digest(&bytes);
    bytes.extend(&sum[..8]);
    let mut file = InPlace::open(path, true)?;
    if file.length()? < crate::LENGTH {
        return Err(io::ErrorKind::UnexpectedEof.into());
    }
    file.write(PLACE, &bytes)?;
    file.sync()
}
