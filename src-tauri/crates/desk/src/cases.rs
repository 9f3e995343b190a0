//! Cases: beginning, saving, showing, finding, reviewing, and reading them from files.

use std::path::{Path, PathBuf};

use evengap_case::{AddendumReading, Case, CaseId, LocalTime};
use evengap_notebook::{Added, CaseLine, Found as CasesFound, Signature, State};
use evengap_review::{Circumstances, Finding};
use serde::Serialize;
use serde_json::Value;
use ts_rs::TS;

use crate::signing::identifier;
use crate::{Desk, DeskError, Right};

/// An entry with how it stands in the notebook.
#[derive(Debug, Clone, PartialEq, Serialize, TS)]
pub struct Entry {
    /// The entry.
    pub case: Case,
    /// Draft or signed.
    pub state: State,
    /// Number of this version: 1 for a draft and for the signed entry that it becomes, 2 for the first addendum.
    pub number: u32,
    /// When it was last saved, `YYYY-MM-DDTHH:MM`; `null` for one that was begun and not saved yet.
    pub saved_at: Option<String>,
    /// Who signed it and when; `null` for a draft.
    pub signed: Option<Signature>,
    /// Fingerprint of what is stored, 64 hexadecimal digits; empty for an entry that was not saved yet.
    pub version: String,
}

/// What a save answers.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct Saved {
    /// `YYYY-MM-DDTHH:MM`.
    pub saved_at: String,
    /// Fingerprint of what is stored now; the next save says that it is based on it.
    pub version: String,
}

/// A case file that was read.
#[derive(Debug, Clone, PartialEq)]
pub struct FileRead {
    /// The file.
    pub path: PathBuf,
    /// The entry in it.
    pub case: Case,
    /// Paths of the keys that are kept but not known.
    pub unknown: Vec<String>,
}

impl FileRead {
    /// Says which keys were kept without being known, if there are any.
    pub fn not_known(&self) -> Option<String> {
        let names = self.unknown.join(", ");
        (!names.is_empty()).then(|| format!("{}: kept, not known: {names}", self.path.display()))
    }
}

/// What became of a case that was added to the notebook.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Addition {
    /// The case identifier (UUID).
    pub id: String,
    /// False when exactly this entry was there already.
    pub new: bool,
}

impl Desk {
    /// Finds cases by the words of a text; an empty text finds all, newest operation first.
    ///
    /// # Errors
    /// When no notebook is open, or it cannot be read.
    pub fn cases_find(&self, text: &str) -> Result<Vec<CaseLine>, DeskError> {
        let notebook = self.open_as(Right::ListCases)?;
        if self.may(Right::ReadEntries).is_ok() {
            return Ok(notebook.find(text)?);
        }
        // Finding by what stands in an entry would tell what stands in it: only what the line shows is searched.
        let words: Vec<String> = text.split_whitespace().map(str::to_lowercase).collect();
        let shows = |line: &CaseLine| {
            let shown = [&line.name, &line.hospital_number, &line.birth_date, &line.operation_date, &line.side];
            let shown = shown.map(|text| text.to_lowercase()).join(" ");
            words.iter().all(|word| shown.contains(word))
        };
        Ok(notebook.list()?.into_iter().filter(shows).collect())
    }

    /// Finds the newest cases by the words of a text, `most` of them at most; what is typed means the same.
    ///
    /// # Errors
    /// When no notebook is open, or it cannot be read.
    pub fn cases_find_newest(&self, text: &str, most: u32) -> Result<CasesFound, DeskError> {
        let notebook = self.open_as(Right::ListCases)?;
        if self.may(Right::ReadEntries).is_ok() {
            return Ok(notebook.find_newest(text, most)?);
        }
        let mut lines = self.cases_find(text)?;
        let most = usize::try_from(most).unwrap_or(usize::MAX);
        let more = lines.len() > most;
        lines.truncate(most);
        Ok(CasesFound { lines, more })
    }

    /// Begins an entry. Nothing is stored until its first save, so an entry left blank leaves no trace.
    ///
    /// # Errors
    /// When no notebook is open.
    pub fn case_new(&self, id: CaseId, now: LocalTime) -> Result<Entry, DeskError> {
        self.open_as(Right::WriteDrafts)?;
        let case = Case::new(id, now);
        Ok(Entry { case, state: State::Draft, number: 1, saved_at: None, signed: None, version: String::new() })
    }

    /// Shows an entry.
    ///
    /// # Errors
    /// When no notebook is open, or it holds no such entry.
    pub fn case_show(&self, id: &str) -> Result<Entry, DeskError> {
        let stored = self.open_as(Right::ReadEntries)?.show(identifier(id)?)?;
        Ok(Entry {
            case: stored.case,
            state: stored.state,
            number: stored.number,
            saved_at: Some(stored.saved_at),
            signed: stored.signed,
            version: stored.node.to_string(),
        })
    }

