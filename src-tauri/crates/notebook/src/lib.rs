//! The notebook: one encrypted file that holds every entry.
//!
//! Opening and creating the file, its migrations, the entries, and the tables projected from them for
//! lists and search. It knows no paper and no finding, and reads neither clock nor folders of its own.

mod cases;
mod error;
mod file;
mod gate;
mod passphrase;
mod projections;

pub use cases::{Added, CaseLine, State, Stored};
pub use error::NotebookError;
pub use file::Notebook;
pub use passphrase::Passphrase;
