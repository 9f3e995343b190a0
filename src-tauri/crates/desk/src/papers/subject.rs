//! What a paper is of: which version of an entry, how it stands, and the addendum, if it is about one.
//!
//! Invariant: a paper says "signed" only of answers that the open notebook holds as signed, never because
//! whoever asks says so.

use evengap_case::{Case, CaseId, LocalTime};
use evengap_notebook::{NotebookError, State, Stored};
use evengap_papers::{Addendum, Kind as PaperKind, Standing};

use crate::{Desk, DeskError, ErrorCode};

/// The addendum that a paper is about.
#[derive(Debug, Clone, PartialEq)]
pub enum AddendumAsked {
    /// One of a signed entry in the open notebook; 1 is the first.
    Stored(u32),
    /// One that no notebook holds; the entry that comes with it is the new version.
    Given(Box<Addendum>),
    /// One of the demonstration, to an entry that nobody signed but at an invented time, where one is given. Such a
    /// paper always says that its patient is invented.
    Invented(Box<Addendum>, Option<LocalTime>),
}

/// What a paper is of.
pub(super) struct Subject {
    pub case: Case,
    pub standing: Standing,
    pub addendum: Option<Addendum>,
    /// Number of the signed version in the notebook; the papers of such a one are kept.
    pub version: Option<u32>,
}

impl Subject {
    /// An entry with an addendum that nobody wrote, to look at a template with.
    pub(super) fn example(case: Case, now: LocalTime) -> Self {
        let addendum = Addendum {
            number: 1,
            text: "This is an example of what an addendum says.".into(),
            by: "The writer".into(),
            at: now,
            before: case.clone(),
        };
        Self { case, standing: Standing::Draft, addendum: Some(addendum), version: None }
    }
}

impl Desk {
    /// Finds out what a paper is of. `case` is the entry as it stands on the screen.
    ///
    /// The operative note of a signed entry is that of the entry as it was signed, because addenda are papers of
    /// their own. The letters and the component record are those of its newest version.
    pub(super) fn subject(
        &self,
        case: Case,
        kind: PaperKind,
        addendum: Option<AddendumAsked>,
    ) -> Result<Subject, DeskError> {
        let number = match addendum {
            Some(AddendumAsked::Given(addendum)) => {
                return Ok(Subject { case, standing: Standing::Draft, addendum: Some(*addendum), version: None });
            }
            Some(AddendumAsked::Invented(addendum, at)) => {
                let signed = at.map(|at| Standing::Signed { by: addendum.by.clone(), at, fingerprint: None });
                let standing = signed.unwrap_or(Standing::Draft);
                return Ok(Subject { case, standing, addendum: Some(*addendum), version: None });
            }
            Some(AddendumAsked::Stored(number)) => Some(number),
            None => None,
        };
        let signed = self.signed(case.id)?;
        if kind == PaperKind::Addendum {
            let newest = signed.ok_or_else(no_addendum)?;
            let number = number.unwrap_or_else(|| newest.number.saturating_sub(1));
            return self.added(&newest, number);
        }
        match signed {
            Some(newest) if newest.case == case => {
                let version = match kind {
                    PaperKind::OperativeNote => self.open()?.entry_at(case.id, 1)?,
                    _ => newest,
                };
                let fingerprint = Some(version.node.to_string());
                let standing = Standing::Signed { by: version.by, at: time(&version.saved_at)?, fingerprint };
                Ok(Subject { case: version.case, standing, addendum: None, version: Some(version.number) })
            }
            _ => Ok(Subject { case, standing: Standing::Draft, addendum: None, version: None }),
        }
    }

    /// The newest version of an entry, where the open notebook holds it as signed.
    fn signed(&self, id: CaseId) -> Result<Option<Stored>, DeskError> {
        let Some(notebook) = &self.notebook else { return Ok(None) };
        match notebook.show(id) {
            Ok(stored) if stored.state == State::Signed => Ok(Some(stored)),
            Ok(_) | Err(NotebookError::UnknownCase(_)) => Ok(None),
            Err(error) => Err(error.into()),
        }
    }

    /// An addendum, which belongs to the note as it was signed and has an author and a time of its own.
    fn added(&self, newest: &Stored, number: u32) -> Result<Subject, DeskError> {
        if number == 0 || number >= newest.number {
            return Err(no_addendum());
        }
        let (id, notebook) = (newest.case.id, self.open()?);
        let version = notebook.entry_at(id, number + 1)?;
        let addendum = Addendum {
            number,
            text: version.addendum_text.unwrap_or_default(),
            by: version.by,
            at: time(&version.saved_at)?,
            before: notebook.entry_at(id, number)?.case,
        };
        let standing = match version.signed {
            Some(signed) => {
                let fingerprint = Some(version.node.to_string());
                Standing::Signed { at: time(&signed.at)?, by: signed.by, fingerprint }
            }
            None => Standing::Draft,
        };
        Ok(Subject { case: version.case, standing, addendum: Some(addendum), version: Some(version.number) })
    }
}

fn no_addendum() -> DeskError {
    DeskError::new(
        ErrorCode::Refused,
        "There is no such addendum. Only a signed entry has addenda; add one before printing it.",
    )
}

fn time(stored: &str) -> Result<LocalTime, DeskError> {
    stored.parse().map_err(|error| DeskError::failed(format!("A time in the notebook cannot be read: {error}.")))
}