    /// Saves a draft: one committed transaction. `based_on` is [`Saved::version`] or [`Entry::version`] of what the writer
    /// began from; none for an entry that was not saved yet.
    ///
    /// # Errors
    /// When something else is stored meanwhile (`changed_meanwhile`), the entry cannot be read or is signed (`refused`), or no notebook is open.
    pub fn case_save(&mut self, case: Value, based_on: Option<&str>, now: LocalTime) -> Result<Saved, DeskError> {
        let notebook = self.open_to_write_as(Right::WriteDrafts)?;
        let based_on = based_on.filter(|version| !version.is_empty()).map(str::parse).transpose();
        let based_on = based_on.map_err(|error: evengap_notebook::NoNode| DeskError::failed(format!("{error}.")))?;
        let node = notebook.save(&evengap_case::read_value(case)?.case, based_on, now)?;
        Ok(Saved { saved_at: now.to_string(), version: node.to_string() })
    }

    /// Reviews an entry as it stands on the screen, saved or not.
    ///
    /// # Errors
    /// When the entry cannot be read (`refused`).
    pub fn case_review(&self, case: Value) -> Result<Vec<Finding>, DeskError> {
        self.may(Right::ReadEntries)?;
        let case = evengap_case::read_value(case)?.case;
        let companion = self.companion_of(&case);
        let circumstances = Circumstances {
            companion: companion.as_ref(),
            limits: &self.limits()?,
            separators: &self.scanner_separators()?,
        };
        Ok(evengap_review::review(&case, circumstances).findings)
    }

    /// Looks for the other knee of the sitting; one that is not in the notebook is no error.
    fn companion_of(&self, case: &Case) -> Option<Case> {
        let stored = self.notebook.as_ref()?.show(case.companion?).ok()?;
        Some(stored.case)
    }

    /// Reads a case file; keeps nothing.
    ///
    /// # Errors
    /// When the file cannot be read, or what it holds is no entry (`refused`); the sentences name the file.
    pub fn case_from_file(&self, path: &Path) -> Result<FileRead, DeskError> {
        let text = text_of(path, "a case file")?;
        let reading = evengap_case::read(&text).map_err(|refusal| in_file(path, refusal))?;
        Ok(FileRead { path: path.to_owned(), case: reading.case, unknown: reading.unknown })
    }

    /// Reads the file of an addendum to an entry; keeps nothing.
    ///
    /// # Errors
    /// When the file cannot be read, or what it holds is no addendum (`refused`); the sentences name the file.
    pub fn addendum_from_file(&self, path: &Path, before: &Case) -> Result<AddendumReading, DeskError> {
        let text = text_of(path, "an addendum file")?;
        evengap_case::read_addendum(&text, before).map_err(|refusal| in_file(path, refusal))
    }

    /// Adds entries to the notebook, each with the identifier that it gets if it has none: all or none.
    ///
    /// # Errors
    /// When another entry has the same identifier (`exists`), or no notebook is open.
    pub fn cases_add(&mut self, cases: Vec<(Case, CaseId)>, now: LocalTime) -> Result<Vec<Addition>, DeskError> {
        let added = self.open_to_write_as(Right::WriteDrafts)?.add_all(cases, now)?;
        Ok(added
            .into_iter()
            .map(|one| match one {
                Added::New(id) => Addition { id: id.to_string(), new: true },
                Added::AlreadyThere(id) => Addition { id: id.to_string(), new: false },
            })
            .collect())
    }
}

/// Reads a whole file as text; `wanted` names what it should be.
pub(crate) fn text_of(path: &Path, wanted: &str) -> Result<String, DeskError> {
    let bytes = std::fs::read(path).map_err(|error| unreadable(path, wanted, &error))?;
    let not_text = |_| DeskError::failed(format!("{}: this is not text in UTF-8; give {wanted}.", path.display()));
    String::from_utf8(bytes).map_err(not_text)
}

fn unreadable(path: &Path, wanted: &str, error: &std::io::Error) -> DeskError {
    let path_shown = path.display();
    DeskError::failed(match error.kind() {
        std::io::ErrorKind::NotFound => format!("There is no file {path_shown}. Check the name and the folder."),
        std::io::ErrorKind::IsADirectory => format!("{path_shown} is a folder; give {wanted} in it."),
        std::io::ErrorKind::PermissionDenied => format!("{path_shown} may not be read; allow reading it."),
        _ => format!("{path_shown} cannot be read: {error}."),
    })
}

fn in_file(path: &Path, refusal: evengap_case::Refusal) -> DeskError {
    let error = DeskError::from(refusal);
    DeskError { message: naming_each_line(path, &error.message), ..error }
}

fn naming_each_line(path: &Path, sentences: &str) -> String {
    sentences.lines().map(|line| format!("{}: {line}", path.display())).collect::<Vec<_>>().join("\n")
}
