//! Adding, changing and removing people. Who may do so is asked in `desk`.

use evengap_case::LocalTime;
use evengap_door::SlotKind;
use rusqlite::params;
use uuid::Uuid;

use super::lines::keepers;
use super::{Person, PersonLine, Role, check_name, insert};
use crate::gate::Changed;
use crate::{Notebook, NotebookError, Passphrase};

impl Notebook {
    /// Adds a person with a first passphrase, which they can change themselves, and gives their mark.
    ///
    /// # Errors
    /// When the name is empty or taken, the passphrase is too short or opens another place, there is no room, or the
    /// file cannot be written.
    pub fn add_person(
        &mut self,
        name: &str,
        role: Role,
        keeper: bool,
        passphrase: &Passphrase,
        now: LocalTime,
    ) -> Result<Uuid, NotebookError> {
        let name = name.trim();
        if name.is_empty() {
            return Err(NotebookError::NoPersonName);
        }
        check_name(name)?;
        passphrase.check_chosen()?;
        if self.people()?.iter().any(|line| line.name == name && line.removed_at.is_none() && !line.from_elsewhere) {
            return Err(NotebookError::NameTaken(name.to_owned()));
        }
        let path = self.path.clone();
        let mark = Uuid::new_v4();
        let person = Person { id: 0, mark, name: name.to_owned(), role, keeper: keeper || role == Role::Keeper };
        self.change_door(
            |door, key| {
                door.add(key, mark, SlotKind::Person, passphrase.reveal())
                    .map_err(|error| NotebookError::of_door(&path, error))
            },
            |transaction| insert(transaction, &person, now),
        )?;
        Ok(mark)
    }

    /// Gives a person another role.
    ///
    /// # Errors
    /// When there is no such person, no keeper would be left, or the file cannot be written.
    pub fn change_person(&mut self, mark: Uuid, role: Role, keeper: bool) -> Result<(), NotebookError> {
        let keeper = keeper || role == Role::Keeper;
        let lines = self.people()?;
        let line = active(&lines, mark)?;
        if !keeper {
            check_other_keeper(&lines, line)?;
        }
        self.write(|transaction| {
            transaction.execute(include_str!("change.sql"), params![mark.to_string(), role.code(), keeper])?;
            Ok(Changed { result: (), cases: Vec::new() })
        })?;
        if self.person.mark == mark {
            (self.person.role, self.person.keeper) = (role, keeper);
        }
        Ok(())
    }

    /// Removes a person: their place in the door goes, and the pages get a key that they never had. What they wrote
    /// stays, with their name. A copy of the file from before still opens with their passphrase.
    ///
    /// # Errors
    /// When there is no such person, it is whoever opened the notebook or the last keeper, or the file cannot be
    /// written; whoever opens next then finishes it.
    pub fn remove_person(&mut self, mark: Uuid, now: LocalTime) -> Result<(), NotebookError> {
        let lines = self.people()?;
        let line = active(&lines, mark)?;
        if line.you {
            return Err(NotebookError::Yourself);
        }
        check_other_keeper(&lines, line)?;
        self.write(|transaction| {
            transaction.execute(include_str!("remove.sql"), [mark.to_string(), now.to_string()])?;
            Ok(Changed { result: (), cases: Vec::new() })
        })?;
        self.shut_out(&[mark])
    }
}

/// Finds somebody who was not removed, and is a person of this notebook.
pub(super) fn active(lines: &[PersonLine], mark: Uuid) -> Result<&PersonLine, NotebookError> {
    lines
        .iter()
        .find(|line| line.mark == mark && line.removed_at.is_none() && !line.from_elsewhere && !line.recovery)
        .ok_or(NotebookError::UnknownPerson)
}

fn check_other_keeper(lines: &[PersonLine], of: &PersonLine) -> Result<(), NotebookError> {
    if of.keeper && !keepers(lines).any(|line| line.mark != of.mark) {
        return Err(NotebookError::LastKeeper(of.name.clone()));
    }
    Ok(())
}
