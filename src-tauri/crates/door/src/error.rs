//! What can go wrong at the door.

use std::io;

/// Everything that keeps a door from being read, written or changed.
#[derive(Debug, thiserror::Error)]
pub enum DoorError {
    /// The file begins otherwise.
    #[error("the file does not begin as a notebook")]
    NotADoor,
    /// Neither copy is whole.
    #[error("both copies of its door are damaged")]
    Damaged,
    /// Written by a newer program.
    #[error("its door is of the form {theirs}; this program reads {ours}")]
    Newer {
        /// The form of the file.
        theirs: u16,
        /// The form that this program reads.
        ours: u16,
    },
    /// Stretching would take more memory or time than any program of ours asked for.
    #[error("its door asks for more work than any notebook does")]
    TooCostly,
    /// The computer has less free memory than stretching takes.
    #[error("this computer has not enough free memory for its door; close other programs and try again")]
    NoMemory,
    /// The passphrase opens another slot.
    #[error("this passphrase cannot be used in this notebook")]
    PassphraseTaken,
    /// A slot was put in or changed without the key of the pages.
    #[error("somebody without its key changed who can open it")]
    Forged,
    /// The key of the pages is being changed.
    #[error("the key of its pages is being changed; open it again first")]
    Rotating,
    /// There is no room for one more.
    #[error("no more than {0} people and sheets can open one notebook")]
    Full(usize),
    /// The slot is not there.
    #[error("nobody of that mark can open this notebook")]
    NoSuchSlot,
    /// The operating system gave no randomness, or a primitive refused.
    #[error("the computer could not make or wrap a key")]
    NoKey,
    /// The operating system refused.
    #[error(transparent)]
    Io(#[from] io::Error),
}
