//! What can be asked for on the command line.

mod notebook;

use std::path::PathBuf;

use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{Args, Parser, Subcommand, ValueEnum};
use evengap_case::LocalTime;
use evengap_desk::{PageSize, PaperKind, PaperLanguage};

pub use notebook::{NewPassphrase, NotebookAct, NotebookFile};

/// Writes a knee operation down once, says what is missing, and makes the papers.
///
/// Ends with 0 when all is well, with 1 when a finding blocks or a paper is unfinished, and with 2 when
/// something was asked or given wrongly.
#[derive(Parser)]
#[command(name = "evengap", version, max_term_width = 100)]
pub struct Arguments {
    /// Answer in JSON, errors too
    // A text, because `reckon` has an argument of the same name that takes one; clap shares what is global.
    #[arg(long, global = true, num_args = 0, default_missing_value = "")]
    pub json: Option<String>,
    /// Take this for the present time, so that papers come out the same again
    #[arg(long, global = true, value_name = "YYYY-MM-DDTHH:MM")]
    pub at: Option<LocalTime>,
    #[command(subcommand)]
    pub verb: Verb,
}

#[derive(Subcommand)]
pub enum Verb {
    /// Write every paper of the invented demonstration cases
    Demo {
        /// Folder to write into; it is made if needed
        #[arg(long, value_name = "DIR")]
        to: PathBuf,
    },
    /// Make a paper from a case file, or of several
    Paper(Paper),
    /// Look at the templates of papers, and check one's own
    Template {
        #[command(subcommand)]
        act: TemplateAct,
    },
    /// Say what is missing or odd in a case file
    Review {
        /// Case file (JSON)
        case: PathBuf,
    },
    /// Print the JSON Schema of a case file
    Schema,
    /// Compute one reckoning from named inputs, or list them all
    Reckon(Reckon),
    /// Print the source of every formula and limit
    Sources,
    /// Read the scan of a component label; several scans of one label are joined
    Label(Scans),
    /// Work in an encrypted notebook; the passphrase is asked for, or read from standard input. Roles hold here as in the
    /// window
    Notebook {
        #[command(subcommand)]
        act: NotebookAct,
    },
}

#[derive(Args)]
pub struct Paper {
    /// Which paper
    #[arg(value_parser = kind())]
    pub kind: PaperKind,
    /// Case file (JSON); several need a folder, or one PDF for all
    #[arg(required = true, value_name = "CASE")]
    pub cases: Vec<PathBuf>,
    /// File to write, ending in .pdf, .md, .txt or .html, or a folder for PDFs; without it the paper is printed as
    /// Markdown
    #[arg(long, value_name = "FILE|DIR")]
    pub to: Option<PathBuf>,
    /// Language of the paper; the discharge letter has all of them
    #[arg(long, value_parser = language(), default_value = "en")]
    pub language: PaperLanguage,
    /// Size of the PDF's pages; a wallet card is for the component record
    #[arg(long, value_enum, default_value = "a4")]
    pub page: Page,
    /// Own template (Markdown) in place of the built-in one; it is checked first
    #[arg(long, value_name = "FILE.md")]
    pub template: Option<PathBuf>,
    /// What the paper `addendum` adds: { "text", "by", "at", "values": JSON merge patch on the case }
    #[arg(long, value_name = "FILE.json")]
    pub addendum: Option<PathBuf>,
    /// Who makes the paper
    #[arg(long, value_name = "NAME")]
    pub author: Option<String>,
    /// Replace files that exist
    #[arg(long, requires = "to")]
    pub replace: bool,
}

#[derive(Args)]
pub struct Reckon {
    /// Which reckoning
    #[arg(conflicts_with = "list")]
    pub name: Option<String>,
    /// The inputs as a JSON object, or - to read them from standard input
    #[arg(long, num_args = 0..=1, default_missing_value = "", value_name = "INPUTS")]
    pub json: Option<String>,
    /// List every reckoning with its inputs, units and sources
    #[arg(long)]
    pub list: bool,
}

#[derive(Args)]
pub struct Scans {
    /// What the scanner sent, or - to read it from standard input
    #[arg(required = true, value_name = "SCAN")]
    pub scans: Vec<String>,
    /// What this scanner sends between two elements instead of ASCII 29; may be given more than once
    #[arg(long = "separator", value_name = "TEXT")]
    pub separators: Vec<String>,
}

#[derive(Clone, Copy, ValueEnum)]
pub enum Page {
    A4,
    Letter,
    Wallet,
}

impl From<Page> for PageSize {
    fn from(page: Page) -> Self {
        match page {
            Page::A4 => Self::A4,
            Page::Letter => Self::Letter,
            Page::Wallet => Self::Wallet,
        }
    }
}

#[derive(Subcommand)]
pub enum TemplateAct {
    /// Check a template on every demonstration case; ends with 1 when it has flaws
    Check {
        /// Which paper it is for
        #[arg(value_parser = kind())]
        kind: PaperKind,
        /// Template (Markdown)
        file: PathBuf,
        /// Language of the paper
        #[arg(long, value_parser = language(), default_value = "en")]
        language: PaperLanguage,
    },
    /// List every name that a template may use, with its meaning
    Names {
        /// Which paper it is for
        #[arg(value_parser = kind())]
        kind: PaperKind,
        /// Case file (JSON) to take examples from
        #[arg(long, value_name = "CASE")]
        case: Option<PathBuf>,
    },
    /// Print the built-in template, to start one's own from
    Show {
        /// Which paper it is for
        #[arg(value_parser = kind())]
        kind: PaperKind,
        /// Language of the paper
        #[arg(long, value_parser = language(), default_value = "en")]
        language: PaperLanguage,
    },
}

fn kind() -> impl TypedValueParser<Value = PaperKind> {
    PossibleValuesParser::new(PaperKind::ALL.map(PaperKind::name)).try_map(|name| {
        PaperKind::ALL.into_iter().find(|kind| kind.name() == name).ok_or_else(|| format!("{name} is no paper"))
    })
}

fn language() -> impl TypedValueParser<Value = PaperLanguage> {
    PossibleValuesParser::new(PaperLanguage::ALL.map(PaperLanguage::code)).try_map(|code| {
        PaperLanguage::ALL
            .into_iter()
            .find(|language| language.code() == code)
            .ok_or_else(|| format!("{code} is no language of a paper"))
    })
}
