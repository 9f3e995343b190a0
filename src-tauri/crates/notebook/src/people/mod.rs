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
}

/// Writes the row of a person.
pub(crate) fn insert(transaction: &Transaction<'_>, person: &Person, now: LocalTime) -> Result<(), NotebookError> {
    let given = params![person.name, person.role.code(), person.keeper, person.mark.to_string(), now.to_string()];
    transaction.execute(include_str!("insert.sql"), given)?;
    Ok(())
}

/// Finds the person of a mark who may open the notebook; none where there is none, or they were removed.
pub(crate) fn of_mark(connection: &Connection, mark: Uuid) -> Result<Option<Person>, NotebookError> {
    Ok(connection.query_row(include_str!("of_mark.sql"), [mark.to_string()], person).optional()?)
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
