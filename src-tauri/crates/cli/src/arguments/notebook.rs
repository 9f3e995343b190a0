//! What can be asked for in a notebook.

use std::path::PathBuf;

use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{Args, Subcommand, ValueEnum};
use evengap_desk::{Keep, PaperKind, PaperLanguage, Role};

use super::{Page, kind, language};

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
    /// Sign an entry in the name of whoever opens the notebook; its operative note is kept as it is made now
    Sign {
        #[command(flatten)]
        notebook: NotebookFile,
        /// Case identifier (UUID)
        id: String,
        /// Findings in spite of which it is signed: [{ "rule", "paths": […], "reason" }], as `review --json` names them
        #[arg(long, value_name = "FILE.json")]
        overrides: Option<PathBuf>,
    },
    /// Print who changed what in an entry, the newest first
    History {
        #[command(flatten)]
        notebook: NotebookFile,
        /// Case identifier (UUID)
        id: String,
    },
    /// Put a paper of a case into a file; those of the clinic can make letters and the component record
    Print {
        #[command(flatten)]
        notebook: NotebookFile,
        /// Which paper
        #[arg(value_parser = kind())]
        kind: PaperKind,
        /// Case identifier (UUID)
        id: String,
        /// File to write, ending in .pdf, .md, .txt or .html
        #[arg(long, value_name = "FILE")]
        to: PathBuf,
        /// Language of the paper
        #[arg(long, value_parser = language(), default_value = "en")]
        language: PaperLanguage,
        /// Size of the PDF's pages
        #[arg(long, value_enum, default_value = "a4")]
        page: Page,
        /// Which addendum, 1 for the first
        #[arg(long, value_name = "NUMBER")]
        number: Option<u32>,
        /// Replace a file that exists
        #[arg(long)]
        replace: bool,
    },
    /// Check the whole notebook; ends with 1 when something in it is not as it was written
    Verify {
        #[command(flatten)]
        notebook: NotebookFile,
    },
    /// Write a backup: one encrypted file that the same passphrases open
    BackUp {
        #[command(flatten)]
        notebook: NotebookFile,
        /// File to write; without it a new one in the notebook's folder for backups
        #[arg(long, value_name = "FILE")]
        to: Option<PathBuf>,
        /// Replace a file that exists
        #[arg(long, requires = "to")]
        replace: bool,
    },
    /// Make a new notebook of a backup
    Restore {
        #[command(flatten)]
        notebook: NotebookFile,
        /// New notebook (.evengap); never one that exists
        #[arg(long, value_name = "FILE")]
        to: PathBuf,
    },
    /// List who can open the notebook, and who could
    People {
        #[command(flatten)]
        notebook: NotebookFile,
    },
    /// Let somebody else open the notebook
    PersonAdd {
        #[command(flatten)]
        notebook: NotebookFile,
        /// The person's name
        name: String,
        /// What the person may do
        #[arg(long, value_parser = role())]
        role: Role,
        /// Let them look after the notebook as well
        #[arg(long)]
        keeper: bool,
        #[command(flatten)]
        fresh: NewPassphrase,
    },
    /// Give somebody another role
    PersonChange {
        #[command(flatten)]
        notebook: NotebookFile,
        /// Name or mark of the person
        person: String,
        /// What the person may do
        #[arg(long, value_parser = role())]
        role: Role,
        /// Let them look after the notebook as well
        #[arg(long)]
        keeper: bool,
    },
    /// Let somebody no longer open the notebook; what they wrote stays
    PersonRemove {
        #[command(flatten)]
        notebook: NotebookFile,
        /// Name or mark of the person
        person: String,
    },
    /// Change one's own passphrase, or, as a keeper, give somebody a new one
    Passphrase {
        #[command(flatten)]
        notebook: NotebookFile,
        /// Name or mark of the person who forgot theirs; without it one's own is changed
        #[arg(long = "for", value_name = "PERSON")]
        person: Option<String>,
        #[command(flatten)]
        fresh: NewPassphrase,
    },
    /// Make a new recovery sheet (PDF); the one before stops working
    RecoverySheet {
        #[command(flatten)]
        notebook: NotebookFile,
        /// File to write, ending in .pdf
        #[arg(long, value_name = "FILE")]
        to: PathBuf,
        /// Size of the page
        #[arg(long, value_enum, default_value = "a4")]
        page: Page,
        /// Replace a file that exists
        #[arg(long)]
        replace: bool,
    },
    /// Write cases into an encrypted file for another notebook
    Send {
        #[command(flatten)]
        notebook: NotebookFile,
        /// File to write
        #[arg(long, value_name = "FILE")]
        to: PathBuf,
        /// Case identifiers (UUID); all cases without any
        #[arg(long = "case", value_name = "ID")]
        cases: Vec<String>,
        #[command(flatten)]
        fresh: NewPassphrase,
        /// Replace a file that exists
        #[arg(long)]
        replace: bool,
    },
    /// Take in the cases of such a file; ends with 1 when some of them went two ways
    Receive {
        #[command(flatten)]
        notebook: NotebookFile,
        /// File that another notebook wrote
        from: PathBuf,
        #[command(flatten)]
        fresh: NewPassphrase,
    },
    /// List the cases that went two ways, or show what differs in one of them
    Conflicts {
        #[command(flatten)]
        notebook: NotebookFile,
        /// Number of the conflict to show
        number: Option<i64>,
    },
    /// Settle a conflict; both versions stay in the history
    Settle {
        #[command(flatten)]
        notebook: NotebookFile,
        /// Number of the conflict
        number: i64,
        /// Which version goes on
        #[arg(long, value_enum)]
        keep: Which,
    },
}

#[derive(Clone, Copy, ValueEnum)]
pub enum Which {
    Ours,
    Theirs,
}

impl From<Which> for Keep {
    fn from(which: Which) -> Self {
        match which {
            Which::Ours => Self::Ours,
            Which::Theirs => Self::Theirs,
        }
    }
}

/// The other passphrase of an act that takes two. From standard input it is the second line.
#[derive(Args)]
pub struct NewPassphrase {
    /// File whose first line is the new passphrase, or that of the exchange file
    #[arg(long = "new-passphrase-file", value_name = "FILE")]
    pub file: Option<PathBuf>,
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

fn role() -> impl TypedValueParser<Value = Role> {
    PossibleValuesParser::new(Role::ALL.map(Role::code))
        .try_map(|code| Role::of(&code).ok_or_else(|| format!("{code} is no role")))
}
