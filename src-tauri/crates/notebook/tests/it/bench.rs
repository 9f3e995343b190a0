//! What every test stands on: a folder, a passphrase, a clock that stands still, and short cases.

use std::path::{Path, PathBuf};

use evengap_case::{Case, CaseId, LocalTime};
use evengap_door::Door;
use evengap_notebook::{Cost, NewPaper, Node, Notebook, NotebookError, Passphrase};
use rusqlite::{Connection, OpenFlags};
use serde_json::{Value, json};
use tempfile::TempDir;
use uuid::Uuid;

/// The passphrase of every notebook in the tests; the quote and the letters are there on purpose.
pub const WORDS: &str = "Sechs Frösche's quaken \"leise\"";

pub struct Bench {
    folder: TempDir,
}

impl Bench {
    pub fn new() -> Self {
        Self { folder: TempDir::new().unwrap() }
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    pub fn file(&self) -> PathBuf {
        self.path("knees.evengap")
    }

    /// A new notebook with the given cases in it.
    pub fn notebook(&self, cases: impl IntoIterator<Item = Case>) -> Notebook {
        let mut notebook = create(&self.file()).unwrap();
        let cases = cases.into_iter().map(|case| (case, CaseId::default())).collect();
        notebook.add_all(cases, at("08:00")).unwrap();
        notebook
    }

    /// Opens the notebook again.
    pub fn open(&self, words: &str) -> Result<Notebook, NotebookError> {
        Notebook::open(&self.file(), &Passphrase::new(words).unwrap(), at("12:00"))
    }

    /// Every file in the folder with its bytes, sorted by name.
    pub fn everything(&self) -> Vec<(PathBuf, Vec<u8>)> {
        let mut files: Vec<_> = std::fs::read_dir(self.folder.path())
            .unwrap()
            .map(|entry| entry.unwrap().path())
            .map(|path| (path.clone(), std::fs::read(&path).unwrap()))
            .collect();
        files.sort();
        files
    }
}

pub fn passphrase() -> Passphrase {
    Passphrase::new(WORDS).unwrap()
}

/// A time on the day of all tests.
pub fn at(clock: &str) -> LocalTime {
    format!("2026-06-30T{clock}").parse().unwrap()
}

/// The identifier number `n`.
pub fn id(n: u128) -> CaseId {
    CaseId(Uuid::from_u128(n))
}

/// A case from JSON; `format` and `id` are added.
pub fn case(n: u128, mut sections: Value) -> Case {
    sections["format"] = json!("evengap-case/1");
    sections["id"] = json!(id(n).to_string());
    evengap_case::read_value(sections).unwrap().case
}

/// A case that has a name only.
pub fn named(n: u128, given: &str, family: &str) -> Case {
    case(n, json!({ "patient": { "given_name": given, "family_name": family } }))
}

/// A new notebook whose passphrase costs next to nothing.
pub fn create(path: &Path) -> Result<Notebook, NotebookError> {
    Notebook::create(path, &passphrase(), "Ms Orla Quill", Cost::LEAST, at("08:00"))
}

/// The pages through the database itself, past everything that the notebook checks.
pub fn past_the_door(path: &Path) -> Connection {
    let unlocked = Door::read(path).unwrap().unlock(WORDS).unwrap().unwrap();
    evengap_door::connect(path, OpenFlags::SQLITE_OPEN_READ_WRITE, &unlocked.key).unwrap()
}

/// A file of the older layout: no door, and the passphrase is the key of the pages.
pub fn older(path: &Path) -> Connection {
    let connection = Connection::open(path).unwrap();
    connection.pragma_update(None, "key", WORDS).unwrap();
    connection
}

/// Saves a case as somebody does who began from what is stored.
pub fn save(notebook: &mut Notebook, case: &Case, now: LocalTime) -> Result<Node, NotebookError> {
    let head = notebook.head(case.id).unwrap();
    notebook.save(case, head, now)
}

/// Signs a case as it was looked at.
pub fn sign(notebook: &mut Notebook, case: &Case, papers: &[NewPaper], now: LocalTime) -> Result<Node, NotebookError> {
    let node = notebook.node_when_signed(case, now)?;
    notebook.sign(case, case, node, papers, now)
}
