//! Signing: the draft becomes the signed entry, and the papers that go with it are kept, all in one transaction.

use evengap_case::{Case, LocalTime};

use super::lines::{State, key};
use super::show;
use crate::gate::Changed;
use crate::papers::keep;
use crate::{NewPaper, Notebook, NotebookError};

impl Notebook {
    /// Signs a draft as the writer and keeps papers of it. The entry is given so that what is signed is what was
    /// looked at.
    ///
    /// # Errors
    /// When there is no such entry, it is signed already, it is stored otherwise than given, or the file cannot be
    /// written; then nothing is signed and nothing kept.
    pub fn sign(&mut self, case: &Case, papers: &[NewPaper], now: LocalTime) -> Result<(), NotebookError> {
        let id = case.id;
        self.write(|transaction| {
            let stored = show::version(transaction, id, None)?.ok_or(NotebookError::UnknownCase(id))?;
            if stored.state == State::Signed {
                return Err(NotebookError::Signed(id));
            }
            if stored.case != *case {
                return Err(NotebookError::ChangedMeanwhile(id));
            }
            transaction.execute(include_str!("sign.sql"), [key(id), now.to_string()])?;
            for paper in papers {
                keep(transaction, id, stored.number, paper, now)?;
            }
            Ok(Changed { result: (), cases: vec![key(id)] })
        })
    }
}
