//! Two notebooks of one person exchange cases through an encrypted file.
//!
//! The file has a door with one passphrase of its own and holds every saved state of the cases in it. How a case of the
//! file stands to the same case here is told by their histories, never by clocks: the file's version follows from ours
//! (newer), ours from the file's (older), or neither (a conflict: ours stays, theirs lies aside until somebody chooses).
//! Invariants: no saved state of either side is ever lost; a signed version never changes; a file is taken whole or not
//! at all, and only after every state in it has been rebuilt and its name computed anew; reading it twice changes
//! nothing. A state that nothing follows by a patch is stored whole, as the entry or in `aside`.
//!
//! What it does not do: the chain of names shows damage and mistakes. It is no proof of who wrote a state, because
//! whoever knows the passphrase of the file can write another one. Who may exchange is not asked here.

mod adopt;
mod ancestry;
mod conflicts;
mod error;
mod file;
mod incoming;
mod papers;
mod people;
mod read;
mod settle;
mod take;
mod types;
mod write;

pub use error::ExchangeError;
pub(crate) use file::APPLICATION_ID;
pub use types::{CaseOutcome, Conflict, ConflictLine, ExchangeReport, ExchangeWritten, Keep, Outcome, Side};
