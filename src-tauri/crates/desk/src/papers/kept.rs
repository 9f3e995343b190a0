//! Papers as pages, and those of signed entries that are kept as they were first made.

use evengap_case::LocalTime;
use evengap_notebook::{KeptPaper, NewPaper, PaperKey};

use super::set::Set;
use super::subject::Subject;
use super::{PaperAsked, PaperFormat, Printed};
use crate::reading::{self, Reading};
use crate::{Desk, DeskError};

impl Desk {
    /// Gives the pages of a paper: the kept ones, where there are any; otherwise they are set now, and kept where the
    /// entry is signed and nothing is open about the paper. One that cannot be handed out yet, or whose translation
    /// waits for the clinic's check, is made anew each time: kept, it would say so for ever.
    pub(super) fn pdf(&mut self, asked: &PaperAsked, subject: &Subject, now: LocalTime) -> Result<Printed, DeskError> {
        let (id, version) = (subject.case.id, version_to_keep(asked, subject));
        if let Some(kept) = self.kept(asked, subject)? {
            let said = again(&kept);
            return Ok(Printed { kept: Some(said), ..printed(kept, None) });
        }
        let set = self.set(asked, subject, now)?;
        let reading = reading::of(&set.paper);
        let made = self.made(asked, set)?;
        let is_open = !made.unfinished.is_empty() || !self.paper_settings()?.is_confirmed(asked.language);
        match (version.filter(|_| !is_open), &mut self.notebook) {
            (Some(number), Some(notebook)) => Ok(printed(notebook.keep_paper(id, number, &made, now)?, reading)),
            _ => {
                let NewPaper { bytes, unfinished, warnings, .. } = made;
                Ok(Printed { bytes, unfinished, warnings, reading, kept: None })
            }
        }
    }

    /// Looks for the kept pages of a paper.
    pub(super) fn kept(&self, asked: &PaperAsked, subject: &Subject) -> Result<Option<KeptPaper>, DeskError> {
        let (Some(number), Some(notebook)) = (version_to_keep(asked, subject), &self.notebook) else { return Ok(None) };
        let (kind, language, page) = (asked.kind.name(), asked.language.code(), asked.page.code());
        Ok(notebook.kept_paper(PaperKey { id: subject.case.id, number, kind, language, page })?)
    }

    /// Draws the pages of a paper that was set.
    pub(super) fn made(&self, asked: &PaperAsked, set: Set) -> Result<NewPaper, DeskError> {
        let pdf = set.paper.pdf(self.fonts()?)?;
        let mut warnings = set.warnings;
        warnings.extend(pdf.warnings.iter().map(|warning| format!("{warning}.")));
        Ok(NewPaper {
            kind: asked.kind.name().to_owned(),
            language: asked.language.code().to_owned(),
            page: asked.page.code().to_owned(),
            template_name: set.template.name,
            template_version: set.template.version,
            unfinished: set.paper.unfinished,
            warnings,
            bytes: pdf.bytes,
        })
    }

    /// Makes the operative note that is kept with a signature.
    pub(crate) fn note_to_sign(
        &self,
        case: &evengap_case::Case,
        by: &str,
        fingerprint: Option<String>,
        now: LocalTime,
    ) -> Result<NewPaper, DeskError> {
        let asked = PaperAsked::new(case.to_value(), evengap_papers::Kind::OperativeNote);
        let standing = evengap_papers::Standing::Signed { by: by.to_owned(), at: now, fingerprint };
        let subject = Subject { case: case.clone(), standing, addendum: None, version: None };
        let set = self.set(&asked, &subject, now)?;
        self.made(&asked, set)
    }
}

/// The version whose papers are kept; a paper by another hand or of another template is not the one that belongs to
/// the signature.
fn version_to_keep(asked: &PaperAsked, subject: &Subject) -> Option<u32> {
    subject.version.filter(|_| asked.author.is_none() && asked.template.is_none())
}

/// Says that pages are not new.
pub(super) fn again(kept: &KeptPaper) -> String {
    let KeptPaper { made_at, template_name, template_version, .. } = kept;
    let made_at = made_at.replace('T', " at ");
    format!(
        "Kept as made on {made_at} with template {template_name}, version {template_version}; printed again unchanged."
    )
}

/// Says that another form of a paper is not the pages that were kept.
pub(super) fn not_this(kept: &KeptPaper, format: PaperFormat) -> String {
    let made_at = kept.made_at.replace('T', " at ");
    let ending = format.ending();
    format!(
        "The PDF of this paper is kept as made on {made_at}. This .{ending} is made anew, with the template and settings \
         of now, and is not what was kept."
    )
}

fn printed(kept: KeptPaper, reading: Option<Reading>) -> Printed {
    Printed { bytes: kept.bytes, unfinished: kept.unfinished, warnings: kept.warnings, reading, kept: None }
}
