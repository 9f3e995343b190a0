//! What can be asked for on the command line.

use std::path::PathBuf;

use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{Args, Parser, Subcommand, ValueEnum};
use evengap_case::LocalTime;
use evengap_desk::{PageSize, PaperKind};

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
    /// Make a paper from a case file
    Paper(Paper),
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
    /// Work in an encrypted notebook; the passphrase is asked for, or read from standard input
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
    /// Case file (JSON)
    pub case: PathBuf,
    /// File to write, ending in .pdf, .md, .txt or .html; without it the paper is printed as Markdown
    #[arg(long, value_name = "FILE")]
    pub to: Option<PathBuf>,
    /// Size of the PDF's pages
    #[arg(long, value_enum, default_value = "a4")]
    pub page: Page,
    /// Who makes the paper
    #[arg(long, value_name = "NAME")]
    pub author: Option<String>,
    /// Replace the file if it exists
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
}

impl From<Page> for PageSize {
    fn from(page: Page) -> Self {
        match page {
            Page::A4 => Self::A4,
            Page::Letter => Self::Letter,
        }
    }
}

#[derive(Subcommand)]
pub enum NotebookAct {
    /// Make a new, empty notebook
    New {
        #[command(flatten)]
        notebook: NotebookFile,
        /// Who writes in it
        #[arg(long, value_name = "NAME")]
        writer: String,
    },
    /// Add case files: all of them or none
    Add {
        #[command(flatten)]
        notebook: NotebookFile,
        /// Case files (JSON)
        #[arg(required = true)]
        cases: Vec<PathBuf>,
    },
    /// List every case, newest operation first
    List {
        #[command(flatten)]
        notebook: NotebookFile,
    },
    /// List the cases that hold every word (beginnings are enough): names, numbers, dates, lots, texts
    Find {
        #[command(flatten)]
        notebook: NotebookFile,
        /// Words, in any order
        #[arg(required = true)]
        words: Vec<String>,
    },
    /// Print one entry as a case file
    Show {
        #[command(flatten)]
        notebook: NotebookFile,
        /// Case identifier (UUID)
        id: String,
    },
}

#[derive(Args)]
pub struct NotebookFile {
    /// Notebook (.evengap)
    #[arg(value_name = "FILE")]
    pub path: PathBuf,
    /// File whose first line is the passphrase
    #[arg(long, value_name = "FILE")]
    pub passphrase_file: Option<PathBuf>,
}

fn kind() -> impl TypedValueParser<Value = PaperKind> {
    PossibleValuesParser::new(PaperKind::ALL.map(PaperKind::name)).try_map(|name| {
        PaperKind::ALL.into_iter().find(|kind| kind.name() == name).ok_or_else(|| format!("{name} is no paper"))
    })
}
