//! Addenda: a signed entry never changes; what is added is a text and a new version of the whole entry.

use evengap_case::{Case, CaseId, LocalTime};
use rusqlite::params;

use super::lines::key;
use super::save::SCHEMA;
use crate::gate::Changed;
use crate::history::{NewStep, StepKind, check_depth, head};
use crate::ledger::{self, What};
use crate::{Notebook, NotebookError};

/// One addendum in a list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AddendumLine {
    /// Number of the entry's version; the first addendum is 2.
    pub number: u32,
    /// Who added it.
    pub by: String,
    /// When, `YYYY-MM-DDTHH:MM`.
    pub at: String,
    /// What it says.
    pub text: String,
}

impl Notebook {
    /// Adds to a signed entry, as the person who opened the notebook: a text and the entry as it is from now on. `based_on` is the number of the
    /// version that the writer looked at. Gives the new version's number.
    ///
    /// # Errors
    /// When there is no such entry, it is not signed, there is a newer version than the one looked at, the text says
    /// nothing, the time lies before that of the newest version, or the file cannot be written.
    pub fn add_addendum(
        &mut self,
        case: &Case,
        text: &str,
        based_on: u32,
        now: LocalTime,
    ) -> Result<u32, NotebookError> {
        let id = case.id;
        let text = text.trim();
        if !says_something(text) {
            return Err(NotebookError::NoAddendumText);
        }
        let by = self.person.clone();
        self.write(|transaction| {
            let head = head(transaction, &key(id))?.ok_or(NotebookError::UnknownCase(id))?;
            if head.kind == StepKind::Draft {
                return Err(NotebookError::NotSigned(id));
            }
            if head.number != based_on {
                return Err(NotebookError::ChangedMeanwhile(id));
            }
            let at = now.to_string();
            // Both are YYYY-MM-DDTHH:MM, so the letters sort as the times do.
            if at < head.written_at {
                return Err(NotebookError::AddendumTooEarly { at, before: head.written_at });
            }
            let (case_id, body, number) = (key(id), case.to_value(), head.number + 1);
            check_depth(id, &body)?;
            let step = NewStep {
                case_id: &case_id,
                kind: StepKind::Addendum,
                number,
                by: &by,
                written_at: &at,
                body: &body,
                addendum_text: Some(text),
                before: Some((head.node, &head.body)),
                other_parent: None,
            };
            let node = step.write(transaction)?;
            let row = params![case_id, number, by.id, at, SCHEMA, body.to_string(), text, node, head.node];
            transaction.prepare_cached(include_str!("add_addendum.sql"))?.execute(row)?;
            ledger::append(transaction, What::Addendum, &case_id, number, &node.0)?;
            Ok(Changed { result: number, cases: vec![case_id] })
        })
    }

    /// Lists the addenda of an entry, the oldest first.
    ///
    /// # Errors
    /// When the file cannot be read.
    pub fn addenda(&self, id: CaseId) -> Result<Vec<AddendumLine>, NotebookError> {
        self.read(|connection| {
            let mut statement = connection.prepare_cached(include_str!("addenda.sql"))?;
            let lines = statement.query_map([key(id)], |row| {
                Ok(AddendumLine {
                    number: row.get("number")?,
                    by: row.get("author")?,
                    at: row.get("written_at")?,
                    text: row.get("addendum_text")?,
                })
            })?;
            Ok(lines.collect::<Result<_, _>>()?)
        })
    }
}

/// Tells whether a text has a letter or a digit that can be seen; signs without width and blanks say nothing.
pub fn says_something(text: &str) -> bool {
    // The fillers of Hangul and Khmer count as letters and print as nothing.
    let blank = |letter| matches!(letter, '\u{115F}' | '\u{1160}' | '\u{17B4}' | '\u{17B5}' | '\u{3164}' | '\u{FFA0}');
    text.chars().any(|letter| letter.is_alphanumeric() && !blank(letter))
}
