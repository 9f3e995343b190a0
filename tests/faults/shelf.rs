//! What the faults share: how many are asked for, chance by a seed, a notebook, and one door for whoever watches the disk.

use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};

use evengap_case::{Case, CaseId, LocalTime};
use evengap_door::faults::{self, Faults};
use evengap_notebook::{Cost, Node, Notebook, Passphrase};
use serde_json::{Value, json};
use tempfile::TempDir;

pub const WORDS: &str = "four geese crossed the weir";

/// Tells whether all of them are asked for.
pub fn in_full() -> bool {
    std::env::var_os("EVENGAP_FAULTS").is_some_and(|asked| asked == "full")
}

/// The number of rounds: all of them, or few.
pub fn rounds(full: usize, short: usize) -> usize {
    if in_full() { full } else { short }
}

/// Chance that is the same every time (xorshift64*).
pub struct Chance(u64);

impl Chance {
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    /// A number below `limit`.
    pub fn below(&mut self, limit: usize) -> usize {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        usize::try_from((self.0.wrapping_mul(0x2545_F491_4F6C_DD1D) >> 33) % limit as u64).unwrap()
    }

    pub fn coin(&mut self) -> bool {
        self.below(2) == 1
    }
}

pub fn now() -> LocalTime {
    "2026-11-20T14:05".parse().unwrap()
}

pub fn passphrase() -> Passphrase {
    Passphrase::new(WORDS).unwrap()
}

pub fn file(folder: &TempDir) -> PathBuf {
    folder.path().join("knees.evengap")
}

pub fn create(path: &Path) -> Notebook {
    Notebook::create(path, &passphrase(), "Ms Orla Quill", Cost::LEAST, now()).unwrap()
}

#[track_caller]
pub fn open(path: &Path) -> Notebook {
    Notebook::open(path, &passphrase(), now()).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

pub fn id(n: usize) -> CaseId {
    format!("00000000-0000-4000-8000-{n:012}").parse().unwrap()
}

/// State `round` of case `n`: the number stands in three places far from each other, so that a half case shows.
pub fn state(n: usize, round: usize) -> Case {
    let value = json!({
        "format": "evengap-case/1",
        "id": id(n).to_string(),
        "patient": { "family_name": format!("Threlkeld{round}"), "hospital_number": format!("WT-{round}") },
        "choice": { "reason": format!("{} round {round}", "Bone on bone, and stiff since the winter. ".repeat(60)) },
        "visits": [{ "note": format!("{} round {round}", "Walks to the river and back. ".repeat(round % 97)) }],
    });
    evengap_case::read_value(value).unwrap().case
}

/// The round of a stored case; every part of it must say the same.
#[track_caller]
pub fn round_of(case: &Case, n: usize) -> usize {
    let name = case.patient.family_name.as_deref().unwrap_or_default();
    let round = name.trim_start_matches("Threlkeld").parse().unwrap_or_else(|_| panic!("“{name}” is no name of ours"));
    assert_eq!(case, &state(n, round), "no half case is ever read");
    round
}

/// Everything that a reader of a notebook can see, as text.
pub fn read_all(notebook: &Notebook) -> Result<Value, String> {
    let said = |error: evengap_notebook::NotebookError| error.to_string();
    let lines = notebook.list().map_err(said)?;
    let mut cases = Vec::new();
    for line in &lines {
        let id: CaseId = line.id.parse().map_err(|_| format!("“{}” is no identifier", line.id))?;
        let shown = notebook.show(id).map_err(said)?;
        let history: Vec<Node> = notebook.history(id).map_err(said)?.iter().map(|step| step.node).collect();
        cases.push(json!([
            shown.case.to_value(),
            shown.number,
            shown.by,
            shown.saved_at,
            shown.node.to_string(),
            history
        ]));
    }
    let found = notebook.find("threlkeld").map_err(said)?;
    Ok(json!({ "lines": lines, "cases": cases, "found": found, "people": notebook.people().map_err(said)? }))
}

/// Puts somebody between SQLite and the disk until it is let go. Only one at a time: it counts for the whole process.
pub struct Watch {
    _one: MutexGuard<'static, ()>,
}

impl Watch {
    pub fn new() -> Self {
        static ONE: Mutex<()> = Mutex::new(());
        Self { _one: ONE.lock().unwrap_or_else(PoisonError::into_inner) }
    }

    pub fn set(&self, faults: impl Faults + 'static) {
        faults::install(Some(Box::new(faults)));
    }

    pub fn clear(&self) {
        faults::install(None);
    }
}

impl Drop for Watch {
    fn drop(&mut self) {
        faults::install(None);
    }
}

/// The notebook's own word that nothing is missing or changed.
#[track_caller]
pub fn check_sound(notebook: &Notebook) {
    let said = notebook.verify().unwrap();
    assert!(said.problems.is_empty(), "{:?}", said.problems);
}

/// A program, built beside this test.
pub fn program(name: &str) -> PathBuf {
    let deps = std::env::current_exe().unwrap();
    let program = deps.parent().and_then(Path::parent).unwrap().join(name);
    assert!(program.exists(), "{} is missing; build it first", program.display());
    program
}
