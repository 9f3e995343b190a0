//! What can go wrong with a notebook, each as a sentence that names the file and says what to do.

use std::io;
use std::path::{Path, PathBuf};

use evengap_case::CaseId;
use evengap_door::{CodeSlip, DoorError};
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
    /// Nobody's passphrase.
    #[error("The passphrase does not open this notebook. Type it again; small and capital letters and blanks count.")]
    WrongPassphrase(PathBuf),
    /// The first page of a file without a door cannot be decrypted.
    #[error(
        "The passphrase does not open this notebook. Type it again; if it is certainly right, {} is damaged at its \
         beginning or is no notebook, which cannot be told apart without the key.", .0.display()
    )]
    WrongPassphraseOrDamaged(PathBuf),
    /// The code of a recovery sheet, but not quite.
    #[error("This looks like the code of a recovery sheet, but {0}.")]
    RecoverySlip(CodeSlip),
    /// A whole and right code, of a sheet that does not open this file.
    #[error(
        "The code is typed rightly, but it is not that of the newest recovery sheet of {}. It opens backups that were made \
         while its sheet was the newest; look for a newer sheet, or restore such a backup.", .0.display()
    )]
    OldRecoverySheet(PathBuf),
    /// The file was moved away, deleted or replaced while it was open.
    #[error(
        "{} was moved, deleted or replaced while it was open. What you wrote last was not saved; put the file back, or \
         open it where it is now.", .0.display()
    )]
    Gone(PathBuf),
    /// The key of the pages was changed by another program.
    #[error(
        "{} was locked anew meanwhile, because somebody was removed, a passphrase was changed or a new recovery sheet was \
         made. What you wrote last is not saved yet; lock the notebook and open it with your passphrase to go on.",
        .0.display()
    )]
    KeyChanged(PathBuf),
    /// The disk fails.
    #[error(
        "The disk of {} could not be read or written. What you wrote last was not saved; look whether the drive or the \
         connection to it is still there, and try again.", .0.display()
    )]
    Disk(PathBuf),
    /// A door of a newer program.
    #[error("{} was written by a newer Evengap. Nothing was changed; open it with the newer program.", .0.display())]
    NewerDoor(PathBuf),
    /// The passphrase opens somebody else's place.
    #[error("This passphrase cannot be used in this notebook; choose another.")]
    PassphraseTaken,
    /// The door is full.
    #[error("No more than {0} people can open one notebook; remove somebody first.")]
    TooManyPeople(usize),
    /// A person needs a name.
    #[error("The name is empty; give the person's name.")]
    NoPersonName,
    /// A name that is too long or has a line break in it.
    #[error("The name does not fit on a line; give one of at most {0} letters, without tabs and line breaks.")]
    UnfitName(usize),
    /// Two people of one name could not be told apart.
    #[error("There is already somebody called {0} in this notebook; add something that tells the two apart.")]
    NameTaken(String),
    /// No such person.
    #[error("There is no such person in this notebook; look at the list of people again.")]
    UnknownPerson,
    /// Somebody has to keep the notebook.
    #[error("{0} is the only keeper of this notebook; make somebody else a keeper first.")]
    LastKeeper(String),
    /// Nobody removes themselves.
    #[error("You cannot remove yourself; another keeper can.")]
    Yourself,
    /// The recovery sheet has its code, and no other passphrase.
    #[error("The recovery sheet has a code and no passphrase; make a new sheet to get a new code.")]
    RecoveryHasNoPassphrase,
    /// No key could be made.
    #[error("The computer could not make a key. Nothing was changed; try again.")]
    NoKey,
    /// A copy would take the place of the open notebook.
    #[error("{} is the open notebook itself; choose another name or folder for the copy.", .0.display())]
    OntoItself(PathBuf),
    /// Somebody stopped a copy.
    #[error("It was stopped. Nothing was left at {}.", .0.display())]
    Stopped(PathBuf),
    /// A copy that was made is not as it should be.
    #[error(
        "The copy for {} was made but did not pass the check ({what}), so it was thrown away. Try again, or another \
         disk.", path.display()
    )]
    CopyBroken {
        /// Where it was to be.
        path: PathBuf,
        /// What was noticed.
        what: String,
    },
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
    /// Cases on their way to another notebook.
    #[error("{} is an exchange file, not a notebook. Open the notebook that shall have its cases, and receive it there.", .0.display())]
    ExchangeFile(PathBuf),
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
    /// What is kept of earlier states does not fit together.
    #[error(
        "The history of the entry {0} is not what was written, so it is not shown. Verify the notebook, and use a copy of \
         it from before."
    )]
    HistoryBroken(CaseId),
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
    /// No such saved state of an entry.
    #[error("The entry {id} was never saved as {node}; choose one of the states of its history.")]
    UnknownState {
        /// The entry.
        id: CaseId,
        /// The state that was asked for.
        node: crate::Node,
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
        "The kept {kind} of the entry {id} is not as it was made, so it is not printed. Use a copy of the notebook from \
         before."
    )]
    PaperChanged {
        /// The entry.
        id: CaseId,
        /// The paper.
        kind: String,
    },
    /// An entry that is nested deeper than could be read back everywhere.
    #[error(
        "Something in the entry {id} is nested more than {deepest} levels deep, which could not be read again. Nothing was \
         written; look for lists within lists under the keys that Evengap does not know, and make them flatter."
    )]
    TooDeep {
        /// The entry.
        id: CaseId,
        /// How deep it may be.
        deepest: usize,
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
    /// An exchange file, or a conflict that came with one.
    #[error(transparent)]
    Exchange(#[from] crate::ExchangeError),
    /// The operating system refused.
    #[error("{}: {source}.", path.display())]
    Io {
        /// The file or folder.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
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
            Some(ErrorCode::NotADatabase) => Self::KeyChanged(path),
            Some(ErrorCode::ReadOnly) if error.sqlite_error().is_some_and(is_moved) => Self::Gone(path),
            Some(ErrorCode::DatabaseCorrupt) => Self::Damaged { path, what: "some of its pages do not fit".into() },
            Some(ErrorCode::ReadOnly | ErrorCode::CannotOpen | ErrorCode::PermissionDenied) => Self::ReadOnly(path),
            Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => Self::Busy(path),
            Some(ErrorCode::DiskFull) => Self::Full(path),
            Some(ErrorCode::SystemIoFailure) => Self::Disk(path),
            _ => Self::Database(error),
        }
    }

    /// Says the same of the files that somebody chose, where a file beside them was worked on: damage is that of the one
    /// that was read, a refusing disk that of the one that is written.
    pub(crate) fn said_of(self, read: &Path, written: &Path) -> Self {
        let path = read.to_owned();
        match self {
            Self::WrongPassphrase(_) => Self::WrongPassphrase(path),
            Self::OldRecoverySheet(_) => Self::OldRecoverySheet(path),
            Self::WrongPassphraseOrDamaged(_) => Self::WrongPassphraseOrDamaged(path),
            Self::NewerDoor(_) => Self::NewerDoor(path),
            Self::ExchangeFile(_) => Self::ExchangeFile(path),
            Self::Damaged { what, .. } => Self::Damaged { path, what },
            Self::NotANotebook { what, .. } => Self::NotANotebook { path, what },
            Self::Newer { theirs, ours, .. } => Self::Newer { path, theirs, ours },
            Self::Missing(_) => Self::Missing(path),
            Self::Full(_) => Self::Full(written.to_owned()),
            Self::Disk(_) => Self::Disk(written.to_owned()),
            Self::ReadOnly(_) => Self::ReadOnly(written.to_owned()),
            Self::Busy(_) => Self::Busy(written.to_owned()),
            Self::Io { source, .. } => Self::Io { path: written.to_owned(), source },
            other => other,
        }
    }

    /// Gives the operating system's refusal its sentence.
    pub(crate) fn of_file(path: &Path, source: io::Error) -> Self {
        let path = path.to_owned();
        match source.kind() {
            io::ErrorKind::NotFound | io::ErrorKind::NotADirectory => Self::Missing(path),
            io::ErrorKind::AlreadyExists => Self::Exists(path),
            io::ErrorKind::PermissionDenied | io::ErrorKind::ReadOnlyFilesystem => Self::ReadOnly(path),
            io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => Self::Full(path),
            io::ErrorKind::ResourceBusy => Self::Busy(path),
            _ => Self::Io { path, source },
        }
    }

    /// Gives the door's refusal its sentence.
    pub(crate) fn of_door(path: &Path, error: DoorError) -> Self {
        let damaged = |what: &str| Self::Damaged { path: path.to_owned(), what: what.into() };
        match error {
            DoorError::NotADoor | DoorError::Damaged => {
                damaged("its first part, which says who may open it, is not as it was written")
            }
            DoorError::Newer { .. } => Self::NewerDoor(path.to_owned()),
            DoorError::TooCostly => damaged("it asks for more work than any notebook does"),
            DoorError::PassphraseTaken => Self::PassphraseTaken,
            DoorError::Full(most) => Self::TooManyPeople(most),
            DoorError::NoSuchSlot => Self::UnknownPerson,
            DoorError::Rotating => Self::KeyChanged(path.to_owned()),
            DoorError::Forged => damaged("somebody who could not open it put a place for a passphrase into it"),
            DoorError::Io(source) => Self::of_file(path, source),
            _ => Self::NoKey,
        }
    }
}

/// SQLite's word for a file that is no longer where it was opened.
fn is_moved(error: &rusqlite::ffi::Error) -> bool {
    error.extended_code == rusqlite::ffi::SQLITE_READONLY_DBMOVED
}
