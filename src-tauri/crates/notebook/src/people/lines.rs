//! The list of people.

use evengap_door::{Door, SlotKind};
use serde::Serialize;
use ts_rs::TS;
use uuid::Uuid;

use super::{Person, Role, person};
use crate::{Notebook, NotebookError};

/// One line of the list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct PersonLine {
    /// The person's place in the door.
    #[ts(type = "string")]
    pub mark: Uuid,
    /// The name.
    pub name: String,
    /// The role.
    pub role: Role,
    /// Whether they look after the notebook besides; always so with the role keeper.
    pub keeper: bool,
    /// When they were added, `YYYY-MM-DDTHH:MM`.
    pub added_at: String,
    /// When they were removed, if they were.
    pub removed_at: Option<String>,
    /// Whether this is who opened the notebook.
    pub you: bool,
    /// Whether they are only known because they wrote versions that came from another notebook.
    pub from_elsewhere: bool,
    /// Whether it is the printed recovery sheet.
    pub recovery: bool,
    /// Whether a passphrase of theirs opens the notebook.
    pub can_open: bool,
}

impl Notebook {
    /// Lists everybody who was ever known in the notebook, in the order in which they were added.
    ///
    /// # Errors
    /// When the file cannot be read.
    pub fn people(&self) -> Result<Vec<PersonLine>, NotebookError> {
        let door = Door::read(&self.path).map_err(|error| NotebookError::of_door(&self.path, error))?;
        self.lines_of(&door)
    }

    pub(super) fn lines_of(&self, door: &Door) -> Result<Vec<PersonLine>, NotebookError> {
        let slots: Vec<(Uuid, SlotKind)> = door.slots().collect();
        let recovery = self.recovery_mark()?;
        self.read(|connection| {
            let mut statement = connection.prepare_cached(include_str!("list.sql"))?;
            let lines = statement.query_map([], |row| {
                let Person { mark, name, role, keeper, .. } = person(row)?;
                let removed_at: Option<String> = row.get("removed_at")?;
                Ok(PersonLine {
                    mark,
                    name,
                    role,
                    keeper,
                    added_at: row.get("added_at")?,
                    you: mark == self.person.mark,
                    from_elsewhere: row.get("from_elsewhere")?,
                    recovery: recovery == Some(mark),
                    can_open: removed_at.is_none() && slots.iter().any(|(slot, _)| *slot == mark),
                    removed_at,
                })
            })?;
            Ok(lines.collect::<Result<_, _>>()?)
        })
    }
}

/// Whoever can open the notebook and look after it; the recovery sheet does not count.
pub(super) fn keepers(lines: &[PersonLine]) -> impl Iterator<Item = &PersonLine> {
    lines.iter().filter(|line| line.can_open && line.keeper && !line.recovery)
}
