//! Notebooks: making, opening, closing, and what stands in the frame while one is open.

use std::path::{Path, PathBuf};

use evengap_case::LocalTime;
use evengap_notebook::{Notebook, Passphrase};
use serde::Serialize;
use ts_rs::TS;

use crate::{BackupState, Desk, DeskError, Person, Right, rights, safety, slow_down};

/// What a face shows about the open notebook.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct NotebookState {
    /// The file.
    pub path: String,
    /// Whether it holds invented people only.
    pub demonstration: bool,
    /// Who writes in it.
    pub writer: String,
    /// How many cases it holds.
    pub cases: u32,
    /// Who opened it.
    pub person: Person,
    /// What that person may do.
    pub rights: Vec<Right>,
    /// How its backups stand.
    pub backup: BackupState,
    /// Minutes without a key or a movement after which it locks by itself.
    pub lock_after_minutes: u32,
    /// Conflicts that nobody has settled.
    pub open_conflicts: u32,
    /// When the recovery sheet that opens it was made, `YYYY-MM-DDTHH:MM`; `null` where there is none.
    pub recovery_sheet_at: Option<String>,
    /// Where the file of an older layout was kept, if it was brought up to date just now.
    pub kept_as: Option<String>,
}

impl Desk {
    /// Tells which notebook is open.
    ///
    /// # Errors
    /// When its file can no longer be read.
    pub fn notebook_current(&self, now: LocalTime) -> Result<Option<NotebookState>, DeskError> {
        self.notebook.as_ref().map(|notebook| state(notebook, now)).transpose()
    }

    /// Makes a new notebook and opens it in place of the current one.
    ///
    /// # Errors
    /// When the file exists (`exists`), the passphrase or the writer is empty, or the disk refuses.
    pub fn notebook_create(
        &mut self,
        path: &Path,
        passphrase: &str,
        writer: &str,
        now: LocalTime,
    ) -> Result<NotebookState, DeskError> {
        let notebook = Notebook::create(path, &Passphrase::new(passphrase)?, writer, self.cost, now)?;
        self.take(notebook, now)
    }

    /// Opens a notebook in place of the current one, which stays open when this fails.
    ///
    /// # Errors
    /// When the file is missing, damaged or of a newer program, or the passphrase is wrong
    /// (`wrong_passphrase`), or comes too early after too many wrong ones (`wait`).
    pub fn notebook_open(&mut self, path: &Path, passphrase: &str, now: LocalTime) -> Result<NotebookState, DeskError> {
        let passphrase = Passphrase::new(passphrase)?;
        let notebook = slow_down::guard(path, now.0, || Ok(Notebook::open(path, &passphrase, now)?))?;
        self.take(notebook, now)
    }

    /// Locks the open notebook: closes it, and says where it is, so that it can be unlocked again. Everybody may.
    ///
    /// # Errors
    /// When no notebook is open.
    pub fn notebook_lock(&mut self) -> Result<String, DeskError> {
        let path = self.open()?.path().to_string_lossy().into_owned();
        self.notebook_close()?;
        Ok(path)
    }

    /// Closes the notebook, if one is open; always leaves none open.
    ///
    /// # Errors
    /// None at present; the answer has the shape of the other acts.
    pub fn notebook_close(&mut self) -> Result<Option<NotebookState>, DeskError> {
        self.notebook = None;
        self.forget_names();
        Ok(None)
    }

    /// Suggests a free file name for a new notebook in a folder.
    pub fn notebook_suggest_path(&self, documents: &Path) -> PathBuf {
        free_name(documents, "knees", "evengap")
    }

    pub(crate) fn take(&mut self, notebook: Notebook, now: LocalTime) -> Result<NotebookState, DeskError> {
        let state = state(&notebook, now)?;
        self.notebook = Some(notebook);
        self.forget_names();
        Ok(state)
    }

    /// Lets go of the words that were set for papers: there are names among them, and the code of a recovery sheet.
    pub(crate) fn forget_names(&self) {
        if let Some(fonts) = self.fonts.get() {
            fonts.forget();
        }
    }
}

fn state(notebook: &Notebook, now: LocalTime) -> Result<NotebookState, DeskError> {
    let person = notebook.person_now()?;
    let cases = notebook.count()?;
    Ok(NotebookState {
        path: notebook.path().to_string_lossy().into_owned(),
        demonstration: notebook.is_demonstration(),
        writer: notebook.writer().to_owned(),
        cases,
        person: Person {
            mark: person.mark.to_string(),
            name: person.name.clone(),
            role: person.role,
            keeper: person.keeper,
            recovery: notebook.opened_by_recovery()?,
        },
        rights: rights::of(&person),
        backup: safety::backup_state(notebook, cases, now)?,
        lock_after_minutes: safety::lock_after(notebook)?,
        open_conflicts: notebook.open_conflicts()?,
        recovery_sheet_at: notebook.recovery_made_at()?,
        kept_as: notebook.kept_as().map(|path| path.to_string_lossy().into_owned()),
    })
}

/// Gives `stem.ending`, or `stem-2.ending` and so on, whichever does not exist yet.
pub(crate) fn free_name(folder: &Path, stem: &str, ending: &str) -> PathBuf {
    let first = folder.join(format!("{stem}.{ending}"));
    if !first.exists() {
        return first;
    }
    (2..10_000).map(|n| folder.join(format!("{stem}-{n}.{ending}"))).find(|path| !path.exists()).unwrap_or(first)
}
