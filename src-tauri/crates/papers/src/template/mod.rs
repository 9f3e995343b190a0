//! Turns a view into Markdown with a Tera template. Templates see the view and nothing else: no
//! files, no clock, no chance.

mod escape;
mod filters;

use std::sync::LazyLock;

use serde_json::Value;
use tera::{Context, Tera};

use crate::{Kind, PapersError};

/// A template that comes with the program.
#[derive(Debug, Clone, Copy)]
pub struct BuiltIn {
    /// Name, as printed on the paper.
    pub name: &'static str,
    /// Version, as printed on the paper; raised with every change of wording.
    pub version: u32,
    source: &'static str,
}

const OPERATIVE_NOTE: BuiltIn =
    BuiltIn { name: "operative-note", version: 1, source: include_str!("../../../../../templates/operative-note.md") };
const DISCHARGE_LETTER: BuiltIn = BuiltIn {
    name: "discharge-letter",
    version: 1,
    source: include_str!("../../../../../templates/discharge-letter.md"),
};
/// The cautions of the discharge letter. Not a paper: its text is put into the letter by the program.
const CAUTIONS: BuiltIn =
    BuiltIn { name: "cautions", version: 1, source: include_str!("../../../../../templates/cautions.md") };

/// Every built-in template, listed once.
pub const BUILT_IN: [BuiltIn; 3] = [OPERATIVE_NOTE, DISCHARGE_LETTER, CAUTIONS];

/// Parsed once; the built-in templates are checked by the tests of this crate.
static ENGINE: LazyLock<Result<Tera, String>> = LazyLock::new(|| {
    let mut tera = Tera::default();
    tera.autoescape_on([""]);
    tera.set_escape_fn(escape::escape);
    filters::register(&mut tera);
    tera.add_raw_templates(BUILT_IN.map(|t| (t.name, t.source))).map_err(|error| error.to_string())?;
    Ok(tera)
});

/// The template of a kind of paper.
pub fn of(kind: Kind) -> BuiltIn {
    match kind {
        Kind::OperativeNote => OPERATIVE_NOTE,
        Kind::DischargeLetter => DISCHARGE_LETTER,
    }
}

/// Renders a paper's Markdown from its view.
///
/// # Errors
/// [`PapersError::Template`] with the template's own report: place and reason.
pub fn render(kind: Kind, view: &Value) -> Result<String, PapersError> {
    let mut markdown = run(of(kind).name, view)?;
    if kind == Kind::DischargeLetter {
        let cautions = run(CAUTIONS.name, view)?;
        markdown = place_cautions(&markdown, &cautions);
    }
    Ok(tidy(&markdown))
}

fn run(name: &str, view: &Value) -> Result<String, PapersError> {
    let failed = |report: String| PapersError::Template { name: name.to_owned(), report };
    let tera = ENGINE.as_ref().map_err(|report| failed(report.clone()))?;
    let context = Context::from_serialize(view).map_err(|error| failed(error.to_string()))?;
    tera.render(name, &context).map_err(|error| failed(error.to_string()))
}

/// The line in a letter at which the cautions stand. Typed text cannot make it: a value that begins
/// with `@` is escaped.
const CAUTIONS_PLACE: &str = "@cautions";

/// Puts the cautions where the template asks for them, or at the end where it does not.
///
/// Invariant: no template can leave them out.
fn place_cautions(markdown: &str, cautions: &str) -> String {
    let place = markdown.lines().position(|line| line.trim() == CAUTIONS_PLACE);
    let mut lines: Vec<&str> = markdown.lines().filter(|line| line.trim() != CAUTIONS_PLACE).collect();
    let at = place.unwrap_or(lines.len());
    lines.splice(at..at, [""].into_iter().chain(cautions.lines()).chain([""]));
    lines.join("\n")
}

/// Takes out the blank lines that conditions left behind: one blank line between blocks.
fn tidy(markdown: &str) -> String {
    let mut tidy = String::with_capacity(markdown.len());
    let mut blank = true;
    for line in markdown.lines().map(str::trim_end) {
        if line.is_empty() {
            blank = true;
            continue;
        }
        if blank && !tidy.is_empty() {
            tidy.push('\n');
        }
        blank = false;
        tidy.push_str(line);
        tidy.push('\n');
    }
    tidy
}

/// Escapes a text that stands in Markdown outside of a template.
pub fn escaped(text: &str) -> String {
    let mut out = Vec::with_capacity(text.len());
    // Writing into memory does not fail, and the escape writes whole characters.
    match escape::escape(text, &mut out) {
        Ok(()) => String::from_utf8_lossy(&out).into_owned(),
        Err(_) => String::new(),
    }
}
