//! The recovery sheet: a printed code that opens the notebook as a keeper, for the day on which nobody else can.

use evengap_case::LocalTime;
pub use evengap_door::RecoveryCode;
use evengap_door::{SlotKind, recovery_code};
use rusqlite::OptionalExtension;
use uuid::Uuid;

use super::{Person, Role, insert, of_mark};
use crate::{Notebook, NotebookError};

/// What its row is called.
const NAME: &str = "Recovery sheet";
const MARK: &str = "recovery.mark";
const MADE_AT: &str = "recovery.made_at";

impl Notebook {
    /// Makes a new code for the recovery sheet. A sheet from before stops working, and the pages get a key that it never
    /// opened.
    ///
    /// # Errors
    /// When no key can be made, or the file cannot be written.
    pub fn new_recovery(&mut self, now: LocalTime) -> Result<RecoveryCode, NotebookError> {
        let path = self.path.clone();
        let at_door = |error| NotebookError::of_door(&path, error);
        let code = recovery_code().map_err(at_door)?;
        let known = self.recovery_mark()?;
        let mark = known.unwrap_or_else(Uuid::new_v4);
        let person = Person { id: 0, mark, name: NAME.into(), role: Role::Keeper, keeper: true };
        let next = self.change_door(
            |door, key| {
                let had_one = door.remove(mark);
                door.add(key, mark, SlotKind::Recovery, code.as_passphrase()).map_err(at_door)?;
                had_one.then(|| door.begin_rotation(key)).transpose().map_err(at_door)
            },
            |transaction| {
                if of_mark(transaction, mark)?.is_none() {
                    insert(transaction, &person, now)?;
                }
                for (name, value) in [(MARK, mark.to_string()), (MADE_AT, now.to_string())] {
                    transaction.execute(include_str!("set_recovery.sql"), [name, &value])?;
                }
                Ok(())
            },
        )?;
        if let Some(next) = next {
            self.rotate_to(&next)?;
        }
        Ok(code)
    }

    /// Tells when the newest recovery sheet was made, if there is one.
    ///
    /// # Errors
    /// When the file cannot be read.
    pub fn recovery_made_at(&self) -> Result<Option<String>, NotebookError> {
        self.recovery(MADE_AT)
    }

    /// Tells whether the notebook was opened with the code of its recovery sheet.
    ///
    /// # Errors
    /// When the file cannot be read.
    pub fn opened_by_recovery(&self) -> Result<bool, NotebookError> {
        Ok(self.recovery_mark()? == Some(self.person.mark))
    }

    /// The place of the recovery sheet in the door.
    pub(super) fn recovery_mark(&self) -> Result<Option<Uuid>, NotebookError> {
        Ok(self.recovery(MARK)?.and_then(|mark| Uuid::parse_str(&mark).ok()))
    }

    fn recovery(&self, name: &str) -> Result<Option<String>, NotebookError> {
        self.read(|connection| {
            Ok(connection.query_row(include_str!("recovery.sql"), [name], |row| row.get(0)).optional()?)
        })
    }
}
