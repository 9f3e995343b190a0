//! From an entry to a paper: review, view, template, blocks, document.

use std::borrow::Cow;

use evengap_case::Case;
use evengap_review::{
    Finding, FindingKind, missing_from_note, unfinished_clinician_letter, unfinished_component_record,
    unfinished_letter,
};

use crate::blocks::{self, Block};
use crate::document::{Document, Fact};
use crate::fonts::Fonts;
use crate::pdf::Pdf;
use crate::{Kind, Occasion, Standing, drawings, html, notices, pdf, template, text, view, words};

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
    let language = kind.in_language(occasion.language);
    // An occasion holds a whole template and an earlier entry; it is copied only where it changes.
    let occasion = match language == occasion.language {
        true => Cow::Borrowed(occasion),
        false => Cow::Owned(Occasion { language, ..occasion.clone() }),
    };
    let occasion = occasion.as_ref();
    let (view, unfinished) = view_of(case, kind, occasion);
    let mut body = template::render(kind, language, occasion.template.as_ref(), &view)?;
    notices::put(&mut body, kind, occasion, &view);
    let markdown = body.markdown();
    let mut drawings = drawings::of(case, language);
    if markdown.contains(drawings::MARK) {
        drawings.extend(drawings::marks(case, occasion.made_at));
    }
    let document = document(case, kind, occasion, &view, body.blocks(&drawings)?);
    let markdown = with_identity(&document, &markdown);
    Ok(Paper { kind, document, unfinished, markdown })
}

/// Builds what a template of this kind sees, and the sentences why the paper cannot be handed out yet.
///
/// The language of `occasion` is to be one that the kind has.
pub(crate) fn view_of(case: &Case, kind: Kind, occasion: &Occasion) -> (serde_json::Value, Vec<String>) {
    let words = words::of(occasion.language);
    let ambulance = Some(occasion.settings.emergency_number.as_str());
    let (missing, findings) = match kind {
        Kind::OperativeNote => (missing_from_note(case), Vec::new()),
        Kind::DischargeLetter => (Vec::new(), unfinished_letter(case, ambulance)),
        Kind::ClinicianLetter => (Vec::new(), unfinished_clinician_letter(case, ambulance)),
        Kind::ComponentRecord => (Vec::new(), unfinished_component_record(case)),
        Kind::Addendum => (Vec::new(), unfinished_addendum(occasion)),
    };
    // What is missing is said by its answer, a conflict by its rule; what a list does not have stays in English.
    let in_letter = findings.iter().map(|finding| {
        let key = match finding.kind {
            FindingKind::Missing => finding.paths.first().map(|path| without_places(path)),
            _ => Some(finding.rule.clone()),
        };
        let translated = key.and_then(|key| words.unfinished(&key));
        translated.map_or_else(|| finding.message.clone(), str::to_owned)
    });
    let view = view::of(case, occasion, &missing, &in_letter.collect::<Vec<_>>());
    (view, findings.into_iter().map(|finding| finding.message).collect())
}

/// Leaves out the places in lists: `patient.allergies[0].substance` becomes `patient.allergies.substance`.
fn without_places(path: &str) -> String {
    path.split('[')
        .enumerate()
        .map(|(i, part)| if i == 0 { part } else { part.split_once(']').map_or(part, |p| p.1) })
        .collect()
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

/// Gives the reasons why an addendum cannot be handed out: without its words or its note it is none.
fn unfinished_addendum(occasion: &Occasion) -> Vec<Finding> {
    let nothing = occasion.addendum.is_none();
    let unsigned = occasion.standing == Standing::Draft;
    let reasons = [
        (nothing, "Nothing has been added to this entry; an addendum needs its words."),
        (unsigned, "The entry has not been signed; until then change it itself."),
    ];
    let reasons = reasons.into_iter().filter(|(holds, _)| *holds);
    reasons
        .map(|(_, message)| Finding {
            rule: "unfinished_addendum".to_owned(),
            kind: FindingKind::Missing,
            paths: Vec::new(),
            message: message.to_owned(),
            source: None,
            blocks: true,
            overridable: false,
            overridden: None,
        })
        .collect()
}

/// Gathers what stands on every page. It never passes through a template, so none can change it.
fn document(case: &Case, kind: Kind, occasion: &Occasion, view: &serde_json::Value, blocks: Vec<Block>) -> Document {
    let words = words::of(occasion.language);
    let printed = |pointer: &str| view.pointer(pointer).and_then(|v| v.as_str()).map(str::to_owned);
    let or_not = |value: Option<String>| value.unwrap_or_else(|| words.not_recorded.clone());
    let side = case.knee.side.map(|side| words.knee.of(side).to_owned());
    let made = format!("{} {}", or_not(printed("/paper/date")), or_not(printed("/paper/time")));
    let built_in = template::of(kind, occasion.language);
    let own = occasion.template.as_ref().map(|own| (own.name.as_str(), own.version));
    let (name, version) = own.unwrap_or((built_in.name, built_in.version));
    let template = words.template.fill(&[("name", name), ("version", &version.to_string())]);
    let title = if kind == Kind::DischargeLetter { &words.discharge_letter } else { kind.words() };
    Document {
        title: title.to_owned(),
        language: occasion.language.tag().to_owned(),
        author: occasion.author_in(words).to_owned(),
        subject: printed("/derived/operation").unwrap_or_else(|| words.derived.operation.clone()),
        made_at: occasion.made_at.0,
        head: vec![
            Fact::new("", printed("/derived/patient_name").unwrap_or_else(|| words.name_not_recorded.clone())),
            Fact::new(&words.born, or_not(printed("/patient/birth_date"))),
            Fact::new(&words.hospital_number, or_not(printed("/patient/hospital_number"))),
            Fact::new(&words.side, or_not(side)),
        ],
        foot: format!("{template} · {} · {made}", occasion.author_in(words)),
        mark: (occasion.standing == Standing::Draft).then(|| words.draft.clone()),
        demonstration: occasion.demonstration,
        page: occasion.page,
        words: words.of_page(),
        blocks,
    }
}

/// Puts identity, mark and foot around the Markdown body, escaped like any typed text.
fn with_identity(document: &Document, body: &str) -> String {
    let head: Vec<_> = document.head.iter().map(|fact| template::escaped(&fact.in_words())).collect();
    let mark = document.mark.as_deref().unwrap_or_default();
    let demonstration = if document.demonstration { document.words.demonstration.as_str() } else { "" };
    let marks: Vec<_> = [mark, demonstration].into_iter().filter(|words| !words.is_empty()).collect();
    format!(
        "**{}** · {}\n\n{}\n\n{body}\n---\n\n{}\n",
        document.title,
        head.join(" · "),
        marks.iter().map(|words| format!("**{words}**")).collect::<Vec<_>>().join(" · "),
        template::escaped(&document.foot),
    )
}
