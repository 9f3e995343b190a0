//! The notebook: one encrypted file that holds every entry.
//!
//! Opening and creating the file, its migrations, the entries, and the tables projected from them for
//! lists and search; own templates and signed papers as bytes. It knows nothing of what is in a template or
//! a paper, and no finding; it reads neither clock nor folders of its own.

mod cases;
mod error;
mod file;
mod gate;
mod papers;
mod passphrase;
mod projections;
mod templates;

pub use cases::{Added, AddendumLine, CaseLine, Signature, State, Stored, says_something};
pub use error::NotebookError;
pub use file::Notebook;
pub use papers::{KeptPaper, NewPaper, PaperKey};
pub use passphrase::Passphrase;
pub use templates::TemplateVersion;
