//! Blocks to PDF: layout is ours, printpdf draws, and a last step completes the file.
//!
//! `shape` and `lines` set words, `flow` and `table` make strips of blocks, `pages` cuts, `paper`
//! puts a whole paper onto its pages with `ink` and `sketch`, `finish` adds fonts and properties.
//! Nothing here reads a clock or a file.

mod finish;
mod flow;
mod frame;
mod ink;
mod lines;
mod look;
mod mark;
mod pages;
mod paper;
mod piece;
mod save;
mod shape;
mod sketch;
mod srgb;
mod structure;
mod table;
mod tags;
mod words;
mod xmp;

use std::borrow::Cow;

use printpdf::PdfSaveOptions;
use thiserror::Error;

use crate::document::Document;
use crate::fonts::{FontError, Fonts};

use paper::Drawing;

pub(crate) use words::Words;

/// Holds a finished PDF and what the reader of it should know.
#[derive(Debug, Clone)]
pub struct Pdf {
    /// The file.
    pub bytes: Vec<u8>,
    /// How many pages it has.
    pub pages: usize,
    /// What could not be shown as it was typed.
    pub warnings: Vec<Warning>,
}

/// Says what a PDF does not show as it was typed.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum Warning {
    /// The built-in fonts have no such character; the page shows a box in its place.
    #[error(
        "the character \"{0}\" (U+{code:04X}) is not in the paper's fonts and prints as a box; type it in another way",
        code = u32::from(*.0)
    )]
    MissingCharacter(char),
}

/// Says why a PDF could not be written.
#[derive(Debug, Error)]
pub enum PdfError {
    /// There is nothing to write.
    #[error("no paper was named to go into the PDF; choose at least one")]
    NoPaper,
    /// The drawn file could not be completed.
    #[error("the PDF could not be completed: {0}")]
    Unfinished(#[from] lopdf::Error),
    /// A built-in font cannot be embedded.
    #[error(transparent)]
    Font(#[from] FontError),
    /// The bytes could not be put together.
    #[error("the PDF could not be written: {0}")]
    Unwritten(#[from] std::io::Error),
}

/// Writes a document as PDF; the same document gives the same bytes.
///
/// # Errors
/// [`PdfError`] if the file cannot be completed; the document's content is never the reason.
pub fn write(document: &Document, fonts: &Fonts) -> Result<Pdf, PdfError> {
    write_all(&[document], fonts)
}

/// Writes several papers into one PDF, one after the other, each with its own head, foot and page
/// numbers; the outline has an entry for each, and fonts are embedded once.
///
/// # Errors
/// [`PdfError::NoPaper`] if there is none to write; otherwise as [`write()`].
pub fn write_all(documents: &[&Document], fonts: &Fonts) -> Result<Pdf, PdfError> {
    let Some((first, others)) = documents.split_first() else {
        return Err(PdfError::NoPaper);
    };
    let about = if others.is_empty() { Cow::Borrowed(*first) } else { Cow::Owned(several(first, documents)) };
    let mut drawing = Drawing::new(&about.title, fonts);
    for document in documents {
        if !others.is_empty() {
            drawing.announce(document);
        }
        drawing.paper(document);
    }
    let Drawing { file, mut shaper, used, entries, structures, .. } = drawing;
    let pages = file.pages.len();
    let options = PdfSaveOptions { optimize: false, subset_fonts: false, secure: true, image_optimization: None };
    let drawn = file.to_lopdf_document(&options, &mut Vec::new());
    let bytes = finish::finish(drawn, &about, fonts, used, &entries, &structures)?;
    Ok(Pdf {
        bytes,
        pages,
        warnings: std::mem::take(&mut shaper.missing).into_iter().map(Warning::MissingCharacter).collect(),
    })
}

/// Gathers what a file of several papers says about itself.
fn several(first: &Document, documents: &[&Document]) -> Document {
    let different = |property: fn(&Document) -> &str| -> Vec<&str> {
        let mut seen: Vec<&str> = Vec::new();
        for document in documents {
            let value = property(document);
            if !seen.contains(&value) {
                seen.push(value);
            }
        }
        seen
    };
    let subjects = different(|document| &document.subject);
    Document {
        title: different(|document| &document.title).join(", "),
        language: first.language.clone(),
        author: different(|document| &document.author).join(", "),
        // A day's operations are many; a list of all would be no subject.
        subject: if subjects.len() == 1 { subjects.concat() } else { String::new() },
        made_at: documents.iter().map(|document| document.made_at).max().unwrap_or(first.made_at),
        head: Vec::new(),
        foot: String::new(),
        mark: None,
        demonstration: first.demonstration,
        page: first.page,
        words: first.words.clone(),
        blocks: Vec::new(),
    }
}
