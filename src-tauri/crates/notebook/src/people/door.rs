//! Changing the door of an open notebook, and giving its pages a new key.
//!
//! A change of keys has four steps: the next key is sealed to everybody who stays, the door is written, the pages get
//! the key in one transaction, the door is written with that key in force. Cut short after any of them, each of those
//! people still opens the file, and whoever opens next finishes it.

use std::path::Path;

use evengap_door::{Door, FileKey, Unlocked};
use rusqlite::{ErrorCode, Transaction};
use uuid::Uuid;

use super::of_mark;
use crate::file::{connect, settle};
use crate::gate::Changed;
use crate::{Notebook, NotebookError};

impl Notebook {
    /// Changes the door: what `act` does to it, and what `rows` writes, in one write transaction, so that nobody else
    /// changes it meanwhile. The door comes first: a place without a person lets nobody in and is cleared away at the
    /// next opening.
    pub(super) fn change_door<T>(
        &mut self,
        act: impl FnOnce(&mut Door, &FileKey) -> Result<T, NotebookError>,
        rows: impl FnOnce(&Transaction<'_>) -> Result<(), NotebookError>,
    ) -> Result<T, NotebookError> {
        if !self.identity.is_at(&self.path) {
            return Err(NotebookError::Gone(self.path.clone()));
        }
        let (path, key) = (self.path.clone(), self.key.clone());
        let at_door = |error| NotebookError::of_door(&path, error);
        self.write(|transaction| {
            let mut door = Door::read(&path).map_err(at_door)?;
            let result = act(&mut door, &key)?;
            rows(transaction)?;
            door.write(&path).map_err(at_door)?;
            Ok(Changed { result, cases: Vec::new() })
        })
    }

    /// Puts the key in force that is sealed in the door as the next one.
    pub(super) fn rotate_to(&mut self, next: &FileKey) -> Result<(), NotebookError> {
        replace_key(&self.path, &self.key, next).map_err(|error| error.at(&self.path))?;
        let connection = connect(&self.path, next)?;
        settle(&connection)?;
        self.connection = connection;
        self.key = next.clone();
        self.change_door(
            |door, _| {
                door.end_rotation(true);
                Ok(())
            },
            |_| Ok(()),
        )
    }

    /// Finishes what another session began: a change of keys, or a removal whose door was never written.
    pub(crate) fn finish_removals(&mut self, door: &Door, unlocked: &Unlocked) -> Result<(), NotebookError> {
        if let Some(next) = &unlocked.next_key {
            self.rotate_to(next)?;
        }
        let mut left = Vec::new();
        for (slot, _) in door.slots() {
            if self.read(|connection| of_mark(connection, slot))?.is_none() {
                left.push(slot);
            }
        }
        if left.is_empty() { Ok(()) } else { self.shut_out(&left) }
    }

    /// Takes places away and gives the pages a key that those who held them never had.
    pub(super) fn shut_out(&mut self, marks: &[Uuid]) -> Result<(), NotebookError> {
        let path = self.path.clone();
        let next = self.change_door(
            |door, key| {
                for mark in marks {
                    door.remove(*mark);
                }
                door.begin_rotation(key).map_err(|error| NotebookError::of_door(&path, error))
            },
            |_| Ok(()),
        )?;
        self.rotate_to(&next)
    }
}

/// Gives the pages another key, unless they have it already.
fn replace_key(path: &Path, from: &FileKey, to: &FileKey) -> Result<(), NotebookError> {
    if opens(path, to)? {
        return Ok(());
    }
    // A connection of its own: after a change of keys that failed, a connection is good for nothing.
    let connection = connect(path, from)?;
    settle(&connection)?;
    let replaced = to.replace_on(&connection);
    drop(connection);
    match opens(path, to)? {
        true => Ok(()),
        // SQLCipher does not always say why.
        false => Err(replaced.map_or_else(NotebookError::from, |()| NotebookError::Busy(path.to_owned()))),
    }
}

fn opens(path: &Path, key: &FileKey) -> Result<bool, NotebookError> {
    let connection = connect(path, key)?;
    match connection.pragma_query_value(None, "user_version", |row| row.get::<_, i64>(0)) {
        Ok(_) => Ok(true),
        Err(error) if error.sqlite_error_code() == Some(ErrorCode::NotADatabase) => Ok(false),
        Err(error) => Err(error.into()),
    }
}
