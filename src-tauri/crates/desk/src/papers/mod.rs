//! Papers: looking at one, printing one, putting one into a file.

pub(crate) mod batch;
mod by_id;
mod format;
mod kept;
mod names;
mod set;
mod subject;
mod target;

use std::path::{Path, PathBuf};

use evengap_case::LocalTime;
use evengap_papers::{Fonts, Kind as PaperKind, Language, OwnTemplate, Paper};
use serde::Serialize;
use serde_json::Value;
use ts_rs::TS;

use crate::notebooks::free_name;
use crate::reading::{self, Reading};
use crate::{Desk, DeskError, Right, files};

pub use by_id::PaperChoice;
pub use format::{PageSize, PaperFormat};
pub(crate) use set::fits;
pub use subject::AddendumAsked;
use subject::Subject;

/// A paper that is asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct PaperAsked {
    /// The entry as it stands, saved or not.
    pub case: Value,
    /// Which paper.
    pub kind: PaperKind,
    /// Its language.
    pub language: Language,
    /// The sheet.
    pub page: PageSize,
    /// Who makes it; the open notebook's writer where none is given.
    pub author: Option<String>,
    /// Whether it has to say that the patient is invented; one from the demonstration notebook always does.
    pub demonstration: bool,
    /// Which addendum, where the paper is about one; the newest where none is given.
    pub addendum: Option<AddendumAsked>,
    /// A template in place of the one in force.
    pub template: Option<OwnTemplate>,
}

impl PaperAsked {
    /// Asks for a paper in English on A4, made with the template in force.
    pub fn new(case: Value, kind: PaperKind) -> Self {
        Self {
            case,
            kind,
            language: Language::default(),
            page: PageSize::default(),
            author: None,
            demonstration: false,
            addendum: None,
            template: None,
        }
    }
}

/// A paper beside the entry.
#[derive(Debug, Clone, PartialEq, Serialize, TS)]
pub struct Preview {
    /// HTML fragment, escaped, without head and body.
    pub html: String,
    /// Why the paper cannot be finished; empty when it can.
    pub unfinished: Vec<String>,
    /// How hard it is to read, for papers that a patient reads in English.
    pub reading: Option<Reading>,
    /// Name and version of the template that it was made with.
    pub template: String,
    /// What was done otherwise than asked, such as a template that could not be used.
    pub warnings: Vec<String>,
}

/// A paper as bytes.
#[derive(Debug, Clone, PartialEq)]
pub struct Printed {
    /// The content of the file.
    pub bytes: Vec<u8>,
    /// Why the paper cannot be finished; empty when it can.
    pub unfinished: Vec<String>,
    /// What the file does not show as it was typed, and what was done otherwise than asked.
    pub warnings: Vec<String>,
    /// How hard it is to read; not known of a paper that was kept.
    pub reading: Option<Reading>,
    /// Said of a paper of which a PDF was kept before: whether this is it.
    pub kept: Option<String>,
}

/// A paper that is now a file.
#[derive(Debug, Clone, PartialEq, Serialize, TS)]
pub struct Exported {
    /// The file.
    pub path: String,
    /// Why the paper cannot be finished; empty when it can.
    pub unfinished: Vec<String>,
    /// What the file does not show as it was typed, and what was done otherwise than asked.
    pub warnings: Vec<String>,
    /// How hard it is to read; not known of a paper that was kept.
    pub reading: Option<Reading>,
}

impl Desk {
    /// Sets a paper for the screen.
    ///
    /// # Errors
    /// When the entry cannot be read or the paper does not exist so (`refused`), or the paper cannot be set.
    pub fn paper_preview(&self, asked: PaperAsked, now: LocalTime) -> Result<Preview, DeskError> {
        self.may(Right::AllPapers)?;
        self.preview(&asked, now)
    }

    /// The same, for whoever may.
    fn preview(&self, asked: &PaperAsked, now: LocalTime) -> Result<Preview, DeskError> {
        fits(asked.kind, asked.language, asked.page)?;
        let subject = self.subject_of(asked)?;
        let mut set = self.set(asked, &subject, now)?;
        set.warnings.extend(self.kept(asked, &subject)?.map(|kept| kept::again(&kept)));
        Ok(Preview {
            html: set.paper.fragment(),
            reading: reading::of(&set.paper),
            unfinished: set.paper.unfinished,
            template: set.template.in_words(),
            warnings: set.warnings,
        })
    }

    /// Sets a paper and gives its bytes. The PDF of a signed entry is kept, and the same bytes are given ever after.
    ///
    /// # Errors
    /// When the entry cannot be read or the paper does not exist so (`refused`), or the paper cannot be set.
    pub fn paper_print(
        &mut self,
        asked: PaperAsked,
        format: PaperFormat,
        now: LocalTime,
    ) -> Result<Printed, DeskError> {
        self.may(Right::AllPapers)?;
        self.print(asked, format, now)
    }

