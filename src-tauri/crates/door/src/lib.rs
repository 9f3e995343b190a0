//! The door of a notebook: the first part of its file, which says who may open the rest.
//!
//! The pages of a notebook are encrypted with one random key of 256 bits. The door holds a wrapped copy of that key for
//! each person, and one for the printed recovery sheet; nobody's name stands in it. Behind the door lies a SQLCipher
//! database, which SQLite reaches through [`connect`]. What is in it is not known here.
//!
//! What it protects: a file that is lost or copied tells nothing without a passphrase. A passphrase is stretched with
//! Argon2id, so that trying many is slow. What it does not: whoever holds a passphrase and a copy of the file from
//! before reads that copy for ever, also after the person was removed. All slots share one salt, so that one stretching
//! tries them all; two people therefore cannot have the same passphrase, and whoever is refused one learns that.

mod bytes;
mod connect;
mod cost;
mod door;
mod error;
#[cfg(feature = "faults")]
pub mod faults;
mod key;
mod recovery;
mod slot;
mod tries;
mod vfs;

pub use connect::connect;
pub use cost::Cost;
pub use door::{Door, Unlocked};
pub use error::DoorError;
pub use key::FileKey;
pub use recovery::{CodeSlip, RecoveryCode, recovery_code};
pub use slot::SlotKind;
pub use tries::{Tries, note_try, tries};

/// Bytes of the file before the database; a multiple of every sector and page size.
pub const LENGTH: u64 = 32 * 1024;
