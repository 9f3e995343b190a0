//! The door: who opens it, what damage it bears, and that SQLite finds the pages behind it.
#![expect(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test stops at the first surprise")]

mod damage;
#[cfg(feature = "faults")]
mod faults;
mod form;
mod hostile;
mod locks;
mod made;
mod pages;
mod published;
mod recovery;
mod rotation;
mod slots;
mod transactions;
mod tries;
