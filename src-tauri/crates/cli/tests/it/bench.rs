//! Running the program in a folder of its own.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use serde_json::{Value, json};
use tempfile::TempDir;

/// The passphrase of every notebook in these tests.
pub const WORDS: &str = "open sesame, said the book";

pub struct Bench {
    folder: TempDir,
}

/// What one run left.
#[derive(Debug)]
pub struct Run {
    pub code: i32,
    pub out: String,
    pub err: String,
}

impl Run {
    /// Expects an exit code; shows everything if it is another.
    #[track_caller]
    pub fn expect(self, code: i32) -> Self {
        assert_eq!(self.code, code, "exit code of {self:?}");
        self
    }

    pub fn json(&self) -> Value {
        serde_json::from_str(&self.out).unwrap_or_else(|error| panic!("{error} in {self:?}"))
    }
}

impl Bench {
    pub fn new() -> Self {
        Self { folder: TempDir::new().unwrap() }
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    pub fn write(&self, name: &str, content: impl AsRef<[u8]>) -> PathBuf {
        std::fs::write(self.path(name), content).unwrap();
        self.path(name)
    }

    /// Writes a small case file, changed as asked.
    pub fn case(&self, name: &str, change: impl FnOnce(&mut Value)) -> PathBuf {
        let mut case = json!({
            "format": "evengap-case/1",
            "id": "7d5a0c9e-30a4-4c43-9c39-1f5d2f3a9b10",
            "patient": { "family_name": "Threlkeld", "given_name": "Mavis" },
            "setting": { "operation_date": "2026-03-04" },
            "knee": { "side": "left" },
            "discharge": { "contact_phone": "+44 1632 960999" },
        });
        change(&mut case);
        self.write(name, case.to_string())
    }

    /// Runs the program in the folder, with the passphrase and more on standard input.
    pub fn run_with(&self, arguments: &[&str], input: &str) -> Run {
        let mut child = self.command(arguments).spawn().unwrap();
        // A program that refuses before it reads closes its end; that is no failure of the test.
        let _ = child.stdin.take().unwrap().write_all(input.as_bytes());
        let output = child.wait_with_output().unwrap();
        Run {
            code: output.status.code().unwrap(),
            out: String::from_utf8(output.stdout).unwrap(),
            err: String::from_utf8(output.stderr).unwrap(),
        }
    }

    pub fn run(&self, arguments: &[&str]) -> Run {
        self.run_with(arguments, &format!("{WORDS}\n"))
    }

    pub fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_evengap"));
        command.current_dir(self.folder.path()).args(["--at", "2026-06-30T08:00"]).args(arguments);
        command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
        command
    }

    /// Every file in the folder with its bytes, sorted by name.
    pub fn everything(&self) -> Vec<(PathBuf, Vec<u8>)> {
        let mut files: Vec<_> = std::fs::read_dir(self.folder.path())
            .unwrap()
            .map(|entry| entry.unwrap().path())
            .filter(|path| path.is_file())
            .map(|path| (path.clone(), std::fs::read(&path).unwrap()))
            .collect();
        files.sort();
        files
    }
}

/// The folder of the invented cases.
pub fn demo_case(name: &str) -> String {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../demo-cases");
    folder.join(name).canonicalize().unwrap().display().to_string()
}
