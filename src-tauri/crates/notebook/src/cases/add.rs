//! Adding entries that come from files.

use evengap_case::{Case, CaseId, LocalTime};
use rusqlite::{OptionalExtension, Transaction};

use super::lines::key;
use super::save;
use crate::gate::Changed;
use crate::{Notebook, NotebookError};

/// What became of an added entry.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Added {
    /// It is now in the notebook, under this identifier.
    New(CaseId),
    /// Exactly this entry was there already; nothing was written.
    AlreadyThere(CaseId),
}

impl Notebook {
    /// Adds an entry; one without identifier gets `fresh`.
    ///
    /// # Errors
    /// When another entry has the same identifier, or the file cannot be written.
    pub fn add(&mut self, case: Case, fresh: CaseId, now: LocalTime) -> Result<Added, NotebookError> {
        let added = self.add_all(vec![(case, fresh)], now)?;
        added.into_iter().next().ok_or(NotebookError::NoIdentifier)
    }

    /// Adds several entries, each with the identifier that it gets if it has none: all of them or none.
    ///
    /// # Errors
    /// As for one.
    pub fn add_all(&mut self, cases: Vec<(Case, CaseId)>, now: LocalTime) -> Result<Vec<Added>, NotebookError> {
        self.write(|transaction| {
            let mut added = Vec::with_capacity(cases.len());
            let mut changed = Vec::new();
            for (mut case, fresh) in cases {
                if case.id.0.is_nil() {
                    case.id = fresh;
                }
                let one = add(transaction, &case, now)?;
                if let Added::New(id) = one {
                    changed.push(key(id));
                }
                added.push(one);
            }
            Ok(Changed { result: added, cases: changed })
        })
    }
}

fn add(transaction: &Transaction<'_>, case: &Case, now: LocalTime) -> Result<Added, NotebookError> {
    let there: Option<String> =
        transaction.query_row(include_str!("newest.sql"), [key(case.id)], |row| row.get("body")).optional()?;
    match there {
        None => {
            save::upsert(transaction, case, now)?;
            Ok(Added::New(case.id))
        }
        Some(body) => match serde_json::from_str::<Case>(&body) {
            Ok(stored) if stored == *case => Ok(Added::AlreadyThere(case.id)),
            _ => Err(NotebookError::CaseExists(case.id)),
        },
    }
}
