//! People of other notebooks: known here by their mark, because they wrote versions that came from there.

use std::collections::HashMap;

use evengap_case::LocalTime;
use rusqlite::{OptionalExtension, Transaction, params};
use uuid::Uuid;

use super::error::refused;
use super::file::ExchangeFile;
use crate::people::check_name;
use crate::{NotebookError, Person, Role};

/// The people of an exchange file, by mark.
pub(super) struct People {
    known: HashMap<String, (String, Role)>,
    /// Those that have a row here already.
    here: HashMap<String, Person>,
    now: LocalTime,
}

impl People {
    /// Reads the people of a file.
    pub fn of(file: &ExchangeFile<'_>, now: LocalTime) -> Result<Self, NotebookError> {
        let rows = file.rows("SELECT mark, name, role FROM person", [], |row| {
            Ok((row.get::<_, String>(0)?, row.get::<_, String>(1)?, row.get::<_, String>(2)?))
        })?;
        let mut known = HashMap::new();
        for (mark, name, role) in rows {
            let is_mark = Uuid::try_parse(&mark).is_ok_and(|read| read.to_string() == mark);
            if !is_mark || check_name(&name).is_err() {
                return Err(refused(file.path, "somebody in it has no name or no mark that can be used"));
            }
            // A role of a newer program gets the least; nobody from elsewhere opens this notebook anyway.
            known.insert(mark, (name, Role::of(&role).unwrap_or(Role::Clinic)));
        }
        Ok(Self { known, here: HashMap::new(), now })
    }

    /// Gives the person of a mark, writing a row for one who is not known here yet.
    pub fn person(
        &mut self,
        transaction: &Transaction<'_>,
        file: &ExchangeFile<'_>,
        mark: &str,
    ) -> Result<Person, NotebookError> {
        if let Some(person) = self.here.get(mark) {
            return Ok(person.clone());
        }
        let (name, role) =
            self.known.get(mark).ok_or_else(|| refused(file.path, "it does not say who wrote a version"))?;
        let found: Option<(i64, String)> = transaction
            .query_row("SELECT id, name FROM person WHERE mark = ?1", [mark], |row| Ok((row.get(0)?, row.get(1)?)))
            .optional()?;
        let id = match found {
            // The name is part of what a version is named by, so one person cannot have two.
            Some((_, here)) if here != *name => {
                return Err(refused(file.path, format!("the person who is called {here} here is called {name} in it")));
            }
            Some((id, _)) => id,
            None => {
                let given = params![name, role.code(), mark, self.now.to_string()];
                transaction.execute(include_str!("person_from_elsewhere.sql"), given)?;
                transaction.last_insert_rowid()
            }
        };
        let mark_read = Uuid::try_parse(mark).unwrap_or_default();
        let person = Person { id, mark: mark_read, name: name.clone(), role: *role, keeper: false };
        self.here.insert(mark.to_owned(), person.clone());
        Ok(person)
    }
}
