//! The desk: what a person can do, one function per act.
//!
//! Window and command line call nothing else. It knows neither of them, reads no clock and no folder of
//! its own: time, identifiers and folders are arguments.

mod beside;
mod cases;
mod demonstration;
mod errors;
mod exchange;
mod files;
mod history;
mod labels;
mod notebooks;
mod papers;
mod people;
mod reading;
mod reckonings;
pub mod rights;
mod safety;
mod scans;
mod settings;
mod signing;
mod slow_down;
mod templates;

pub use beside::Drawn;
pub use cases::{Addition, Entry, FileRead, Saved};
pub use demonstration::{DemoPaper, DemoPerson};
pub use errors::{DeskError, ErrorCode};
pub use evengap_case::dictionary::Field;
pub use evengap_label::{Label, LabelDate, Scheme as LabelScheme};
pub use evengap_notebook::{Branch, CaseLine, Cost, Found as CasesFound, Keep, Role, Signature, State, StepKind};
pub use evengap_papers::template::{Flaw, ViewName};
pub use evengap_papers::{
    Addendum, DateFormat, Kind as PaperKind, Language as PaperLanguage, OwnTemplate, PaperSettings,
};
pub use evengap_reckon::{Answer, Input, Limits, Reckoning, SourceKind};
pub use evengap_review::{Beside, Finding, FindingKind};
pub use exchange::{CaseOutcome, Conflict, ConflictLine, ConflictSide, ExchangeReport, ExchangeWritten};
pub use history::{Change, HistoryStep};
pub use notebooks::NotebookState;
pub use papers::batch::{Batch, BatchAsked, BatchFailed, BatchOf, BatchProgress, BatchReport, BatchTo, BatchWritten};
pub use papers::{AddendumAsked, Exported, PageSize, PaperAsked, PaperChoice, PaperFormat, Preview, Printed};
pub use people::{Person, PersonLine};
pub use reading::{CostlySentence, Reading, ReadingFormula, ReadingLimits};
pub use reckonings::SourceLine;
pub use rights::Right;
pub use safety::{BackUp, BackupProgress, BackupReport, BackupSettings, BackupState, RestoreReport, VerifyReport};
pub use scans::Scanned;
pub use signing::{AddendumLine, OverrideAsked};
pub use templates::{TemplateLine, TemplateText, TemplateVersion, Tried};

use std::sync::OnceLock;

use evengap_notebook::Notebook;

/// Somebody's desk: at most one open notebook, and everything that can be done with or without it.
pub struct Desk {
    notebook: Option<Notebook>,
    fonts: OnceLock<evengap_papers::Fonts>,
    /// What each passphrase of a notebook made here costs.
    cost: Cost,
}

impl Default for Desk {
    fn default() -> Self {
        Self::with_cost(Cost::ORDINARY)
    }
}

impl Desk {
    /// Sets up an empty desk.
    pub fn new() -> Self {
        Self::default()
    }

    /// The same, for notebooks whose passphrases cost less to try; what is made here protects little.
    pub fn with_cost(cost: Cost) -> Self {
        Self { notebook: None, fonts: OnceLock::new(), cost }
    }

    /// Gives the field dictionary: every answer that an entry can hold.
    pub fn dictionary(&self) -> &'static [Field] {
        evengap_case::Case::FIELDS
    }

    /// Gives the JSON Schema of a case file.
    pub fn schema(&self) -> serde_json::Value {
        evengap_case::schema()
    }

    fn open(&self) -> Result<&Notebook, DeskError> {
        self.notebook.as_ref().ok_or_else(DeskError::not_open)
    }

    fn open_to_write(&mut self) -> Result<&mut Notebook, DeskError> {
        self.notebook.as_mut().ok_or_else(DeskError::not_open)
    }
}
