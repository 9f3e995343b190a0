//! The recovery sheet: one page with the code that opens a notebook when every passphrase is lost.
//!
//! It is set by the same writers as the papers but is none of them: no entry, no template, no language but English.
//! The code stands in a drawing sign by sign, so that no list of words that a program keeps ever holds it.

mod code;

use evengap_case::{Case, LocalTime};

use crate::blocks;
use crate::document::{Document, Fact, PageWords};
use crate::fonts::Fonts;
use crate::pdf::{self, Pdf};
use crate::template::escaped;
use crate::view::Printer;
use crate::words::Pattern;
use crate::{DateFormat, Page, PaperSettings, PapersError, words};

/// What a recovery sheet says.
#[derive(Clone, PartialEq, Eq)]
pub struct RecoverySheet {
    /// Name of the notebook's file.
    pub notebook: String,
    /// The code in the groups in which it is read out and typed.
    pub code_groups: Vec<String>,
    /// Local time of making.
    pub made_at: LocalTime,
    /// Who made it.
    pub keeper_name: String,
    /// Sheet of the PDF; a pocket's sheet is too small and becomes A4.
    pub page: Page,
    /// How days are written.
    pub date_format: DateFormat,
}

const TEXT: &str = include_str!("../../../../../templates/recovery-sheet.md");
const TITLE: &str = "Recovery sheet";
/// No name on the sheet has more letters than this.
const NAME_LETTERS: usize = 60;
/// Where the code stands in the text.
const CODE: &str = "code";

/// Sets a recovery sheet as PDF; the same sheet gives the same bytes.
///
/// # Errors
/// [`PapersError`] when the page cannot be drawn.
pub fn recovery_sheet(sheet: &RecoverySheet, fonts: &Fonts) -> Result<Pdf, PapersError> {
    Ok(pdf::write(&document(sheet)?, fonts)?)
}

fn document(sheet: &RecoverySheet) -> Result<Document, PapersError> {
    let words = words::of(crate::Language::En);
    let settings = PaperSettings { date_format: sheet.date_format, ..PaperSettings::default() };
    let printer = Printer { case: &Case::default(), settings: &settings, words };
    let day = printer.date(sheet.made_at.0.date());
    let clock = printer.clock(sheet.made_at.0.time());
    let or_not = |text: &str| match text.trim() {
        "" => words.author_not_named.clone(),
        text => text.to_owned(),
    };
    let by = or_not(&shortened(&sheet.keeper_name));
    let notebook = shortened(&sheet.notebook);
    let [line, day_line] = [26, 14].map(|signs| "\\_".repeat(signs));
    let text = Pattern::new(TEXT).fill(&[
        ("notebook", &escaped(&notebook)),
        ("groups", &sheet.code_groups.len().to_string()),
        ("line", &line),
        ("day", &day_line),
    ]);
    let drawings = [(CODE.to_owned(), code::draw(&sheet.code_groups))].into();
    Ok(Document {
        title: TITLE.to_owned(),
        language: crate::Language::En.tag().to_owned(),
        author: by.clone(),
        subject: format!("The code that opens {notebook} when every passphrase is lost"),
        made_at: sheet.made_at.0,
        head: vec![
            Fact::new("", &notebook),
            Fact::new("Made on", format!("{day} at {clock}")),
            Fact::new("Made by", by),
        ],
        foot: format!("{TITLE} · {notebook} · {day} {clock}"),
        mark: None,
        demonstration: false,
        page: if sheet.page == Page::Wallet { Page::A4 } else { sheet.page },
        words: PageWords::default(),
        blocks: blocks::parse(&text, &drawings)?,
    })
}

/// Takes the middle out of a name that would not leave room for the rest of the page.
fn shortened(name: &str) -> String {
    let letters: Vec<char> = name.trim().chars().collect();
    if letters.len() <= NAME_LETTERS {
        return letters.into_iter().collect();
    }
    let half = NAME_LETTERS / 2;
    letters[..half].iter().chain(&['…']).chain(&letters[letters.len() - half..]).collect()
}
