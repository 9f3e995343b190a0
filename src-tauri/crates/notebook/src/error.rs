//! What can go wrong with a notebook, each as a sentence that names the file and says what to do.

use std::path::{Path, PathBuf};

use evengap_case::CaseId;
use rusqlite::ErrorCode;

/// Everything that keeps a notebook from being made, opened, read or written.
#[derive(Debug, thiserror::Error)]
pub enum NotebookError {
    /// A new notebook would overwrite a file.
    #[error("{} exists already. Choose another name for the new notebook.", .0.display())]
    Exists(PathBuf),
    /// No such file.
    #[error("There is no notebook at {}. Check the name and the folder.", .0.display())]
    Missing(PathBuf),
    /// A folder where a file should be.
    #[error("{} is a folder, not a notebook. Choose the .evengap file in it.", .0.display())]
    Folder(PathBuf),
    /// The folder of a new notebook does not exist.
    #[error("The folder {} does not exist. Make it first, or choose another.", .0.display())]
    NoFolder(PathBuf),
    /// The folder of a new notebook may not be written.
    #[error("The folder {} is write-protected. Choose another for the new notebook.", .0.display())]
    FolderReadOnly(PathBuf),
    /// The first page cannot be decrypted.
    #[error(
        "The passphrase does not open this notebook. Type it again; if it is certainly right, {} is damaged at its \
         beginning or is no notebook, which cannot be told apart without the key.", .0.display()
    )]
    WrongPassphrase(PathBuf),
    /// Some of the file is not what was written.
    #[error("{} is damaged: {what}. Nothing was changed; use a copy of it from before.", path.display())]
    Damaged {
        /// The file.
        path: PathBuf,
        /// What was noticed.
        what: String,
    },
    /// A file of another sort.
    #[error("{} is not a notebook: {what}. Choose a file that Evengap made.", path.display())]
    NotANotebook {
        /// The file.
        path: PathBuf,
        /// What was noticed.
        what: &'static str,
    },
    /// Written by a newer program.
    #[error(
        "{} was written by a newer Evengap (notebook version {theirs}; this program reads up to {ours}). Nothing was \
         changed; open it with the newer program.", path.display()
    )]
    Newer {
        /// The file.
        path: PathBuf,
        /// Its version.
        theirs: i64,
        /// The newest version that this program reads.
        ours: i64,
    },
    /// The file or its folder may not be written.
    #[error("{} is write-protected. Allow writing to the file and its folder, or copy it elsewhere.", .0.display())]
    ReadOnly(PathBuf),
    /// Another program holds the file.
    #[error("{} is in use by another program. Close that and try again.", .0.display())]
    Busy(PathBuf),
    /// No room.
    #[error("There is no room left on the disk of {}. Nothing was saved; free some space and try again.", .0.display())]
    Full(PathBuf),
    /// An unusable passphrase.
    #[error("{0}")]
    Passphrase(&'static str),
    /// A notebook needs somebody who writes.
    #[error("The writer's name is empty; give the name of the person who writes in this notebook.")]
    NoWriter,
    /// A signed entry never changes.
    #[error("The entry {0} is signed and never changes; add an addendum.")]
    Signed(CaseId),
    /// Only a signed entry has addenda.
    #[error("The entry {0} is a draft; change the draft itself, or sign it before adding to it.")]
    NotSigned(CaseId),
    /// Papers of a draft are not kept, because the draft may change.
    #[error("The entry {0} is a draft, so its papers are not kept; sign it first.")]
    DraftPaper(CaseId),
    /// What was looked at is no longer what is stored.
    #[error("The entry {0} was changed meanwhile by somebody else. Nothing was written; open it again and look.")]
    ChangedMeanwhile(CaseId),
    /// An addendum comes after what it adds to.
    #[error(
        "The addendum would be dated {at}, before {before}, when what it adds to was written; set the clock right."
    )]
    AddendumTooEarly {
        /// When it would be written.
        at: String,
        /// When the version before it was written.
        before: String,
    },
    /// An addendum says something.
    #[error("The addendum has no text; write what it adds or corrects, and why.")]
    NoAddendumText,
    /// No such version of an entry.
    #[error("The entry {id} has no version {number}.")]
    UnknownVersion {
        /// The entry.
        id: CaseId,
        /// The number that was asked for.
        number: u32,
    },
    /// No such version of a template.
    #[error("There is no version {version} of an own template for the paper {kind} ({language}).")]
    UnknownTemplate {
        /// The paper.
        kind: String,
        /// Its language.
        language: String,
        /// The version that was asked for.
        version: u32,
    },
    /// A kept paper whose bytes are not those that were kept.
    #[error(
        "The kept {kind} of the entry {id} is not as it was made: its SHA-256 differs. Use a copy of the notebook from \
         before."
    )]
    PaperChanged {
        /// The entry.
        id: CaseId,
        /// The paper.
        kind: String,
    },
    /// Another entry has this identifier.
    #[error(
        "The notebook already holds another entry with the identifier {0}. Open that one, or take the \"id\" out of \
         the file to add it as a new entry."
    )]
    CaseExists(CaseId),
    /// An entry without identifier cannot be saved.
    #[error("The entry has no identifier (\"id\"); give it one.")]
    NoIdentifier,
    /// No such entry.
    #[error("The notebook holds no entry with the identifier {0}.")]
    UnknownCase(CaseId),
    /// The operating system refused.
    #[error("{}: {source}.", path.display())]
    Io {
        /// The file or folder.
        path: PathBuf,
        /// What the system said.
        source: std::io::Error,
    },
    /// The database refused, in a way that has no better sentence.
    #[error("The notebook could not be read or written: {0}.")]
    Database(#[from] rusqlite::Error),
    /// A stored entry cannot be read back.
    #[error("The stored entry {id} cannot be read: {source}.")]
    Unreadable {
        /// The entry.
        id: String,
        /// Where the text stops being an entry.
        source: serde_json::Error,
    },
}

impl NotebookError {
    /// Gives a database's refusal the sentence that a person can act on, where there is one.
    pub(crate) fn at(self, path: &Path) -> Self {
        let Self::Database(error) = self else { return self };
        let path = path.to_owned();
        match error.sqlite_error_code() {
            Some(ErrorCode::NotADatabase) => Self::WrongPassphrase(path),
            Some(ErrorCode::DatabaseCorrupt) => Self::Damaged { path, what: "some of its pages do not fit".into() },
            Some(ErrorCode::ReadOnly | ErrorCode::CannotOpen | ErrorCode::PermissionDenied) => Self::ReadOnly(path),
            Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => Self::Busy(path),
            Some(ErrorCode::DiskFull) => Self::Full(path),
            _ => Self::Database(error),
        }
    }
}
