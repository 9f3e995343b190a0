//! Adding entries that come from files.

use evengap_case::{Case, CaseId, LocalTime};
use rusqlite::Transaction;

use super::lines::key;
use super::save;
use crate::gate::Changed;
use crate::history::{check_depth, head, same};
use crate::{Notebook, NotebookError, Person};

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
    /// When another entry has the same identifier, this one is nested too deep, or the file cannot be written.
    pub fn add(&mut self, case: Case, fresh: CaseId, now: LocalTime) -> Result<Added, NotebookError> {
        let added = self.add_all(vec![(case, fresh)], now)?;
        added.into_iter().next().ok_or(NotebookError::NoIdentifier)
    }

    /// Adds several entries, each with the identifier that it gets if it has none: all of them or none.
    ///
    /// # Errors
    /// As for one.
    pub fn add_all(&mut self, cases: Vec<(Case, CaseId)>, now: LocalTime) -> Result<Vec<Added>, NotebookError> {
        let by = self.person.clone();
        self.write(|transaction| {
            let mut added = Vec::with_capacity(cases.len());
            let mut changed = Vec::new();
            for (mut case, fresh) in cases {
                if case.id.0.is_nil() {
                    case.id = fresh;
                }
                let one = add(transaction, &case, &by, now)?;
                if let Added::New(id) = one {
                    changed.push(key(id));
                }
                added.push(one);
            }
            Ok(Changed { result: added, cases: changed })
        })
    }
}

fn add(transaction: &Transaction<'_>, case: &Case, by: &Person, now: LocalTime) -> Result<Added, NotebookError> {
    let body = case.to_value();
    check_depth(case.id, &body)?;
    match head(transaction, &key(case.id))? {
        None => {
            save::begin(transaction, &key(case.id), &body, by, now)?;
            Ok(Added::New(case.id))
        }
        Some(head) if same(&head.body, &body) => Ok(Added::AlreadyThere(case.id)),
        Some(_) => Err(NotebookError::CaseExists(case.id)),
    }
}
