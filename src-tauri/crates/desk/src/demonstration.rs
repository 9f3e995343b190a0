//! The demonstration: invented cases that are built in, as a notebook and as papers.

use std::path::Path;

use evengap_case::{Case, CaseId, LocalTime};
use evengap_notebook::{Notebook, Passphrase};
use serde::Serialize;

use crate::{Desk, DeskError, NotebookState, PageSize, PaperAsked, PaperFormat, PaperKind, files};

/// Opens the demonstration, which holds invented people only. It protects nothing and is no secret.
const PASSPHRASE: &str = "demonstration";

/// Who writes in the demonstration.
const WRITER: &str = "Ms Maren Oakshott";

const FILE_NAME: &str = "demonstration.evengap";

macro_rules! demo_cases {
    ($($name:literal),* $(,)?) => {
        &[$(($name, include_str!(concat!("../../../../demo-cases/", $name, ".json")))),*]
    };
}

/// Every built-in case: the name of its file and what is in it.
const CASES: &[(&str, &str)] = demo_cases![
    "both-knees-left",
    "both-knees-right",
    "fracture-during-operation",
    "half-filled-draft",
    "infected-revision-first-stage",
    "kneecap-joint",
    "lateral-part",
    "medial-part",
    "stiff-valgus-knee",
    "whole-knee-cemented",
    "whole-knee-cementless",
];

/// One paper of the demonstration that was written.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct DemoPaper {
    /// The file.
    pub path: String,
    /// Why the paper cannot be finished; empty when it can.
    pub unfinished: Vec<String>,
}

impl Desk {
    /// Gives the demonstration's cases with the names of their files, in the order of those.
    ///
    /// # Errors
    /// When one of them is no entry, which the tests rule out.
    pub fn demo_cases(&self) -> Result<Vec<(&'static str, Case)>, DeskError> {
        CASES.iter().map(|(name, json)| Ok((*name, evengap_case::read(json)?.case))).collect()
    }

    /// Opens the demonstration notebook in a folder of the program's own, making it first where needed.
    ///
    /// Built-in cases that it does not hold are added, so one that was left half made is completed; what
    /// somebody changed in it stays.
    ///
    /// # Errors
    /// When the folder cannot be written, or the file in it is damaged or of a newer program.
    pub fn notebook_open_demonstration(&mut self, data_dir: &Path, now: LocalTime) -> Result<NotebookState, DeskError> {
        let path = data_dir.join(FILE_NAME);
        let passphrase = Passphrase::new(PASSPHRASE)?;
        let mut notebook = if path.exists() {
            Notebook::open(&path, &passphrase)?
        } else {
            files::make_folder(data_dir)?;
            Notebook::create(&path, &passphrase, WRITER, now)?
        };
        if !notebook.is_demonstration() {
            notebook.mark_demonstration()?;
        }
        let held: Vec<String> = notebook.list()?.into_iter().map(|line| line.id).collect();
        let lacking: Vec<(Case, CaseId)> = self
            .demo_cases()?
            .into_iter()
            .filter(|(_, case)| !held.contains(&case.id.to_string()))
            .map(|(_, case)| (case, CaseId::default()))
            .collect();
        if !lacking.is_empty() {
            notebook.add_all(lacking, now)?;
        }
        self.take(notebook)
    }

    /// Writes both papers of every demonstration case in every form, one folder per case.
    ///
    /// Files of an earlier run are replaced.
    ///
    /// # Errors
    /// When the folder cannot be written.
    pub fn demo_write(&self, dir: &Path, now: LocalTime) -> Result<Vec<DemoPaper>, DeskError> {
        let mut written = Vec::new();
        for (name, case) in self.demo_cases()? {
            let folder = dir.join(name);
            files::make_folder(&folder)?;
            for kind in PaperKind::ALL {
                for format in PaperFormat::ALL {
                    let asked = PaperAsked {
                        case: case.to_value(),
                        kind,
                        page: PageSize::A4,
                        author: Some(WRITER.to_owned()),
                        demonstration: true,
                    };
                    let to = folder.join(format!("{}.{}", kind.name(), format.ending()));
                    let exported = self.paper_export(asked, format, &to, true, now)?;
                    written.push(DemoPaper { path: exported.path, unfinished: exported.unfinished });
                }
            }
        }
        Ok(written)
    }
}
