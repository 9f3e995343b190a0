//! What goes wrong, in the one shape in which it reaches a screen or a terminal.

use evengap_case::{Problem, Refusal};
use evengap_notebook::{ExchangeError, NotebookError};
use evengap_papers::PapersError;
use serde::Serialize;
use ts_rs::TS;

/// What a face may act on; the sentence says the rest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, TS)]
#[serde(rename_all = "snake_case")]
pub enum ErrorCode {
    /// Ask for the passphrase again.
    WrongPassphrase,
    /// Ask whether to replace, or for another name.
    Exists,
    /// Ask for a notebook first.
    NotOpen,
    /// Show the places in the entry.
    Refused,
    /// Say that the role of this person does not reach so far.
    NotAllowed,
    /// Ask for the passphrase again after the seconds that the sentence names.
    Wait,
    /// Show what is stored now beside what was to be saved.
    ChangedMeanwhile,
    /// The file was moved, deleted or replaced: find it, or save what is on the screen elsewhere.
    Gone,
    /// Some of the file is not what was written: offer to restore a backup.
    Damaged,
    /// Show the sentence.
    Failed,
}

/// An act that could not be done.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS, thiserror::Error)]
#[error("{message}")]
pub struct DeskError {
    /// What a face may act on.
    pub code: ErrorCode,
    /// What is wrong and what to do, in whole sentences.
    pub message: String,
    /// The places in the entry that it is about; may be empty.
    pub places: Vec<Problem>,
}

impl DeskError {
    pub(crate) fn new(code: ErrorCode, message: impl Into<String>) -> Self {
        Self { code, message: message.into(), places: Vec::new() }
    }

    /// Makes an error without a code that anything acts on.
    pub fn failed(message: impl Into<String>) -> Self {
        Self::new(ErrorCode::Failed, message)
    }

    pub(crate) fn not_open() -> Self {
        Self::new(ErrorCode::NotOpen, "No notebook is open. Open one or make a new one first.")
    }
}

impl From<NotebookError> for DeskError {
    fn from(error: NotebookError) -> Self {
        let code = match error {
            NotebookError::Exchange(ExchangeError::WrongPassphrase(_)) => ErrorCode::WrongPassphrase,
            NotebookError::Exchange(ExchangeError::Exists(_)) => ErrorCode::Exists,
            NotebookError::Exchange(ExchangeError::OursStays | ExchangeError::TheirsStays) => ErrorCode::Refused,
            NotebookError::WrongPassphrase(_)
            | NotebookError::WrongPassphraseOrDamaged(_)
            | NotebookError::OldRecoverySheet(_)
            | NotebookError::RecoverySlip(_) => ErrorCode::WrongPassphrase,
            NotebookError::Exists(_) | NotebookError::CaseExists(_) => ErrorCode::Exists,
            NotebookError::Signed(_)
            | NotebookError::NotSigned(_)
            | NotebookError::NoAddendumText
            | NotebookError::AddendumTooEarly { .. }
            | NotebookError::NoIdentifier
            | NotebookError::TooDeep { .. }
            | NotebookError::Passphrase(_)
            | NotebookError::PassphraseTaken
            | NotebookError::TooManyPeople(_)
            | NotebookError::NoPersonName
            | NotebookError::UnfitName(_)
            | NotebookError::NameTaken(_)
            | NotebookError::UnknownPerson
            | NotebookError::LastKeeper(_)
            | NotebookError::Yourself
            | NotebookError::RecoveryHasNoPassphrase
            | NotebookError::OntoItself(_) => ErrorCode::Refused,
            NotebookError::Damaged { .. } => ErrorCode::Damaged,
            NotebookError::ChangedMeanwhile(_) => ErrorCode::ChangedMeanwhile,
            NotebookError::Gone(_) | NotebookError::KeyChanged(_) => ErrorCode::Gone,
            _ => ErrorCode::Failed,
        };
        Self::new(code, error.to_string())
    }
}

impl From<Refusal> for DeskError {
    fn from(refusal: Refusal) -> Self {
        Self { code: ErrorCode::Refused, message: refusal.to_string(), places: refusal.problems }
    }
}

impl From<PapersError> for DeskError {
    fn from(error: PapersError) -> Self {
        Self::failed(format!("The paper could not be made: {error}."))
    }
}
