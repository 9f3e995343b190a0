//! Changing passphrases: one's own with the one before, somebody else's without. The pages get a new key as well: whoever
//! learned the old passphrase and has an old copy knows the key of before.

use evengap_door::{FileKey, SlotKind};
use uuid::Uuid;

use super::acts::active;
use crate::{Notebook, NotebookError, Passphrase};

impl Notebook {
    /// Changes the passphrase of whoever opened the notebook. A copy of the file from before keeps the old one.
    ///
    /// # Errors
    /// When `old` is not theirs, `new` is too short or opens another place, or the file cannot be written.
    pub fn change_passphrase(&mut self, old: &Passphrase, new: &Passphrase) -> Result<(), NotebookError> {
        new.check_chosen()?;
        if self.recovery_mark()? == Some(self.person.mark) {
            return Err(NotebookError::RecoveryHasNoPassphrase);
        }
        let (path, mark) = (self.path.clone(), self.person.mark);
        let at_door = |error| NotebookError::of_door(&path, error);
        let next = self.change_door(
            |door, key| {
                match door.unlock(old.reveal()).map_err(at_door)? {
                    Some(unlocked) if unlocked.slot == mark => door.change(key, mark, new.reveal()).map_err(at_door)?,
                    _ => return Err(NotebookError::WrongPassphrase(path.clone())),
                }
                door.begin_rotation(key).map_err(at_door)
            },
            |_| Ok(()),
        )?;
        self.rotate_when_possible(&next);
        Ok(())
    }

    /// Gives somebody a passphrase in place of one that was forgotten.
    ///
    /// # Errors
    /// When there is no such person, the passphrase is too short or opens another place, or the file cannot be written.
    pub fn set_passphrase(&mut self, mark: Uuid, new: &Passphrase) -> Result<(), NotebookError> {
        new.check_chosen()?;
        active(&self.people()?, mark)?;
        let path = self.path.clone();
        let at_door = |error| NotebookError::of_door(&path, error);
        let next = self.change_door(
            |door, key| {
                let has_place = door.slots().any(|(slot, _)| slot == mark);
                // Adding somebody may have been cut short before they got their place.
                let set = if has_place {
                    door.change(key, mark, new.reveal())
                } else {
                    door.add(key, mark, SlotKind::Person, new.reveal())
                };
                set.map_err(at_door)?;
                door.begin_rotation(key).map_err(at_door)
            },
            |_| Ok(()),
        )?;
        self.rotate_when_possible(&next);
        Ok(())
    }

    /// The passphrase is changed, whatever becomes of the key: whoever opens next finishes what cannot be done now.
    fn rotate_when_possible(&mut self, next: &FileKey) {
        let _ = self.rotate_to(next);
    }
}
