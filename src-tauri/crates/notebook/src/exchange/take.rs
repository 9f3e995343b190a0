//! Taking one case of an exchange file: its saved states first, then each of its ends, each by where it stands.

use std::collections::HashSet;

use rusqlite::{Transaction, params};
use serde_json::Value;

use super::adopt::{self, By, adopt, broken, family, put_aside};
use super::ancestry::{Ancestry, Place};
use super::file::ExchangeFile;
use super::incoming::{Incoming, Settled, Tip};
use super::people::People;
use super::types::{Keep, Outcome};
use crate::NotebookError;
use crate::history::{Head, NewStep, Node, StepKind, StepRow, head, rows, same};

/// Takes a case; tells how it stood and whether the entry changed.
pub(super) fn take(
    transaction: &Transaction<'_>,
    file: &ExchangeFile<'_>,
    people: &mut People,
    incoming: &Incoming,
    by: By<'_>,
) -> Result<(Outcome, bool), NotebookError> {
    let id = &incoming.case_id;
    let before = head(transaction, id)?.map(|head| head.node);
    steps(transaction, file, people, incoming)?;
    let mut outcome = Outcome::Same;
    for tip in &incoming.tips {
        let taking = Taking { transaction, id, family: family(transaction, id)?, by };
        let settled_by = match &tip.settled {
            Some(settled) => Some((people.person(transaction, file, &settled.mark)?.id, settled)),
            None => None,
        };
        let what = taking.tip(tip, settled_by, incoming)?;
        // What lies aside there and is no news here says nothing about the case.
        if tip.stands || matches!(what, Outcome::Newer | Outcome::Conflict) {
            outcome = outcome.max(what);
        }
    }
    Ok((outcome, head(transaction, id)?.map(|head| head.node) != before))
}

/// Writes the states that are not here yet.
fn steps(
    transaction: &Transaction<'_>,
    file: &ExchangeFile<'_>,
    people: &mut People,
    incoming: &Incoming,
) -> Result<(), NotebookError> {
    let here: HashSet<Node> = rows(transaction, &incoming.case_id)?.iter().map(|row| row.node).collect();
    for step in incoming.steps.iter().filter(|step| !here.contains(&step.node)) {
        let author = people.person(transaction, file, &step.mark)?.id;
        transaction.prepare_cached(include_str!("../history/add_step.sql"))?.execute(params![
            incoming.case_id,
            step.node,
            step.parent,
            step.other_parent,
            step.kind,
            step.number,
            author,
            step.written_at,
            step.addendum_text,
            step.back,
        ])?;
    }
    Ok(())
}

/// One end of a branch that is being taken.
struct Taking<'a> {
    transaction: &'a Transaction<'a>,
    id: &'a str,
    family: Ancestry<Node>,
    by: By<'a>,
}

