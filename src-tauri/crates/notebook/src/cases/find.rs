//! Finding cases as one types.

use super::lines::CaseLine;
use super::query::{Query, query};
use crate::{Notebook, NotebookError};

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
        match query(text) {
            Query::Everything => self.list(),
            Query::Nothing => Ok(Vec::new()),
            Query::Match(expression) => self.lines(include_str!("find.sql"), [expression]),
        }
    }
}
