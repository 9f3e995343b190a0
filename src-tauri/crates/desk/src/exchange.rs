//! Cases from notebook to notebook, and what is done where two of them went different ways.

use std::path::Path;

use evengap_case::{Case, LocalTime};
use evengap_notebook::{Keep, Outcome, Passphrase, Side, State, StepKind};
use serde::Serialize;
use ts_rs::TS;

use crate::signing::identifier;
use crate::{Change, Desk, DeskError, Right, files, slow_down};

/// A file of cases for another notebook.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct ExchangeWritten {
    /// The file.
    pub path: String,
    /// Cases in it.
    pub cases: u32,
}

/// What became of one case of an exchange file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct CaseOutcome {
    /// The case.
    pub id: String,
    /// Family name, given name.
    pub name: String,
    /// In words.
    pub what: String,
}

/// What came in with an exchange file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct ExchangeReport {
    /// Who wrote the file.
    pub written_by: String,
    /// When, `YYYY-MM-DDTHH:MM`.
    pub written_at: String,
    /// Cases that were not here.
    pub new: u32,
    /// Cases that were here just so.
    pub same: u32,
    /// Cases of which this notebook held an earlier state.
    pub newer: u32,
    /// Cases of which this notebook holds a later state.
    pub older: u32,
    /// Cases that went two ways: both are kept, and somebody has to choose.
    pub conflicts: Vec<CaseOutcome>,
}

/// A conflict that nobody has settled.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct ConflictLine {
    /// Its number.
    #[ts(type = "number")]
    pub sequence: i64,
    /// The case.
    pub id: String,
    /// Family name, given name.
    pub name: String,
    /// Who wrote the version that came in.
    pub by: String,
    /// When, `YYYY-MM-DDTHH:MM`.
    pub at: String,
}

/// One of the two versions of a conflict.
#[derive(Debug, Clone, PartialEq, Serialize, TS)]
pub struct ConflictSide {
    /// The entry.
    pub case: Case,
    /// Who wrote it.
    pub by: String,
    /// When, `YYYY-MM-DDTHH:MM`.
    pub at: String,
    /// Draft or signed.
    pub state: State,
}

/// Both versions of a case that went two ways.
#[derive(Debug, Clone, PartialEq, Serialize, TS)]
pub struct Conflict {
    /// Its line.
    pub line: ConflictLine,
    /// The version of this notebook.
    pub ours: ConflictSide,
    /// The version that came in.
    pub theirs: ConflictSide,
    /// What differs, from ours to theirs.
    pub changes: Vec<Change>,
    /// What can be chosen: where one of the two is signed, that one stays.
    pub choices: Vec<Keep>,
}

impl From<Side> for ConflictSide {
    fn from(side: Side) -> Self {
        let state = if side.kind == StepKind::Draft { State::Draft } else { State::Signed };
        Self { case: side.case, by: side.by, at: side.at, state }
    }
}

impl From<evengap_notebook::ConflictLine> for ConflictLine {
    fn from(line: evengap_notebook::ConflictLine) -> Self {
        Self { sequence: line.sequence, id: line.id.to_string(), name: line.name, by: line.by, at: line.at }
    }
}

impl Desk {
    /// Writes cases with their histories into an encrypted file for another notebook; no identifiers mean all cases.
    ///
    /// # Errors
    /// When the file exists and `replace` is false (`exists`), there is no such case, the passphrase is too short
    /// (`refused`), or the disk refuses.
    pub fn exchange_write(
        &self,
        (to, replace): (&Path, bool),
        passphrase: &str,
        ids: Option<&[String]>,
        now: LocalTime,
    ) -> Result<ExchangeWritten, DeskError> {
        let notebook = self.open_as(Right::Exchange)?;
        let passphrase = Passphrase::new(passphrase)?;
        passphrase.check_chosen()?;
        let ids = ids.map(|ids| ids.iter().map(|id| identifier(id)).collect::<Result<Vec<_>, _>>()).transpose()?;
        self.not_the_notebook(to)?;
        if !replace && to.exists() {
            return Err(files::exists(to));
        }
        // Beside its final name first, so that a file that is replaced stays whole until the new one is.
        let beside = files::folder_beside(to)?;
        let written = notebook.write_exchange(&beside.path().join("exchange"), &passphrase, ids.as_deref(), now)?;
        files::take(&beside.path().join("exchange"), to, replace)?;
        Ok(ExchangeWritten { path: to.to_string_lossy().into_owned(), cases: written.cases })
    }

    /// Takes in the cases of an exchange file: all of it or nothing. Taking it in again changes nothing.
    ///
    /// # Errors
    /// When the passphrase is not the file's (`wrong_passphrase`, and `wait` after too many), or what is in it is not
    /// what a notebook writes.
    pub fn exchange_read(
        &mut self,
        from: &Path,
        passphrase: &str,
        now: LocalTime,
    ) -> Result<ExchangeReport, DeskError> {
        let notebook = self.open_to_write_as(Right::Exchange)?;
        let passphrase = Passphrase::new(passphrase)?;
        let report = slow_down::guard(from, now.0, || Ok(notebook.read_exchange(from, &passphrase, now)?))?;
        let conflicts = report.cases.into_iter().filter(|case| case.what == Outcome::Conflict);
        Ok(ExchangeReport {
            written_by: report.written_by,
            written_at: report.written_at,
            new: report.new,
            same: report.same,
            newer: report.newer,
            older: report.older,
            conflicts: conflicts
                .map(|case| CaseOutcome {
                    id: case.id.to_string(),
                    name: case.name,
                    what: "Both notebooks changed it since they last agreed. Both versions are kept.".into(),
                })
                .collect(),
        })
    }

    /// Lists the conflicts that nobody has settled, the oldest first.
    ///
    /// # Errors
    /// When no notebook is open, or it cannot be read.
    pub fn conflicts(&self) -> Result<Vec<ConflictLine>, DeskError> {
        Ok(self.open_as(Right::Exchange)?.conflicts()?.into_iter().map(ConflictLine::from).collect())
    }

    /// Shows both versions of a conflict, and what differs.
    ///
    /// # Errors
    /// When there is no such open conflict, or no notebook is open.
    pub fn conflict_show(&self, sequence: i64) -> Result<Conflict, DeskError> {
        let notebook = self.open_as(Right::Exchange)?;
        let found = notebook.conflict(sequence)?;
        let line = notebook.conflicts()?.into_iter().find(|line| line.sequence == sequence);
        let line = line.ok_or_else(|| DeskError::failed("There is no such open conflict; look at the list again."))?;
        Ok(Conflict {
            line: line.into(),
            ours: found.ours.into(),
            theirs: found.theirs.into(),
            changes: found.changes.into_iter().map(Change::from).collect(),
            choices: found.choices,
        })
    }

    /// Settles a conflict. Both versions stay in the history; of two drafts the chosen one goes on.
    ///
    /// # Errors
    /// When there is no such open conflict, or the other version is signed and stays (`refused`).
    pub fn conflict_settle(&mut self, sequence: i64, keep: Keep, now: LocalTime) -> Result<(), DeskError> {
        Ok(self.open_to_write_as(Right::Exchange)?.settle(sequence, keep, now).map(drop)?)
    }
}
