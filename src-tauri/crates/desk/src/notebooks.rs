//! Notebooks: making, opening, closing, and what stands in the frame while one is open.

use std::path::{Path, PathBuf};

use evengap_case::LocalTime;
use evengap_notebook::{Notebook, Passphrase};
use serde::Serialize;
use ts_rs::TS;

use crate::{Desk, DeskError};

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
}

impl Desk {
    /// Tells which notebook is open.
    ///
    /// # Errors
    /// When its file can no longer be read.
    pub fn notebook_current(&self) -> Result<Option<NotebookState>, DeskError> {
        self.notebook.as_ref().map(state).transpose()
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
        let notebook = Notebook::create(path, &Passphrase::new(passphrase)?, writer, now)?;
        self.take(notebook)
    }

    /// Opens a notebook in place of the current one, which stays open when this fails.
    ///
    /// # Errors
    /// When the file is missing, damaged or of a newer program, or the passphrase is wrong
    /// (`wrong_passphrase`).
    pub fn notebook_open(&mut self, path: &Path, passphrase: &str) -> Result<NotebookState, DeskError> {
        let notebook = Notebook::open(path, &Passphrase::new(passphrase)?)?;
        self.take(notebook)
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

    pub(crate) fn take(&mut self, notebook: Notebook) -> Result<NotebookState, DeskError> {
        let state = state(&notebook)?;
        self.notebook = Some(notebook);
        self.forget_names();
        Ok(state)
    }

    /// Lets go of the words that were set for papers of the notebook before: there are names among them.
    fn forget_names(&self) {
        if let Some(fonts) = self.fonts.get() {
            fonts.forget();
        }
    }
}

fn state(notebook: &Notebook) -> Result<NotebookState, DeskError> {
    Ok(NotebookState {
        path: notebook.path().to_string_lossy().into_owned(),
        demonstration: notebook.is_demonstration(),
        writer: notebook.writer().to_owned(),
        cases: notebook.count()?,
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
