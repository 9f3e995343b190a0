//! Setting a paper: the one place that asks for one, with the clinic's settings and the template in force.

use evengap_case::LocalTime;
use evengap_notebook::Notebook;
use evengap_papers::{Kind as PaperKind, Language, Occasion, OwnTemplate, Paper, PapersError};

use super::subject::Subject;
use super::{AddendumAsked, PageSize, PaperAsked};
use crate::{Desk, DeskError, ErrorCode};

/// A paper that was set, before it is written out in some form.
pub(super) struct Set {
    pub paper: Paper,
    pub template: TemplateUsed,
    /// What was done otherwise than asked.
    pub warnings: Vec<String>,
}

/// The template that a paper was made with.
pub(super) struct TemplateUsed {
    pub name: String,
    pub version: u32,
}

impl TemplateUsed {
    pub fn in_words(&self) -> String {
        format!("{}, version {}", self.name, self.version)
    }
}

impl Desk {
    /// Sets a paper of a subject.
    ///
    /// An own template in force that cannot be used costs no paper: the built-in one takes its place, and a warning
    /// says so. A template that comes with the question is the question itself, so its flaws are the answer.
    pub(super) fn set(&self, asked: &PaperAsked, subject: &Subject, now: LocalTime) -> Result<Set, DeskError> {
        let (kind, language) = (asked.kind, asked.language);
        let given = asked.template.clone();
        let own = match &given {
            Some(given) => Some(given.clone()),
            None => self.template_in_force(kind, language)?,
        };
        let mut occasion = self.occasion(asked, now)?;
        occasion.standing = subject.standing.clone();
        occasion.addendum = subject.addendum.clone();
        occasion.template = own;
        match evengap_papers::render(&subject.case, kind, &occasion) {
            Err(error) if given.is_none() && occasion.template.is_some() && of_the_template(&error) => {
                let own = occasion.template.take().map(|own| used(own.name, own.version));
                let paper = evengap_papers::render(&subject.case, kind, &occasion)?;
                let warning = own.map(|own| {
                    format!("The own template {} could not be used, so the built-in one was. {error}.", own.in_words())
                });
                Ok(Set { paper, template: built_in(kind, language), warnings: warning.into_iter().collect() })
            }
            Err(error) => Err(error.into()),
            Ok(paper) => {
                let template = match occasion.template {
                    Some(own) => used(own.name, own.version),
                    None => built_in(kind, language),
                };
                Ok(Set { paper, template, warnings: Vec::new() })
            }
        }
    }

    /// Everything about a paper that comes from the clinic and from who asks.
    pub(crate) fn occasion(&self, asked: &PaperAsked, now: LocalTime) -> Result<Occasion, DeskError> {
        let writer = self.notebook.as_ref().map(|notebook| notebook.writer().to_owned());
        let invented = asked.demonstration || matches!(asked.addendum, Some(AddendumAsked::Invented(..)));
        // Without an author the paper says in its own language that nobody is named.
        let author = asked.author.clone().or(writer).unwrap_or_default();
        Ok(Occasion {
            page: asked.page.sheet(),
            language: asked.language,
            demonstration: invented || self.notebook.as_ref().is_some_and(Notebook::is_demonstration),
            settings: self.paper_settings()?,
            ..Occasion::new(now, author)
        })
    }

    fn template_in_force(&self, kind: PaperKind, language: Language) -> Result<Option<OwnTemplate>, DeskError> {
        let Some(notebook) = &self.notebook else { return Ok(None) };
        let own = notebook.template_in_force(kind.name(), language.code())?;
        Ok(own.map(|own| OwnTemplate { name: own.name, version: own.version, source: own.source }))
    }
}

/// Refuses what a paper does not have: another language, another sheet.
///
/// # Errors
/// `refused`, with a sentence that says what there is.
pub(crate) fn fits(kind: PaperKind, language: Language, page: PageSize) -> Result<(), DeskError> {
    if !kind.languages().contains(&language) {
        let there: Vec<&str> = kind.languages().iter().map(|language| language.words()).collect();
        return Err(DeskError::new(
            ErrorCode::Refused,
            format!(
                "The {} cannot be written in {}; it is written in {}.",
                kind.words().to_lowercase(),
                language.words(),
                there.join(", ")
            ),
        ));
    }
    if page == PageSize::Wallet && kind != PaperKind::ComponentRecord {
        return Err(DeskError::new(
            ErrorCode::Refused,
            format!(
                "The {} does not fit a wallet card; only the component record does. Choose A4 or Letter.",
                kind.words().to_lowercase()
            ),
        ));
    }
    Ok(())
}

fn of_the_template(error: &PapersError) -> bool {
    matches!(error, PapersError::Template { .. } | PapersError::Blocks(_))
}

fn used(name: String, version: u32) -> TemplateUsed {
    TemplateUsed { name, version }
}

fn built_in(kind: PaperKind, language: Language) -> TemplateUsed {
    let template = evengap_papers::template::of(kind, language);
    used(template.name.to_owned(), template.version)
}
