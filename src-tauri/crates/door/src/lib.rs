//! The door of a notebook: the first part of its file, which says who may open the rest.
//!
//! The pages of a notebook are encrypted with one random key of 256 bits. The door holds a wrapped copy of that key for
//! each person, and one for the printed recovery sheet; nobody's name stands in it. Behind the door lies a SQLCipher
//! database, which SQLite reaches through [`connect`]. What is in it is not known here.
//!
//! What it protects: a file that is lost or copied tells nothing without a passphrase but its length, how many people
//! open it, and how often somebody just failed to. A passphrase is stretched with Argon2id, so that trying many is slow.
//! A byte that flips in one copy of the door, or a cut while it is written, locks nobody out. Who writes to the file
//! without a key cannot make themselves a slot: it is noticed before anything is sealed to it.
//!
//! What it does not protect: whoever holds a passphrase and a copy of the file from before reads that copy for ever, also
//! after the person was removed. Everybody who opens the file holds the same key; roles are a matter of the program, not
//! of the door. Who writes to the file can destroy it, or put a whole older copy in its place. All slots share one salt,
//! so that one stretching tries them all; two people therefore cannot have the same passphrase, and whoever is refused
//! one learns that somebody has it. The count of wrong passphrases slows a person at the keyboard, not one who has a
//! copy of the file. Keys are wiped from our own memory when they are let go; SQLite and SQLCipher keep copies of theirs
//! while a connection is open.
//!
//! For whoever works on it: while SQLite has a notebook open, nothing may open that file past SQLite, not even to read
//! it (`src/vfs/in_place.rs` says why). SQLite locks bytes at one gibibyte; Windows keeps others from reading locked
//! bytes, and behind a door a page lies there: a notebook of that size may be told busy there while another program
//! writes.

mod bytes;
mod connect;
mod copy;
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
pub use copy::copy_out;
pub use cost::Cost;
pub use door::{Door, Unlocked};
pub use error::DoorError;
pub use key::FileKey;
pub use recovery::{CodeSlip, RecoveryCode, recovery_code};
pub use slot::SlotKind;
pub use tries::{Tries, note_try, tries};

/// Bytes of the file before the database; a multiple of every sector and page size.
pub const LENGTH: u64 = 32 * 1024;
