//! Templates: those that come with the program, and the surgeon's own in their place.
//!
//! Invariant: only a template that has passed every check is saved, and what was saved is never lost.

use std::path::Path;

use evengap_case::{LocalTime, Problem};
use evengap_papers::template::{self, Flaw, ViewName};
use evengap_papers::{Kind as PaperKind, Language, OwnTemplate};
use serde::Serialize;
use serde_json::Value;
use ts_rs::TS;

use crate::cases::text_of;
use crate::papers::fits;
use crate::reading::{self, Reading};
use crate::{Desk, DeskError, ErrorCode, PageSize, PaperAsked, Right};

/// Letters that a template's name may have; it is printed at the foot of every page.
const LONGEST_NAME: usize = 60;

/// A template in force, in a list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct TemplateLine {
    /// The paper.
    pub kind: PaperKind,
    /// Its language.
    pub language: Language,
    /// The template's name, as printed on the paper.
    pub name: String,
    /// Its version, as printed on the paper.
    pub version: u32,
    /// Whether it is the surgeon's own.
    pub own: bool,
    /// When an own one was saved, `YYYY-MM-DDTHH:MM`.
    pub saved_at: Option<String>,
    /// Who saved an own one.
    pub by: Option<String>,
}

/// A template in force, with its text.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct TemplateText {
    /// The paper.
    pub kind: PaperKind,
    /// Its language.
    pub language: Language,
    /// The template's name.
    pub name: String,
    /// Its version.
    pub version: u32,
    /// Whether it is the surgeon's own.
    pub own: bool,
    /// The template in force.
    pub source: String,
    /// The one that comes with the program.
    pub built_in: String,
}

/// A saved version of an own template.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct TemplateVersion {
    /// 1 for the first.
    pub version: u32,
    /// Its name.
    pub name: String,
    /// When it was saved, `YYYY-MM-DDTHH:MM`.
    pub saved_at: String,
    /// Who saved it.
    pub by: String,
    /// The template.
    pub source: String,
    /// Whether papers are made with it.
    pub in_force: bool,
}

/// What a template makes of an entry, or why it makes nothing.
#[derive(Debug, Clone, PartialEq, Serialize, TS)]
pub struct Tried {
    /// HTML fragment, escaped, without head and body; none where the template has flaws.
    pub html: Option<String>,
    /// What is wrong with the template; empty when nothing is.
    pub flaws: Vec<Flaw>,
    /// Why the paper cannot be finished; empty when it can.
    pub unfinished: Vec<String>,
    /// How hard it is to read, for papers that a patient reads in English.
    pub reading: Option<Reading>,
}

impl Desk {
    /// Lists the template in force of every paper in every language that it has.
    ///
    /// # Errors
    /// When the open notebook can no longer be read.
    pub fn templates(&self) -> Result<Vec<TemplateLine>, DeskError> {
        self.may(Right::Templates)?;
        let every = PaperKind::ALL.into_iter().flat_map(|kind| kind.languages().iter().map(move |of| (kind, *of)));
        every
            .map(|(kind, language)| {
                let own = self.own(kind, language)?;
                let built_in = template::of(kind, language);
                Ok(TemplateLine {
                    kind,
                    language,
                    own: own.is_some(),
                    name: own.as_ref().map_or_else(|| built_in.name.to_owned(), |own| own.name.clone()),
                    version: own.as_ref().map_or(built_in.version, |own| own.version),
                    saved_at: own.as_ref().map(|own| own.saved_at.clone()),
                    by: own.map(|own| own.by),
                })
            })
            .collect()
    }

    /// Shows the template in force of a paper.
    ///
    /// # Errors
    /// When the paper has no such language (`refused`), or the open notebook can no longer be read.
    pub fn template_show(&self, kind: PaperKind, language: Language) -> Result<TemplateText, DeskError> {
        self.may(Right::Templates)?;
        fits(kind, language, PageSize::A4)?;
        let built_in = template::of(kind, language);
        let shipped = built_in.source.to_owned();
        Ok(match self.own(kind, language)? {
            Some(own) => TemplateText {
                kind,
                language,
                name: own.name,
                version: own.version,
                own: true,
                source: own.source,
                built_in: shipped,
            },
            None => TemplateText {
                kind,
                language,
                name: built_in.name.to_owned(),
                version: built_in.version,
                own: false,
                source: shipped.clone(),
                built_in: shipped,
            },
        })
    }

    /// Tries a template on an entry, as one types: it is read, its names are looked up, and the paper is set once.
    ///
    /// # Errors
    /// When the entry cannot be read or the paper has no such language or sheet (`refused`).
    pub fn template_try(
        &self,
        case: Value,
        kind: PaperKind,
        language: Language,
        source: &str,
        page: PageSize,
        now: LocalTime,
    ) -> Result<Tried, DeskError> {
        self.may(Right::Templates)?;
        fits(kind, language, page)?;
        let read = evengap_case::read_value(case.clone())?.case;
        let flaws = template::check(kind, language, source, &[("this entry", &read)]);
        if !flaws.is_empty() {
            return Ok(Tried { html: None, flaws, unfinished: Vec::new(), reading: None });
        }
        let template = OwnTemplate { name: "not saved".into(), version: 1, source: source.to_owned() };
        let asked = PaperAsked { language, page, template: Some(template), ..PaperAsked::new(case, kind) };
        let paper = self.paper_to_try(asked, now)?;
        let (html, reading) = (Some(paper.fragment()), reading::of(&paper));
        Ok(Tried { html, flaws, unfinished: paper.unfinished, reading })
    }

