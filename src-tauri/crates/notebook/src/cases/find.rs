//! Finding cases as one types.

use serde::Serialize;
use ts_rs::TS;

use super::lines::CaseLine;
use super::query::{Query, query};
use crate::projections::words;
use crate::{Notebook, NotebookError};

/// The newest of the cases that were found.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct Found {
    /// One line each, newest operation first.
    pub lines: Vec<CaseLine>,
    /// Whether there are more than these.
    pub more: bool,
}

impl Notebook {
    /// Finds the cases that hold every word of a text, newest operation first.
    ///
    /// Each word may be the beginning of a word of the case; order, capitals and accents do not matter.
    /// A date may be written `2026-03-04`, `2026-03`, `04.03.2026`, `4/3/2026` (day first) or in words. Signs are
    /// never commands. An empty text finds every case; signs alone find none.
    ///
    /// # Errors
    /// When the file cannot be read.
    pub fn find(&self, text: &str) -> Result<Vec<CaseLine>, NotebookError> {
        self.find_at_most(text, None)
    }

    /// Finds the newest cases that hold every word of a text, `most` of them at most, and tells whether there are more.
    /// What is typed means the same as for `find`.
    ///
    /// # Errors
    /// When the file cannot be read.
    pub fn find_newest(&self, text: &str, most: u32) -> Result<Found, NotebookError> {
        let mut lines = self.find_at_most(text, Some(i64::from(most) + 1))?;
        let most = usize::try_from(most).unwrap_or(usize::MAX);
        let more = lines.len() > most;
        lines.truncate(most);
        Ok(Found { lines, more })
    }

    fn find_at_most(&self, text: &str, most: Option<i64>) -> Result<Vec<CaseLine>, NotebookError> {
        // SQLite takes a negative limit for none.
        let most = most.unwrap_or(-1);
        let words = |beginning: &str| self.read(|connection| Ok(words::beginning(connection, beginning)?));
        match query(text, &words)? {
            Query::Everything => self.lines(include_str!("list.sql"), [most]),
            Query::Nothing => Ok(Vec::new()),
            Query::Match(expression) => self.lines(include_str!("find.sql"), (expression, most)),
        }
    }
}
