//! Settling a conflict: somebody chooses which version goes on; the other one stays in the history.

use evengap_case::LocalTime;

use super::adopt::{By, adopt, broken, settle};
use super::conflicts::conflict;
use super::error::ExchangeError;
use super::papers;
use super::types::Keep;
use crate::cases::lines::key;
use crate::gate::Changed;
use crate::history::{NewStep, Node, StepKind, head};
use crate::{Notebook, NotebookError};

impl Notebook {
    /// Settles an open conflict and gives the state that stands afterwards. Of two drafts the chosen one becomes a state
    /// that follows both, so that the other notebook takes it as newer. A signed version stays: where ours is signed,
    /// only ours can be kept and nothing is written but that somebody looked; where only theirs is, only theirs.
    ///
    /// # Errors
    /// When there is no such open conflict, the choice is not one that can be made, or the file cannot be written.
    pub fn settle(&mut self, sequence: i64, keep: Keep, now: LocalTime) -> Result<Node, NotebookError> {
        let (person, at) = (self.person.clone(), now.to_string());
        let by = By { person: person.id, at: &at };
        self.write(|transaction| {
            let found = conflict(transaction, sequence)?;
            if !found.choices.contains(&keep) {
                let stays = if keep == Keep::Theirs { ExchangeError::OursStays } else { ExchangeError::TheirsStays };
                return Err(stays.into());
            }
            let id = key(found.ours.case.id);
            let both_drafts = found.ours.kind == StepKind::Draft && found.theirs.kind == StepKind::Draft;
            settle(transaction, sequence, keep, by)?;
            let mut cases = Vec::new();
            if both_drafts || keep == Keep::Theirs {
                let stood = head(transaction, &id)?.ok_or_else(|| broken(&id))?;
                let sql = "SELECT body FROM aside WHERE sequence = ?1";
                let theirs: String = transaction.query_row(sql, [sequence], |row| row.get(0))?;
                let body = match keep {
                    Keep::Ours => stood.body.clone(),
                    Keep::Theirs => serde_json::from_str(&theirs).map_err(|_| broken(&id))?,
                };
                let node = if both_drafts {
                    let step = NewStep {
                        case_id: &id,
                        kind: StepKind::Draft,
                        number: 1,
                        by: &person,
                        written_at: &at,
                        body: &body,
                        addendum_text: None,
                        before: Some((stood.node, &stood.body)),
                        other_parent: Some(found.theirs.node),
                    };
                    step.write(transaction)?
                } else {
                    found.theirs.node
                };
                adopt(transaction, &id, node, &body.to_string(), by)?;
                papers::keep(transaction, &id)?;
                cases.push(id.clone());
            }
            let node = head(transaction, &id)?.ok_or_else(|| broken(&id))?.node;
            Ok(Changed { result: node, cases })
        })
    }
}