    /// Saves an own template and puts it in force, if it passes every check on every demonstration case.
    ///
    /// # Errors
    /// When it has flaws (`refused`, with places `line:column`) or the name of a built-in one (`refused`); the one that
    /// was in force stays. When no notebook is open, or it cannot be written.
    pub fn template_save(
        &mut self,
        kind: PaperKind,
        language: Language,
        name: &str,
        source: &str,
        now: LocalTime,
    ) -> Result<TemplateText, DeskError> {
        self.open_as(Right::Templates)?;
        let name = name.trim();
        if !evengap_notebook::says_something(name)
            || name.chars().count() > LONGEST_NAME
            || name.chars().any(char::is_control)
        {
            return Err(DeskError::new(
                ErrorCode::Refused,
                format!(
                    "Name of the template: write one line of 1 to {LONGEST_NAME} letters; it is printed on each page."
                ),
            ));
        }
        // The foot of a page names the template: two of one name could not be told apart.
        if template::BUILT_IN.iter().any(|built_in| built_in.name.to_lowercase() == name.to_lowercase()) {
            return Err(DeskError::new(
                ErrorCode::Refused,
                format!(
                    "Name of the template: {name} is the name of a template that comes with the program, and every page \
                     names the one that made it. Choose another name."
                ),
            ));
        }
        let flaws = self.template_check(kind, language, source)?;
        if !flaws.is_empty() {
            return Err(refused(&flaws));
        }
        self.open_to_write_as(Right::Templates)?.template_save((kind.name(), language.code()), name, source, now)?;
        self.template_show(kind, language)
    }

    /// Reads a template's file; keeps nothing.
    ///
    /// # Errors
    /// When the file cannot be read.
    pub fn template_from_file(&self, path: &Path) -> Result<String, DeskError> {
        text_of(path, "a template (Markdown)")
    }

    /// Checks a template in every way, on every demonstration case.
    ///
    /// # Errors
    /// When the paper has no such language (`refused`).
    pub fn template_check(&self, kind: PaperKind, language: Language, source: &str) -> Result<Vec<Flaw>, DeskError> {
        self.may(Right::Templates)?;
        fits(kind, language, PageSize::A4)?;
        let cases = self.demo_cases()?;
        let cases: Vec<_> = cases.iter().map(|(name, case)| (*name, case)).collect();
        Ok(template::check(kind, language, source, &cases))
    }

    /// Lists every saved version of a paper's own template, the newest first.
    ///
    /// # Errors
    /// When no notebook is open, or it can no longer be read.
    pub fn template_history(&self, kind: PaperKind, language: Language) -> Result<Vec<TemplateVersion>, DeskError> {
        let versions = self.open_as(Right::Templates)?.template_history(kind.name(), language.code())?;
        let shown = versions.into_iter().map(|version| TemplateVersion {
            version: version.version,
            name: version.name,
            saved_at: version.saved_at,
            by: version.by,
            source: version.source,
            in_force: version.in_force,
        });
        Ok(shown.collect())
    }

    /// Puts a saved version in force again, or the built-in template where no version is given.
    ///
    /// # Errors
    /// When there is no such version, or no notebook is open.
    pub fn template_restore(
        &mut self,
        kind: PaperKind,
        language: Language,
        version: Option<u32>,
        now: LocalTime,
    ) -> Result<TemplateText, DeskError> {
        self.open_as(Right::Templates)?;
        fits(kind, language, PageSize::A4)?;
        self.open_to_write_as(Right::Templates)?.template_choose((kind.name(), language.code()), version, now)?;
        self.template_show(kind, language)
    }

    /// Lists every name that a template of a paper may use, with its meaning and what it holds for an entry.
    ///
    /// # Errors
    /// When the entry cannot be read (`refused`).
    pub fn template_names(
        &self,
        case: Option<Value>,
        kind: PaperKind,
        now: LocalTime,
    ) -> Result<Vec<ViewName>, DeskError> {
        self.may(Right::Templates)?;
        let Some(case) = case else { return Ok(template::contract(kind)) };
        let read = evengap_case::read_value(case.clone())?.case;
        let occasion = self.occasion(&PaperAsked::new(case, kind), now)?;
        Ok(template::examples(&read, kind, &occasion))
    }

    fn own(&self, kind: PaperKind, language: Language) -> Result<Option<evengap_notebook::TemplateVersion>, DeskError> {
        let Some(notebook) = &self.notebook else { return Ok(None) };
        Ok(notebook.template_in_force(kind.name(), language.code())?)
    }
}

fn refused(flaws: &[Flaw]) -> DeskError {
    let places: Vec<Problem> = flaws
        .iter()
        .map(|flaw| Problem { path: format!("{}:{}", flaw.line, flaw.column), message: flaw.sentence() })
        .collect();
    let first = places.first().map(|place| format!(" First, at {}: {}", place.path, place.message));
    DeskError {
        code: ErrorCode::Refused,
        message: format!("The template was not saved; the one in force stays.{}", first.unwrap_or_default()),
        places,
    }
}
