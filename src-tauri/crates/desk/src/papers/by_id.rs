//! Papers by the case's line in the list, for those who print them and read no entry.

use std::path::{Path, PathBuf};

use evengap_case::LocalTime;
use evengap_notebook::Stored;
use evengap_papers::{Kind as PaperKind, Language};
use serde::Deserialize;

use super::{AddendumAsked, Exported, PageSize, PaperAsked, PaperFormat, Preview};
use crate::signing::identifier;
use crate::{Desk, DeskError, Right};

/// Which paper of a case.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
pub struct PaperChoice {
    /// Which paper.
    pub kind: PaperKind,
    /// Its language.
    pub language: Language,
    /// The sheet.
    pub page: PageSize,
    /// Which addendum, where the paper is about one.
    pub addendum: Option<u32>,
}

impl PaperChoice {
    /// Chooses a paper in English on A4.
    pub fn new(kind: PaperKind) -> Self {
        Self { kind, language: Language::default(), page: PageSize::default(), addendum: None }
    }
}

impl Desk {
    /// Sets a paper of a stored entry for the screen.
    ///
    /// # Errors
    /// When no notebook is open, it holds no such entry, the paper does not exist so (`refused`), or is none that this
    /// person may make (`not_allowed`).
    pub fn paper_preview_of(&self, id: &str, choice: PaperChoice, now: LocalTime) -> Result<Preview, DeskError> {
        self.preview(&self.asked_of(id, choice)?, now)
    }

    /// Puts a paper of a stored entry into a file.
    ///
    /// # Errors
    /// As for [`Desk::paper_preview_of`] and [`Desk::paper_export`].
    pub fn paper_export_of(
        &mut self,
        id: &str,
        choice: PaperChoice,
        format: PaperFormat,
        (to, replace): (&Path, bool),
        now: LocalTime,
    ) -> Result<Exported, DeskError> {
        let asked = self.asked_of(id, choice)?;
        self.export(asked, format, to, replace, now)
    }

    /// Suggests a free file name for a paper of a stored entry.
    ///
    /// # Errors
    /// As for [`Desk::paper_preview_of`].
    pub fn paper_suggest_path_of(
        &self,
        documents: &Path,
        id: &str,
        choice: PaperChoice,
        format: PaperFormat,
    ) -> Result<PathBuf, DeskError> {
        self.suggest(documents, &self.asked_of(id, choice)?, format)
    }

    fn asked_of(&self, id: &str, choice: PaperChoice) -> Result<PaperAsked, DeskError> {
        let PaperChoice { kind, language, page, addendum } = choice;
        self.open_as(Right::to_print(kind))?;
        let case = self.stored(id)?.case.to_value();
        Ok(PaperAsked { language, page, addendum: addendum.map(AddendumAsked::Stored), ..PaperAsked::new(case, kind) })
    }

    /// The entry behind a paper; whoever calls has asked for the right to that paper.
    pub(super) fn stored(&self, id: &str) -> Result<Stored, DeskError> {
        Ok(self.open()?.show(identifier(id)?)?)
    }
}
