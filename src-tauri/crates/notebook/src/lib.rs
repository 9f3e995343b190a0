//! The notebook: one encrypted file that holds every entry.
//!
//! Opening and creating the file, its migrations, the entries, and the tables projected from them for
//! lists and search; own templates and signed papers as bytes. It knows nothing of what is in a template or
//! a paper, and no finding; it reads neither clock nor folders of its own.

mod backup;
mod cases;
mod error;
mod exchange;
mod file;
mod gate;
mod history;
mod ledger;
mod papers;
mod passphrase;
mod people;
mod projections;
mod templates;
mod verify;

pub use backup::{BackupJob, BackupReport, RestoreReport, restore};
pub use cases::{Added, AddendumLine, CaseLine, Found, Signature, State, Stored, says_something};
pub use error::NotebookError;
pub use evengap_door::Cost;
pub use exchange::{
    CaseOutcome, Conflict, ConflictLine, ExchangeError, ExchangeReport, ExchangeWritten, Keep, Outcome, Side,
};
pub use file::Notebook;
pub use history::{Branch, HistoryStep, NoNode, Node, StepKind};
pub use papers::{KeptPaper, NewPaper, PaperKey};
pub use passphrase::Passphrase;
pub use people::{Person, PersonLine, RecoveryCode, Role};
pub use templates::TemplateVersion;
pub use verify::VerifyReport;