    /// The same, for whoever may.
    fn print(&mut self, asked: PaperAsked, format: PaperFormat, now: LocalTime) -> Result<Printed, DeskError> {
        fits(asked.kind, asked.language, asked.page)?;
        let subject = self.subject_of(&asked)?;
        if format == PaperFormat::Pdf {
            return self.pdf(&asked, &subject, now);
        }
        let kept = self.kept(&asked, &subject)?.map(|kept| kept::not_this(&kept, format));
        let set = self.set(&asked, &subject, now)?;
        let bytes = match format {
            PaperFormat::Markdown => set.paper.markdown().as_bytes().to_vec(),
            PaperFormat::Html => set.paper.html().into_bytes(),
            PaperFormat::Text | PaperFormat::Pdf => set.paper.text().into_bytes(),
        };
        let reading = reading::of(&set.paper);
        Ok(Printed { bytes, reading, unfinished: set.paper.unfinished, warnings: set.warnings, kept })
    }

    fn subject_of(&self, asked: &PaperAsked) -> Result<Subject, DeskError> {
        let case = evengap_case::read_value(asked.case.clone())?.case;
        self.subject(case, asked.kind, asked.addendum.clone())
    }

    /// Sets a paper that becomes a part of one file for all. Such a file is made anew each time: what is kept of a
    /// signed entry are its single papers.
    pub(crate) fn paper_for_batch(&self, asked: PaperAsked, now: LocalTime) -> Result<(Paper, Vec<String>), DeskError> {
        let subject = self.subject_of(&asked)?;
        let set = self.set(&asked, &subject, now)?;
        Ok((set.paper, set.warnings))
    }

    /// Sets a paper with a template that is being written. An entry without addendum gets an example of one, so that
    /// the addendum's template can be tried on any entry.
    pub(crate) fn paper_to_try(&self, asked: PaperAsked, now: LocalTime) -> Result<Paper, DeskError> {
        let case = evengap_case::read_value(asked.case.clone())?.case;
        let subject = match self.subject(case.clone(), asked.kind, None) {
            Err(_) if asked.kind == PaperKind::Addendum => Subject::example(case, now),
            other => other?,
        };
        Ok(self.set(&asked, &subject, now)?.paper)
    }

    /// Suggests a free file name for a paper in a folder.
    ///
    /// # Errors
    /// When the entry cannot be read (`refused`).
    pub fn paper_suggest_path(
        &self,
        documents: &Path,
        asked: &PaperAsked,
        format: PaperFormat,
    ) -> Result<PathBuf, DeskError> {
        self.may(Right::AllPapers)?;
        self.suggest(documents, asked, format)
    }

    /// The same, for whoever may.
    fn suggest(&self, documents: &Path, asked: &PaperAsked, format: PaperFormat) -> Result<PathBuf, DeskError> {
        let case = evengap_case::read_value(asked.case.clone())?.case;
        let number = match asked.addendum {
            Some(AddendumAsked::Stored(number)) => Some(number),
            _ => None,
        };
        let stem = names::stem(&case, asked.kind, asked.language, asked.page, number);
        Ok(free_name(documents, &stem, format.ending()))
    }

    /// Puts a paper into a file: the whole paper or nothing, never over another file unless told to.
    ///
    /// # Errors
    /// When the file exists and `replace` is false (`exists`), the entry cannot be read, the paper does not exist so, or
    /// the file has the ending of another form or is the open notebook (`refused`), or the disk refuses.
    pub fn paper_export(
        &mut self,
        asked: PaperAsked,
        format: PaperFormat,
        to: &Path,
        replace: bool,
        now: LocalTime,
    ) -> Result<Exported, DeskError> {
        self.may(Right::AllPapers)?;
        self.export(asked, format, to, replace, now)
    }

    /// The same, for whoever may.
    fn export(
        &mut self,
        asked: PaperAsked,
        format: PaperFormat,
        to: &Path,
        replace: bool,
        now: LocalTime,
    ) -> Result<Exported, DeskError> {
        self.may_become(to, format)?;
        let Printed { bytes, unfinished, mut warnings, reading, kept } = self.print(asked, format, now)?;
        files::put(to, &bytes, replace)?;
        warnings.extend(kept);
        Ok(Exported { path: to.to_string_lossy().into_owned(), unfinished, warnings, reading })
    }

    /// The built-in fonts, read once: reading them takes as long as setting a page.
    pub(crate) fn fonts(&self) -> Result<&Fonts, DeskError> {
        if let Some(fonts) = self.fonts.get() {
            return Ok(fonts);
        }
        let fonts = Fonts::built_in().map_err(|error| DeskError::failed(format!("{error}.")))?;
        Ok(self.fonts.get_or_init(|| fonts))
    }
}