impl Taking<'_> {
    fn tip(&self, tip: &Tip, settled: Option<(i64, &Settled)>, incoming: &Incoming) -> Result<Outcome, NotebookError> {
        let here = head(self.transaction, self.id)?;
        let asides = adopt::asides(self.transaction, self.id)?;
        let place = self.family.place(here.as_ref().map(|head| head.node), asides.iter().map(|one| one.node), tip.node);
        match (place, here) {
            (Place::Same, _) => Ok(Outcome::Same),
            (Place::First, _) | (_, None) => self.adopt(tip, Outcome::New),
            (Place::Ahead, Some(head)) => {
                let kind = incoming.steps.iter().find(|step| step.node == tip.node).map(|step| step.kind);
                // Such as a state that settled a conflict with the answers that stood here.
                let no_news =
                    kind == Some(head.kind) && kind == Some(StepKind::Draft) && same(&self.body(tip)?, &head.body);
                self.adopt(tip, if no_news { Outcome::Same } else { Outcome::Newer })
            }
            (Place::Behind, Some(head)) => {
                self.keep_whole(tip, settled)?;
                Ok(if same(&self.body(tip)?, &head.body) { Outcome::Same } else { Outcome::Older })
            }
            (Place::Aside(above), Some(_)) => {
                self.keep_whole(tip, settled)?;
                let open = asides.iter().any(|aside| aside.node == above && aside.open);
                Ok(if open { Outcome::Conflict } else { Outcome::Older })
            }
            (Place::Apart, Some(head)) => self.apart(tip, settled, head, incoming),
        }
    }

    fn adopt(&self, tip: &Tip, outcome: Outcome) -> Result<Outcome, NotebookError> {
        adopt(self.transaction, self.id, tip.node, &tip.body, self.by)?;
        Ok(outcome)
    }

    fn body(&self, tip: &Tip) -> Result<Value, NotebookError> {
        serde_json::from_str(&tip.body).map_err(|_| broken(self.id))
    }

    /// Stores what a state held where no patch would lead back to it.
    fn keep_whole(&self, tip: &Tip, settled: Option<(i64, &Settled)>) -> Result<(), NotebookError> {
        if !self.family.is_end(tip.node) {
            return Ok(());
        }
        self.put_settled(tip, settled)
    }

    fn put_settled(&self, tip: &Tip, settled: Option<(i64, &Settled)>) -> Result<(), NotebookError> {
        let settled = match settled {
            Some((person, settled)) => (By { person, at: &settled.at }, settled.kept.as_str()),
            None => (self.by, Keep::Ours.code()),
        };
        put_aside(self.transaction, self.id, tip.node, &tip.body, self.by.at, Some(settled))
    }

    /// Neither follows from the other: the same answers are no conflict, and what was settled there is none here.
    fn apart(
        &self,
        tip: &Tip,
        settled: Option<(i64, &Settled)>,
        here: Head,
        incoming: &Incoming,
    ) -> Result<Outcome, NotebookError> {
        let came = incoming.steps.iter().find(|step| step.node == tip.node).ok_or_else(|| broken(self.id))?;
        let rows = rows(self.transaction, self.id)?;
        let stands = rows.iter().find(|row| row.node == here.node).ok_or_else(|| broken(self.id))?;
        if settled.is_some() && !tip.stands {
            self.put_settled(tip, settled)?;
            return Ok(Outcome::Older);
        }
        if same(&self.body(tip)?, &here.body) && came.addendum_text == stands.addendum_text {
            match (stands.kind, came.kind) {
                (StepKind::Draft, StepKind::Draft) => self.join(stands, came, tip, &here)?,
                (StepKind::Draft, _) => return self.adopt(tip, Outcome::Newer),
                _ => self.put_settled(tip, None)?,
            }
            return Ok(Outcome::Same);
        }
        self.put_conflict(tip)?;
        Ok(Outcome::Conflict)
    }

    /// Keeps a version aside. Open conflicts about versions that it follows from are about this one from now on.
    fn put_conflict(&self, tip: &Tip) -> Result<(), NotebookError> {
        let behind = self.family.behind(tip.node);
        for aside in
            adopt::asides(self.transaction, self.id)?.iter().filter(|one| one.open && behind.contains(&one.node))
        {
            if self.family.is_end(aside.node) {
                adopt::settle(self.transaction, aside.sequence, Keep::Ours, self.by)?;
            } else {
                // A patch leads back to it, so that nothing of it is lost.
                self.transaction.execute("DELETE FROM aside WHERE sequence = ?1", [aside.sequence])?;
            }
        }
        put_aside(self.transaction, self.id, tip.node, &tip.body, self.by.at, None)
    }

    /// Two drafts with the same answers become one again: a state that follows both. Both notebooks make the very same
    /// one, so it is dated and signed as the later of the two, and which is the parent is told by their names.
    fn join(&self, ours: &StepRow, theirs: &StepRow, tip: &Tip, here: &Head) -> Result<(), NotebookError> {
        let (our_body, their_body) = (&here.body, self.body(tip)?);
        let (first, first_body, other) = if ours.node < theirs.node {
            (ours.node, our_body, theirs.node)
        } else {
            (theirs.node, &their_body, ours.node)
        };
        let rank = |row: &StepRow| (row.written_at.clone(), row.mark.clone(), row.node);
        let later = if rank(ours) > rank(theirs) { ours } else { theirs };
        let author = later_author(self.transaction, later)?;
        let step = NewStep {
            case_id: self.id,
            kind: StepKind::Draft,
            number: 1,
            by: &author,
            written_at: &later.written_at,
            body: first_body,
            addendum_text: None,
            before: Some((first, first_body)),
            other_parent: Some(other),
        };
        let body = first_body.to_string();
        // The other notebook may have made it already, and it came with the file.
        let node = step.node();
        if !self.family.knows(node) {
            step.write(self.transaction)?;
        }
        self.put_settled(tip, None).and_then(|()| adopt(self.transaction, self.id, node, &body, self.by))
    }
}

fn later_author(transaction: &Transaction<'_>, row: &StepRow) -> Result<crate::Person, NotebookError> {
    let id = transaction.query_row("SELECT author FROM step WHERE node = ?1", [row.node], |row| row.get(0))?;
    let mark = uuid::Uuid::try_parse(&row.mark).unwrap_or_default();
    // The role is not part of a state.
    Ok(crate::Person { id, mark, name: row.name.clone(), role: crate::Role::Clinic, keeper: false })
}
