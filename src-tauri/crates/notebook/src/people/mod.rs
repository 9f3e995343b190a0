//! The people of a notebook: who opened it, and who else can. What a role may do is not asked here.

mod acts;
mod door;
mod lines;
mod passphrases;
mod recovery;

use evengap_case::LocalTime;
use rusqlite::{Connection, OptionalExtension, Row, Transaction, params};
use serde::{Deserialize, Serialize};
use ts_rs::TS;
use uuid::Uuid;

pub use lines::PersonLine;
pub use recovery::RecoveryCode;

use crate::{Notebook, NotebookError};

/// What somebody is in a notebook.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, TS)]
#[serde(rename_all = "snake_case")]
pub enum Role {
    /// Writes and signs.
    Surgeon,
    /// Writes drafts.
    Registrar,
    /// Prints what patients take home.
    Clinic,
    /// Looks after the notebook, and reads no case.
    Keeper,
}

impl Role {
    /// Every role.
    pub const ALL: [Self; 4] = [Self::Surgeon, Self::Registrar, Self::Clinic, Self::Keeper];

    /// Gives the code under which the role is stored.
    pub fn code(self) -> &'static str {
        match self {
            Self::Surgeon => "surgeon",
            Self::Registrar => "registrar",
            Self::Clinic => "clinic",
            Self::Keeper => "keeper",
        }
    }

    /// Reads a code back.
    pub fn of(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|role| role.code() == code)
    }
}

/// Somebody who opened a notebook.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Person {
    /// The row in this notebook.
    pub id: i64,
    /// The person's place in the door, the same in every copy and exchange.
    pub mark: Uuid,
    /// The name.
    pub name: String,
    /// The role.
    pub role: Role,
    /// Whether they look after the notebook besides; always so with the role keeper.
    pub keeper: bool,
}

impl Notebook {
    /// Gives the person who opened it.
    pub fn person(&self) -> &Person {
        &self.person
    }

    /// Gives the person who opened it as they are now: another keeper may have changed their role meanwhile.
    ///
    /// # Errors
    /// When they were removed, or the file can no longer be read.
    pub fn person_now(&self) -> Result<Person, NotebookError> {
        let found = self.read(|connection| of_mark(connection, self.person.mark))?;
        found.ok_or_else(|| NotebookError::KeyChanged(self.path.clone()))
    }
}

/// The longest name of a person, in characters.
const LONGEST_NAME: usize = 200;

/// Refuses a name that no other notebook would take in with what this person wrote, or that would not fit on a line.
pub(crate) fn check_name(name: &str) -> Result<(), NotebookError> {
    if name.trim().is_empty() || name.chars().count() > LONGEST_NAME || name.chars().any(char::is_control) {
        return Err(NotebookError::UnfitName(LONGEST_NAME));
    }
    Ok(())
}

/// Writes the row of a person.
pub(crate) fn insert(transaction: &Transaction<'_>, person: &Person, now: LocalTime) -> Result<(), NotebookError> {
    let given = params![person.name, person.role.code(), person.keeper, person.mark.to_string(), now.to_string()];
    transaction.execute(include_str!("insert.sql"), given)?;
    Ok(())
}

/// Finds the person of a mark who may open the notebook; none where there is none, or they were removed.
pub(crate) fn of_mark(connection: &Connection, mark: Uuid) -> Result<Option<Person>, NotebookError> {
    let mut statement = connection.prepare_cached(include_str!("of_mark.sql"))?;
    Ok(statement.query_row([mark.to_string()], person).optional()?)
}

fn person(row: &Row<'_>) -> rusqlite::Result<Person> {
    let (mark, role): (Option<String>, Option<String>) = (row.get("mark")?, row.get("role")?);
    Ok(Person {
        id: row.get("id")?,
        mark: mark.and_then(|mark| Uuid::parse_str(&mark).ok()).unwrap_or_default(),
        name: row.get("name")?,
        // A role of a newer program gets the least.
        role: role.and_then(|role| Role::of(&role)).unwrap_or(Role::Clinic),
        keeper: row.get("keeper")?,
    })
}
