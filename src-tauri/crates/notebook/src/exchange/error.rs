//! What keeps an exchange file from being written or taken in, each as a sentence that names the file and what to do.

use std::path::{Path, PathBuf};

/// Everything that can be wrong with an exchange file, or with settling a conflict.
#[derive(Debug, thiserror::Error)]
pub enum ExchangeError {
    /// No such file.
    #[error("There is no exchange file at {}. Check the name and the folder.", .0.display())]
    Missing(PathBuf),
    /// A new exchange file would overwrite a file.
    #[error("{} exists already. Choose another name for the exchange file.", .0.display())]
    Exists(PathBuf),
    /// A file of another sort.
    #[error("{} is not an exchange file: {what}. Choose one that Evengap wrote for an exchange.", path.display())]
    NotOne {
        /// The file.
        path: PathBuf,
        /// What was noticed.
        what: &'static str,
    },
    /// Not the passphrase of the file.
    #[error(
        "The passphrase does not open the exchange file {}. It is the one that was chosen when the file was written, not \
         that of the notebook.", .0.display()
    )]
    WrongPassphrase(PathBuf),
    /// Written by a newer program.
    #[error(
        "{} was written by a newer Evengap (exchange version {theirs}; this program reads up to {ours}). Nothing was \
         taken; read it with the newer program.", path.display()
    )]
    Newer {
        /// The file.
        path: PathBuf,
        /// Its version.
        theirs: i64,
        /// The newest version that this program reads.
        ours: i64,
    },
    /// What is in the file is not what a notebook writes.
    #[error("{} was not taken: {what}. Nothing was changed; have the file written again.", path.display())]
    Refused {
        /// The file.
        path: PathBuf,
        /// What was noticed, and with which case.
        what: String,
    },
    /// No such conflict, or it is settled.
    #[error("There is no open conflict with the number {0}; look at the list of conflicts again.")]
    NoConflict(i64),
    /// A signed version stays.
    #[error(
        "The version in this notebook is signed and stays. The other one stays readable beside it; say in an addendum \
         what is missing."
    )]
    OursStays,
    /// A version that was signed in the other notebook stays.
    #[error(
        "The other version is signed and stays. Take it; the draft stays readable in the history, and an addendum can \
         say what is missing."
    )]
    TheirsStays,
}

/// Says that a file is not taken, and why.
pub(super) fn refused(path: &Path, what: impl Into<String>) -> crate::NotebookError {
    ExchangeError::Refused { path: path.to_owned(), what: what.into() }.into()
}
