//! Signing: the draft becomes the signed entry, and the papers that go with it are kept, all in one transaction.

use evengap_case::{Case, LocalTime};

use super::lines::key;
use super::save::{Replacement, replace, successor};
use crate::gate::Changed;
use crate::history::{Node, StepKind, check_depth, head, same};
use crate::ledger::{self, What};
use crate::papers::keep;
use crate::{NewPaper, Notebook, NotebookError};

impl Notebook {
    /// Signs a draft as the person who opened the notebook and keeps papers of it. `seen` is the entry that was looked
    /// at; `signed` is the same with what is written into it in the moment of signing. `node` is what
    /// [`Self::node_when_signed`] gave before the papers were made: they carry it, so that no other state is signed.
    ///
    /// # Errors
    /// When there is no such entry, it is signed already, it is stored otherwise than seen, its signed state would not
    /// be `node`, or the file cannot be written; then nothing is signed and nothing kept.
    pub fn sign(
        &mut self,
        seen: &Case,
        signed: &Case,
        node: Node,
        papers: &[NewPaper],
        now: LocalTime,
    ) -> Result<Node, NotebookError> {
        let (id, by) = (seen.id, self.person.clone());
        self.write(|transaction| {
            let head = head(transaction, &key(id))?.ok_or(NotebookError::UnknownCase(id))?;
            if head.kind != StepKind::Draft {
                return Err(NotebookError::Signed(id));
            }
            if signed.id != id || !same(&head.body, &seen.to_value()) {
                return Err(NotebookError::ChangedMeanwhile(id));
            }
            let body = signed.to_value();
            check_depth(id, &body)?;
            let new = Replacement { kind: StepKind::Signed, body: &body };
            // Somebody may have saved the same answers anew: another state, and another fingerprint than the papers have.
            if replace(transaction, &key(id), &head, new, &by, now)? != node {
                return Err(NotebookError::ChangedMeanwhile(id));
            }
            ledger::append(transaction, What::Signed, &key(id), head.number, &node.0)?;
            for paper in papers {
                keep(transaction, id, head.number, paper, &by, now)?;
            }
            Ok(Changed { result: node, cases: vec![key(id)] })
        })
    }

    /// Gives the name that the signed state will have, if nothing is saved in between; for the papers that are made
    /// before.
    ///
    /// # Errors
    /// When there is no such entry, or the file cannot be read.
    pub fn node_when_signed(&self, signed: &Case, now: LocalTime) -> Result<Node, NotebookError> {
        let (id, at) = (key(signed.id), now.to_string());
        self.read(|connection| {
            let head = head(connection, &id)?.ok_or(NotebookError::UnknownCase(signed.id))?;
            Ok(successor(&id, &head, StepKind::Signed, &signed.to_value(), &self.person, &at).node())
        })
    }
}
