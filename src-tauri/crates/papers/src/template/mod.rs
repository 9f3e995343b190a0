//! Turns a view into Markdown with a template, the built-in one or a surgeon's own. Templates see the
//! view and nothing else: no files, no clock, no chance, and a budget that ends.
//!
//! Own and built-in templates go the same way: `tokens` and `walk` read and check them, `engine` compiles
//! and runs them, `cautions` puts in what no template can leave out, `check` is asked before saving.

mod budget;
mod cautions;
mod check;
mod contract;
mod engine;
mod escape;
mod expression;
mod filters;
mod flaw;
mod leftover;
mod near;
mod scope;
mod shape;
mod tokens;
mod walk;

use serde_json::Value;

use crate::{Kind, Language, OwnTemplate, PapersError};

pub(crate) use cautions::Body;
pub use check::check;
pub use contract::{FilterName, ViewName, What, contract, examples, filters, names_in_view};
pub(crate) use escape::escaped;
pub(crate) use filters::with_stop;
pub use flaw::Flaw;

/// A template that comes with the program.
#[derive(Debug, Clone, Copy)]
pub struct BuiltIn {
    /// Name, as printed on the paper.
    pub name: &'static str,
    /// Version, as printed on the paper; raised with every change of wording.
    pub version: u32,
    /// The template itself.
    pub source: &'static str,
}

/// Makes the constant of a template from its file's name and its version.
macro_rules! built_in {
    ($name:literal, $version:literal) => {
        BuiltIn {
            name: $name,
            version: $version,
            source: include_str!(concat!("../../../../../templates/", $name, ".md")),
        }
    };
}

const OPERATIVE_NOTE: BuiltIn = built_in!("operative-note", 3);
const DISCHARGE_LETTER: BuiltIn = built_in!("discharge-letter", 3);
const DISCHARGE_LETTER_DE: BuiltIn = built_in!("discharge-letter.de", 2);
const DISCHARGE_LETTER_ES: BuiltIn = built_in!("discharge-letter.es", 2);
const CLINICIAN_LETTER: BuiltIn = built_in!("clinician-letter", 2);
const COMPONENT_RECORD: BuiltIn = built_in!("component-record", 2);
const ADDENDUM: BuiltIn = built_in!("addendum", 2);
/// The cautions of the discharge letter. Not papers: their text is put into the letter by the program.
const CAUTIONS: BuiltIn = built_in!("cautions", 2);
const CAUTIONS_DE: BuiltIn = built_in!("cautions.de", 2);
const CAUTIONS_ES: BuiltIn = built_in!("cautions.es", 2);

/// Every built-in template, listed once.
pub const BUILT_IN: [BuiltIn; 10] = [
    OPERATIVE_NOTE,
    DISCHARGE_LETTER,
    DISCHARGE_LETTER_DE,
    DISCHARGE_LETTER_ES,
    CLINICIAN_LETTER,
    COMPONENT_RECORD,
    ADDENDUM,
    CAUTIONS,
    CAUTIONS_DE,
    CAUTIONS_ES,
];

/// The built-in template of a kind of paper in a language; English where the paper has no other.
pub fn of(kind: Kind, language: Language) -> BuiltIn {
    match (kind, language) {
        (Kind::OperativeNote, _) => OPERATIVE_NOTE,
        (Kind::DischargeLetter, Language::En) => DISCHARGE_LETTER,
        (Kind::DischargeLetter, Language::De) => DISCHARGE_LETTER_DE,
        (Kind::DischargeLetter, Language::Es) => DISCHARGE_LETTER_ES,
        (Kind::ClinicianLetter, _) => CLINICIAN_LETTER,
        (Kind::ComponentRecord, _) => COMPONENT_RECORD,
        (Kind::Addendum, _) => ADDENDUM,
    }
}

/// The cautions of the discharge letter in a language.
fn cautions(language: Language) -> BuiltIn {
    match language {
        Language::En => CAUTIONS,
        Language::De => CAUTIONS_DE,
        Language::Es => CAUTIONS_ES,
    }
}

/// Renders a paper's body from its view, with a surgeon's own template or the built-in one.
///
/// # Errors
/// [`PapersError::Template`] with the first flaw: place and reason.
pub(crate) fn render(
    kind: Kind,
    language: Language,
    own: Option<&OwnTemplate>,
    view: &Value,
) -> Result<Body, PapersError> {
    let (name, source) = match own {
        Some(own) => (own.name.as_str(), own.source.as_str()),
        None => (of(kind, language).name, of(kind, language).source),
    };
    let failed = |flaw: Flaw| PapersError::Template { name: name.to_owned(), report: sentence(&flaw) };
    render_source(kind, language, source, view).map_err(failed)
}

/// A flaw in words that others set into their own sentence: they end it.
fn sentence(flaw: &Flaw) -> String {
    flaw.to_string().trim_end_matches('.').to_owned()
}

/// Renders any source; own and built-in templates go the same way.
fn render_source(kind: Kind, language: Language, source: &str, view: &Value) -> Result<Body, Flaw> {
    let markdown = run(source, view)?;
    match kind {
        Kind::DischargeLetter => Ok(Body::with_cautions(&markdown, &cautions_of(language, view)?)),
        Kind::OperativeNote | Kind::ClinicianLetter | Kind::ComponentRecord | Kind::Addendum => {
            Ok(Body::whole(&markdown))
        }
    }
}

/// Renders the cautions of a letter.
fn cautions_of(language: Language, view: &Value) -> Result<String, Flaw> {
    run(cautions(language).source, view)
}

fn run(source: &str, view: &Value) -> Result<String, Flaw> {
    let first = |mut flaws: Vec<Flaw>| flaws.swap_remove(0);
    engine::compiled(source).map_err(first)?.run(view)
}
