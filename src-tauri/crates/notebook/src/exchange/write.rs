//! Writing an exchange file: all saved states of some cases, in a file beside, which gets its name when it is whole.

use std::path::Path;

use evengap_case::{CaseId, LocalTime};
use evengap_door::Door;
use rusqlite::{Connection, params};
use serde_json::Value;

use super::error::ExchangeError;
use super::file;
use super::types::ExchangeWritten;
use crate::cases::lines::key;
use crate::file::Beside;
use crate::history::{StepRow, Walker, asides, check_depth, head, rows};
use crate::{Notebook, NotebookError, Passphrase};

impl Notebook {
    /// Writes cases with their whole history and kept papers into a new encrypted file, for another notebook: those with
    /// the given identifiers, or all.
    ///
    /// # Errors
    /// When the file exists, there is no such case, a history is not what was written, an entry of an older program is
    /// nested too deep, or the disk refuses.
    pub fn write_exchange(
        &self,
        to: &Path,
        passphrase: &Passphrase,
        ids: Option<&[CaseId]>,
        now: LocalTime,
    ) -> Result<ExchangeWritten, NotebookError> {
        if to.exists() {
            return Err(ExchangeError::Exists(to.to_owned()).into());
        }
        let cost = Door::read(&self.path).map_err(|error| NotebookError::of_door(&self.path, error))?.cost();
        let beside = Beside::claim(to)?;
        let file = file::begin(beside.path(), passphrase, cost, &self.person, now)
            .map_err(|error| error.at(to).said_of(to, to))?;
        let mut written = ExchangeWritten { path: to.to_owned(), cases: 0, steps: 0, papers: 0 };
        self.read(|connection| {
            // All cases as they are at one moment, whoever else saves meanwhile.
            let moment = connection.unchecked_transaction()?;
            let ids = match ids {
                Some(ids) => ids.iter().map(|id| key(*id)).collect(),
                None => every(&moment)?,
            };
            for id in &ids {
                // What is damaged is what is read.
                case(&moment, &file, id, &mut written).map_err(|error| error.at(to).said_of(&self.path, to))?;
            }
            Ok(())
        })?;
        file.execute_batch("COMMIT").map_err(|error| NotebookError::from(error).at(to))?;
        drop(file);
        beside.publish(false)?;
        Ok(written)
    }
}

fn every(connection: &Connection) -> Result<Vec<String>, NotebookError> {
    let mut statement = connection.prepare(include_str!("../projections/every_case.sql"))?;
    let ids = statement.query_map([], |row| row.get(0))?;
    Ok(ids.collect::<Result<_, _>>()?)
}

fn case(from: &Connection, to: &Connection, id: &str, written: &mut ExchangeWritten) -> Result<(), NotebookError> {
    let case_id: CaseId = id.parse().map_err(|_| NotebookError::HistoryBroken(CaseId::default()))?;
    let newest = head(from, id)?.ok_or(NotebookError::UnknownCase(case_id))?;
    if to.query_row("SELECT EXISTS (SELECT 1 FROM tip WHERE case_id = ?1)", [id], |row| row.get(0))? {
        return Ok(());
    }
    let (steps, ends) = (rows(from, id)?, asides(from, id)?);
    // What is not whole here is not handed on.
    let broken = |_| NotebookError::HistoryBroken(case_id);
    let mut walker = Walker::new(id, &steps);
    // No state is written that would be refused by whoever reads the file.
    let mut can_be_read = Ok(());
    let mut see = |_: &StepRow, body: &Value, _: Option<&Value>| {
        if can_be_read.is_ok() {
            can_be_read = check_depth(case_id, body);
        }
    };
    walker.back_from(newest.node, newest.body.clone(), &mut see).map_err(broken)?;
    for (node, body) in ends {
        let body: Value =
            serde_json::from_str(&body).map_err(|source| NotebookError::Unreadable { id: id.to_owned(), source })?;
        walker.back_from(node, body, &mut see).map_err(broken)?;
    }
    can_be_read?;
    if walker.met.len() != steps.len() {
        return Err(NotebookError::HistoryBroken(case_id));
    }

    for step in &steps {
        to.prepare_cached(include_str!("write_step.sql"))?.execute(params![
            id,
            step.node,
            step.parent,
            step.other_parent,
            step.kind,
            step.number,
            step.mark,
            step.written_at,
            step.addendum_text,
            step.back,
        ])?;
    }
    copy(from, include_str!("people_of_case.sql"), to, include_str!("write_person.sql"), id)?;
    copy(from, include_str!("tips_of_case.sql"), to, include_str!("write_tip.sql"), id)?;
    let papers = copy(from, include_str!("papers_of_case.sql"), to, include_str!("write_paper.sql"), id)?;
    written.cases += 1;
    written.steps += u32::try_from(steps.len()).unwrap_or(u32::MAX);
    written.papers += papers;
    Ok(())
}

/// Copies the rows of a case as they come, and counts them.
fn copy(from: &Connection, select: &str, to: &Connection, insert: &str, id: &str) -> Result<u32, NotebookError> {
    let mut statement = from.prepare_cached(select)?;
    let columns = statement.column_count();
    let (mut rows, mut copied) = (statement.query([id])?, 0);
    while let Some(row) = rows.next()? {
        let values = (0..columns).map(|at| row.get_ref(at).map(rusqlite::types::ToSqlOutput::Borrowed));
        let values = values.collect::<Result<Vec<_>, _>>()?;
        to.prepare_cached(insert)?.execute(rusqlite::params_from_iter(values))?;
        copied += 1;
    }
    Ok(copied)
}
