//! What every test stands on: a folder, a passphrase, a clock that stands still, and short cases.

use std::path::{Path, PathBuf};

use evengap_case::{Case, CaseId, LocalTime};
use evengap_notebook::{Notebook, Passphrase};
use rusqlite::Connection;
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
        let mut notebook = Notebook::create(&self.file(), &passphrase(), "Ms Orla Quill", at("08:00")).unwrap();
        let cases = cases.into_iter().map(|case| (case, CaseId::default())).collect();
        notebook.add_all(cases, at("08:00")).unwrap();
        notebook
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

/// The file through the database itself, past the notebook's own door.
pub fn past_the_door(path: &Path) -> Connection {
    let connection = Connection::open(path).unwrap();
    connection.pragma_update(None, "key", WORDS).unwrap();
    connection
}
