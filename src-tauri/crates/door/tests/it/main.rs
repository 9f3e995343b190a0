//! The door: who opens it, what damage it bears, and that SQLite finds the pages behind it.

mod damage;
#[cfg(feature = "faults")]
mod faults;
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
