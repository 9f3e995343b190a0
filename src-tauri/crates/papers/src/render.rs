//! From an entry to a paper: review, view, template, blocks, document.

use evengap_case::{Case, LocalTime};
use evengap_review::{missing_from_note, unfinished_letter};
use serde::{Deserialize, Serialize};
use ts_rs::TS;

use crate::blocks::{self, Block};
use crate::document::{Document, Fact, Page};
use crate::fonts::Fonts;
use crate::pdf::Pdf;
use crate::{drawings, html, pdf, template, text, view};

/// The papers that can be written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, TS)]
#[serde(rename_all = "kebab-case")]
#[ts(rename = "PaperKind")]
pub enum Kind {
    /// For the ward and the file.
    OperativeNote,
    /// For the patient.
    DischargeLetter,
}

impl Kind {
    /// Every kind, in the order in which they are offered.
    pub const ALL: [Self; 2] = [Self::OperativeNote, Self::DischargeLetter];

    /// The name on the command line and in file names.
    pub fn name(self) -> &'static str {
        template::of(self).name
    }

    /// The words that a person reads.
    pub fn words(self) -> &'static str {
        match self {
            Self::OperativeNote => "Operative note",
            Self::DischargeLetter => "Discharge letter",
        }
    }
}

/// How days are written on papers.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize, TS)]
#[serde(rename_all = "snake_case")]
pub enum DateFormat {
    /// 4 March 2026
    #[default]
    DayMonthInWords,
    /// March 4, 2026
    MonthInWordsDay,
    /// 2026-03-04
    YearMonthDay,
}

/// What a clinic sets once for all its papers.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, TS)]
#[serde(default)]
pub struct PaperSettings {
    /// How days are written.
    pub date_format: DateFormat,
    /// The number that calls an ambulance. 112 works throughout the European Union and the United Kingdom.
    pub emergency_number: String,
    /// Fever above which the patient calls the same day, in °C. 38 is common practice, without a source.
    pub fever_c: f64,
}

impl Default for PaperSettings {
    fn default() -> Self {
        Self { date_format: DateFormat::default(), emergency_number: "112".into(), fever_c: 38.0 }
    }
}

/// The circumstances of writing a paper: everything that does not come from the entry.
#[derive(Debug, Clone, PartialEq)]
pub struct Occasion {
    /// Local time of writing.
    pub made_at: LocalTime,
    /// Who writes it.
    pub author: String,
    /// Sheet of the PDF.
    pub page: Page,
    /// Whether the patient is invented.
    pub demonstration: bool,
    /// The clinic's settings.
    pub settings: PaperSettings,
}

/// A paper, ready to be written out in any form.
#[derive(Debug, Clone, PartialEq)]
pub struct Paper {
    /// Its kind.
    pub kind: Kind,
    /// As Markdown, with its identity, and blocks as the writers take them.
    pub document: Document,
    /// Why it cannot be handed out yet; empty where it can.
    pub unfinished: Vec<String>,
    markdown: String,
}

/// Why a paper could not be written.
#[derive(Debug, thiserror::Error)]
pub enum PapersError {
    /// A template does not parse or render.
    #[error("The template {name} cannot be used. {report}")]
    Template {
        /// Its name.
        name: String,
        /// The place and the reason.
        report: String,
    },
    /// The template asks for something that blocks do not have.
    #[error(transparent)]
    Blocks(#[from] blocks::BlockError),
    /// The PDF could not be set.
    #[error(transparent)]
    Pdf(#[from] pdf::PdfError),
}

/// Writes a paper of an entry.
///
/// The same entry, template, settings and occasion give the same paper, byte for byte.
///
/// # Errors
/// [`PapersError`] when the template cannot be used.
pub fn render(case: &Case, kind: Kind, occasion: &Occasion) -> Result<Paper, PapersError> {
    let (missing, unfinished) = match kind {
        Kind::OperativeNote => (missing_from_note(case), Vec::new()),
        Kind::DischargeLetter => (Vec::new(), unfinished_letter(case)),
    };
    let unfinished: Vec<String> = unfinished.into_iter().map(|finding| finding.message).collect();
    let view = view::of(case, occasion, &missing, &unfinished);
    let body = template::render(kind, &view)?;
    let document = document(case, kind, occasion, &view, blocks::parse(&body, &drawings::of(case))?);
    let markdown = with_identity(&document, &body);
    Ok(Paper { kind, document, unfinished, markdown })
}

impl Paper {
    /// Gives the paper as Markdown.
    pub fn markdown(&self) -> &str {
        &self.markdown
    }

    /// Gives the paper as plain text.
    pub fn text(&self) -> String {
        text::write(&self.document)
    }

    /// Gives the paper as a complete HTML document.
    pub fn html(&self) -> String {
        html::write(&self.document)
    }

    /// Gives the paper as HTML for a preview inside another document.
    pub fn fragment(&self) -> String {
        html::fragment(&self.document)
    }

    /// Sets the paper as PDF.
    ///
    /// # Errors
    /// [`PapersError::Pdf`] when the page cannot be drawn.
    pub fn pdf(&self, fonts: &Fonts) -> Result<Pdf, PapersError> {
        Ok(pdf::write(&self.document, fonts)?)
    }
}

/// Gathers what stands on every page. It never passes through a template, so none can change it.
fn document(case: &Case, kind: Kind, occasion: &Occasion, view: &serde_json::Value, blocks: Vec<Block>) -> Document {
    let printed = |pointer: &str| view.pointer(pointer).and_then(|v| v.as_str()).map(str::to_owned);
    let or_not = |value: Option<String>| value.unwrap_or_else(|| "not recorded".to_owned());
    let side = case.knee.side.map(|side| format!("{} knee", side.words()));
    let made = format!("{} {}", or_not(printed("/paper/date")), or_not(printed("/paper/time")));
    let template = template::of(kind);
    let operation = printed("/derived/operation").unwrap_or_else(|| "knee operation".to_owned());
    Document {
        title: kind.words().to_owned(),
        language: "en-GB".to_owned(),
        author: occasion.author.clone(),
        subject: operation,
        made_at: occasion.made_at.0,
        head: vec![
            Fact::new("", printed("/derived/patient_name").unwrap_or_else(|| "Name not recorded".to_owned())),
            Fact::new("Born", or_not(printed("/patient/birth_date"))),
            Fact::new("Hospital number", or_not(printed("/patient/hospital_number"))),
            Fact::new("Side", or_not(side)),
        ],
        foot: format!("{}, version {} · {} · {made}", template.name, template.version, occasion.author),
        mark: Some("DRAFT, NOT SIGNED".to_owned()),
        demonstration: occasion.demonstration,
        page: occasion.page,
        blocks,
    }
}

/// Puts identity, mark and foot around the Markdown body, escaped like any typed text.
fn with_identity(document: &Document, body: &str) -> String {
    let head: Vec<_> = document.head.iter().map(|fact| template::escaped(&fact.in_words())).collect();
    let mark = document.mark.as_deref().unwrap_or_default();
    let demonstration = if document.demonstration { crate::document::DEMONSTRATION } else { "" };
    let marks: Vec<_> = [mark, demonstration].into_iter().filter(|words| !words.is_empty()).collect();
    format!(
        "**{}** · {}\n\n{}\n\n{body}\n---\n\n{}\n",
        document.title,
        head.join(" · "),
        marks.iter().map(|words| format!("**{words}**")).collect::<Vec<_>>().join(" · "),
        template::escaped(&document.foot),
    )
}
