//! The people of a notebook: who can open it, as what, and with which passphrase.

use std::path::Path;

use evengap_case::LocalTime;
use evengap_notebook::{Notebook, NotebookError, Passphrase, Role};
use evengap_papers::{RecoverySheet, recovery_sheet};
use serde::Serialize;
use ts_rs::TS;
use uuid::Uuid;

use crate::papers::PaperFormat;
use crate::{Desk, DeskError, ErrorCode, PageSize, Right, files, slow_down};

/// Somebody who opened a notebook.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct Person {
    /// Identifier (UUID), the same in every copy of the notebook.
    pub mark: String,
    /// The name.
    pub name: String,
    /// The role.
    pub role: Role,
    /// Whether they look after the notebook besides.
    pub keeper: bool,
    /// Whether it is nobody but the code of the recovery sheet.
    pub recovery: bool,
}

/// One person in the list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct PersonLine {
    /// Identifier (UUID).
    pub mark: String,
    /// The name.
    pub name: String,
    /// The role.
    pub role: Role,
    /// Whether they look after the notebook besides.
    pub keeper: bool,
    /// `YYYY-MM-DDTHH:MM`.
    pub added_at: String,
    /// When they were removed; `null` for whoever was not.
    pub removed_at: Option<String>,
    /// Whether it is the person who opened the notebook.
    pub you: bool,
    /// Whether they only wrote versions that came from another notebook.
    pub from_elsewhere: bool,
    /// Whether it is the printed recovery sheet.
    pub recovery: bool,
    /// Whether a passphrase of theirs opens the notebook.
    pub can_open: bool,
}

impl Desk {
    /// Lists everybody who was ever known in the notebook, in the order in which they were added.
    ///
    /// # Errors
    /// When no notebook is open, or it cannot be read.
    pub fn people(&self) -> Result<Vec<PersonLine>, DeskError> {
        let lines = self.open_as(Right::People)?.people()?;
        let shown = lines.into_iter().map(|line| PersonLine {
            mark: line.mark.to_string(),
            name: line.name,
            role: line.role,
            keeper: line.keeper,
            added_at: line.added_at,
            removed_at: line.removed_at,
            you: line.you,
            from_elsewhere: line.from_elsewhere,
            recovery: line.recovery,
            can_open: line.can_open,
        });
        Ok(shown.collect())
    }

    /// Adds a person with a first passphrase, which they can change themselves, and gives their mark.
    ///
    /// # Errors
    /// When the name is empty or taken, the passphrase is too short or somebody else's (`refused`), or no notebook is
    /// open.
    pub fn person_add(
        &mut self,
        name: &str,
        role: Role,
        keeper: bool,
        passphrase: &str,
        now: LocalTime,
    ) -> Result<String, DeskError> {
        let notebook = self.open_to_write_as(Right::People)?;
        Ok(notebook.add_person(name, role, keeper, &Passphrase::new(passphrase)?, now)?.to_string())
    }

    /// Gives a person another role.
    ///
    /// # Errors
    /// When there is no such person or no keeper would be left (`refused`), or no notebook is open.
    pub fn person_change(&mut self, mark: &str, role: Role, keeper: bool) -> Result<(), DeskError> {
        let notebook = self.open_to_write_as(Right::People)?;
        real(notebook)?;
        Ok(notebook.change_person(read(mark)?, role, keeper)?)
    }

    /// Removes a person. What they wrote stays, with their name; a copy of the file from before still opens for them.
    ///
    /// # Errors
    /// When there is no such person, it is whoever opened the notebook or the last keeper (`refused`), or no notebook is
    /// open.
    pub fn person_remove(&mut self, mark: &str, now: LocalTime) -> Result<(), DeskError> {
        let notebook = self.open_to_write_as(Right::People)?;
        real(notebook)?;
        Ok(notebook.remove_person(read(mark)?, now)?)
    }

    /// Changes the passphrase of whoever opened the notebook. Everybody may.
    ///
    /// # Errors
    /// When `old` is not theirs (`wrong_passphrase`, and `wait` after too many), `new` is too short or somebody else's
    /// (`refused`), or no notebook is open.
    pub fn passphrase_change(&mut self, old: &str, new: &str, now: LocalTime) -> Result<(), DeskError> {
        let (old, new) = (Passphrase::new(old)?, Passphrase::new(new)?);
        let notebook = self.open_to_write()?;
        real(notebook)?;
        let path = notebook.path().to_owned();
        slow_down::guard(&path, now.0, || match notebook.change_passphrase(&old, &new) {
            Err(NotebookError::WrongPassphrase(_)) => Err(DeskError::new(
                ErrorCode::WrongPassphrase,
                "The old passphrase is not yours, so nothing was changed. Type it again.",
            )),
            changed => Ok(changed?),
        })
    }

    /// Gives somebody a passphrase in place of one that was forgotten.
    ///
    /// # Errors
    /// When there is no such person, or the passphrase is too short or somebody else's (`refused`), or no notebook is
    /// open.
    pub fn passphrase_set(&mut self, mark: &str, new: &str) -> Result<(), DeskError> {
        let notebook = self.open_to_write_as(Right::People)?;
        real(notebook)?;
        Ok(notebook.set_passphrase(read(mark)?, &Passphrase::new(new)?)?)
    }

    /// Makes a new recovery sheet as a PDF, and gives its path. A sheet from before stops working.
    ///
    /// # Errors
    /// When the file exists and `replace` is false (`exists`), it cannot be written, or no notebook is open; then the
    /// sheet from before still works, unless the sentence says otherwise.
    pub fn recovery_sheet(
        &mut self,
        to: &Path,
        replace: bool,
        page: PageSize,
        now: LocalTime,
    ) -> Result<String, DeskError> {
        self.open_as(Right::RecoverySheet)?;
        self.may_become(to, PaperFormat::Pdf)?;
        if !replace && to.exists() {
            return Err(files::exists(to));
        }
        // The code cannot be had again: what may refuse the file refuses it before there is one.
        files::try_beside(to)?;
        self.fonts()?;
        let date_format = self.paper_settings()?.date_format;
        let notebook = self.open_to_write()?;
        let code = notebook.new_recovery(now)?;
        let name = notebook.path().file_name().map(|name| name.to_string_lossy().into_owned());
        let sheet = RecoverySheet {
            notebook: name.unwrap_or_default(),
            code_groups: code.groups(),
            made_at: now,
            keeper_name: notebook.writer().to_owned(),
            page: page.sheet(),
            date_format,
        };
        let pdf = recovery_sheet(&sheet, self.fonts()?).map_err(DeskError::from);
        let put = pdf.and_then(|pdf| files::put(to, &pdf.bytes, replace));
        self.forget_names();
        put.map_err(|error| DeskError {
            message: format!("{} The sheet from before no longer works: make another one now.", error.message),
            ..error
        })?;
        Ok(to.to_string_lossy().into_owned())
    }
}

/// Refuses to lock anybody out of the demonstration: its passphrases are known, and open it by themselves.
fn real(notebook: &Notebook) -> Result<(), DeskError> {
    if notebook.is_demonstration() {
        return Err(DeskError::new(
            ErrorCode::Refused,
            "The people of the demonstration and their passphrases stay as they are. Make a notebook of your own to change \
             them.",
        ));
    }
    Ok(())
}

/// Reads a mark as a face gives it back.
fn read(mark: &str) -> Result<Uuid, DeskError> {
    mark.parse().map_err(|_| {
        DeskError::new(ErrorCode::Refused, format!("“{mark}” is no person's mark; look at the list of people again."))
    })
}
