//! Papers: looking at one, printing one, putting one into a file.

use std::path::{Path, PathBuf};

use evengap_case::{Case, LocalTime};
use evengap_notebook::Notebook;
use evengap_papers::{Fonts, Kind as PaperKind, Occasion, Page, Paper};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use ts_rs::TS;

use crate::notebooks::free_name;
use crate::{Desk, DeskError, files};

/// The form of a paper's file; also its ending.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, TS)]
pub enum PaperFormat {
    /// Pages.
    #[serde(rename = "pdf")]
    Pdf,
    /// Markdown.
    #[serde(rename = "md")]
    Markdown,
    /// Plain text.
    #[serde(rename = "txt")]
    Text,
    /// A page for a browser.
    #[serde(rename = "html")]
    Html,
}

impl PaperFormat {
    /// Every form.
    pub const ALL: [Self; 4] = [Self::Pdf, Self::Markdown, Self::Text, Self::Html];

    /// The ending of the file, without its dot.
    pub const fn ending(self) -> &'static str {
        match self {
            Self::Pdf => "pdf",
            Self::Markdown => "md",
            Self::Text => "txt",
            Self::Html => "html",
        }
    }

    /// Tells the form from a file's name.
    ///
    /// # Errors
    /// When it ends otherwise.
    pub fn of_file(path: &Path) -> Result<Self, DeskError> {
        let ending = path.extension().and_then(|ending| ending.to_str()).unwrap_or_default().to_lowercase();
        Self::ALL.into_iter().find(|format| format.ending() == ending).ok_or_else(|| {
            let endings = Self::ALL.map(|format| format!(".{}", format.ending()));
            DeskError::failed(format!(
                "{}: a paper's file ends in one of {}; choose one of them.",
                path.display(),
                endings.join(", ")
            ))
        })
    }
}

/// The sheet.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize, TS)]
#[serde(rename_all = "snake_case")]
pub enum PageSize {
    /// 210 × 297 mm.
    #[default]
    A4,
    /// 8.5 × 11 inches.
    Letter,
}

/// A paper that is asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct PaperAsked {
    /// The entry as it stands, saved or not.
    pub case: Value,
    /// Which paper.
    pub kind: PaperKind,
    /// The sheet.
    pub page: PageSize,
    /// Who makes it; the open notebook's writer where none is given.
    pub author: Option<String>,
    /// Whether it has to say that the patient is invented; one from the demonstration notebook always does.
    pub demonstration: bool,
}

/// A paper beside the entry.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct Preview {
    /// HTML fragment, escaped, without head and body.
    pub html: String,
    /// Why the paper cannot be finished; empty when it can.
    pub unfinished: Vec<String>,
}

/// A paper as bytes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Printed {
    /// The content of the file.
    pub bytes: Vec<u8>,
    /// Why the paper cannot be finished; empty when it can.
    pub unfinished: Vec<String>,
    /// What the file does not show as it was typed.
    pub warnings: Vec<String>,
}

/// A paper that was put into a file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct Exported {
    /// The file.
    pub path: String,
    /// Why the paper cannot be finished; empty when it can.
    pub unfinished: Vec<String>,
    /// What the file does not show as it was typed.
    pub warnings: Vec<String>,
}

impl Desk {
    /// Sets a paper for the screen.
    ///
    /// # Errors
    /// When the entry cannot be read (`refused`), or the paper cannot be set.
    pub fn paper_preview(&self, asked: PaperAsked, now: LocalTime) -> Result<Preview, DeskError> {
        let paper = self.set(asked, now)?;
        Ok(Preview { html: paper.fragment(), unfinished: paper.unfinished })
    }

    /// Sets a paper and gives its bytes.
    ///
    /// # Errors
    /// When the entry cannot be read (`refused`), or the paper cannot be set.
    pub fn paper_print(&self, asked: PaperAsked, format: PaperFormat, now: LocalTime) -> Result<Printed, DeskError> {
        let paper = self.set(asked, now)?;
        let mut warnings = Vec::new();
        let bytes = match format {
            PaperFormat::Pdf => {
                let pdf = paper.pdf(self.fonts()?)?;
                warnings.extend(pdf.warnings.iter().map(|warning| format!("{warning}.")));
                pdf.bytes
            }
            PaperFormat::Markdown => paper.markdown().as_bytes().to_vec(),
            PaperFormat::Text => paper.text().into_bytes(),
            PaperFormat::Html => paper.html().into_bytes(),
        };
        Ok(Printed { bytes, unfinished: paper.unfinished, warnings })
    }

    /// Suggests a free file name for a paper in a folder.
    ///
    /// # Errors
    /// When the entry cannot be read (`refused`).
    pub fn paper_suggest_path(
        &self,
        documents: &Path,
        case: Value,
        kind: PaperKind,
        format: PaperFormat,
    ) -> Result<PathBuf, DeskError> {
        let case = evengap_case::read_value(case)?.case;
        Ok(free_name(documents, &stem(&case, kind), format.ending()))
    }

    /// Puts a paper into a file: the whole paper or nothing, never over another file unless told to.
    ///
    /// # Errors
    /// When the file exists and `replace` is false (`exists`), the entry cannot be read (`refused`), or the
    /// disk refuses.
    pub fn paper_export(
        &self,
        asked: PaperAsked,
        format: PaperFormat,
        to: &Path,
        replace: bool,
        now: LocalTime,
    ) -> Result<Exported, DeskError> {
        let printed = self.paper_print(asked, format, now)?;
        files::put(to, &printed.bytes, replace)?;
        Ok(Exported {
            path: to.to_string_lossy().into_owned(),
            unfinished: printed.unfinished,
            warnings: printed.warnings,
        })
    }

    /// The one place that asks for a paper.
    fn set(&self, asked: PaperAsked, now: LocalTime) -> Result<Paper, DeskError> {
        let case = evengap_case::read_value(asked.case)?.case;
        let writer = self.notebook.as_ref().map(|notebook| notebook.writer().to_owned());
        let occasion = Occasion {
            made_at: now,
            author: asked.author.or(writer).unwrap_or_else(|| "author not named".to_owned()),
            page: match asked.page {
                PageSize::A4 => Page::A4,
                PageSize::Letter => Page::Letter,
            },
            demonstration: asked.demonstration || self.notebook.as_ref().is_some_and(Notebook::is_demonstration),
            settings: self.paper_settings()?,
        };
        Ok(evengap_papers::render(&case, asked.kind, &occasion)?)
    }

    /// The built-in fonts, read once: reading them takes as long as setting a page.
    fn fonts(&self) -> Result<&Fonts, DeskError> {
        if let Some(fonts) = self.fonts.get() {
            return Ok(fonts);
        }
        let fonts = Fonts::built_in().map_err(|error| DeskError::failed(format!("{error}.")))?;
        Ok(self.fonts.get_or_init(|| fonts))
    }
}

/// Names a paper's file after the person, the day, the side and the paper.
fn stem(case: &Case, kind: PaperKind) -> String {
    let family = case.patient.family_name.as_deref().map(files::fit_for_a_name).unwrap_or_default();
    let date = case.setting.operation_date.map(|date| date.to_string()).unwrap_or_default();
    let side = case.knee.side.map_or("", |side| side.words());
    let parts = [family.as_str(), &date, side, kind.name()];
    parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" ")
}
