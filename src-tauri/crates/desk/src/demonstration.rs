//! The demonstration: invented cases that are built in, as a notebook and as papers.

use std::path::Path;

use evengap_case::{AddendumReading, Case, CaseId, LocalTime};
use evengap_notebook::{Cost, Notebook, Passphrase, Role, State};
use serde::Serialize;

use crate::{
    Addendum, AddendumAsked, Desk, DeskError, ErrorCode, NotebookState, PageSize, PaperAsked, PaperFormat, PaperKind,
    PaperLanguage, files,
};

/// Opens the demonstration, which holds invented people only. It protects nothing and is no secret.
const PASSPHRASE: &str = "demonstration";

/// Who signs in the demonstration, and keeps it.
const WRITER: &str = "Ms Maren Oakshott";

/// Who else can open it, so that roles can be looked at. Their passphrases are no secrets either.
const OTHERS: [DemoPerson; 2] = [
    DemoPerson { name: "Mr Tobias Fennimore", role: Role::Registrar, passphrase: "demonstration registrar" },
    DemoPerson { name: "Ilka Brandvold", role: Role::Clinic, passphrase: "demonstration clinic" },
];

/// The case that the registrar began and the surgeon finished.
const BY_TWO: &str = "whole-knee-cemented";

/// When the registrar saved it, with the sections that were there by then.
const STEPS: [(&str, &[&str]); 3] = [
    ("2026-11-03T16:10", &["format", "id", "companion", "created_at", "patient", "setting", "team", "knee", "choice"]),
    ("2026-11-03T16:35", &["times", "anaesthesia", "approach", "cuts", "balance", "components"]),
    ("2026-11-03T16:50", &["cement", "closing", "events", "none_recorded"]),
];

/// When the surgeon saved the rest.
const FINISHED_AT: &str = "2026-11-03T17:20";

/// Somebody who can open the demonstration.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct DemoPerson {
    /// The invented name.
    pub name: &'static str,
    /// The role.
    pub role: Role,
    /// The passphrase, which is no secret.
    pub passphrase: &'static str,
}

const FILE_NAME: &str = "demonstration.evengap";

macro_rules! demo_cases {
    ($($name:literal),* $(,)?) => {
        &[$(DemoCase {
            name: $name,
            case: include_str!(concat!("../../../../demo-cases/", $name, ".json")),
            addendum: include_str!(concat!("../../../../demo-cases/addenda/", $name, ".json")),
        }),*]
    };
}

/// A built-in case: the name of its files and what is in them.
struct DemoCase {
    name: &'static str,
    case: &'static str,
    addendum: &'static str,
}

/// Every built-in case.
const CASES: &[DemoCase] = demo_cases![
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

/// The cases that are signed in the demonstration notebook; whether their addendum is in it.
const SIGNED: [(&str, bool); 2] = [("whole-knee-cemented", true), ("whole-knee-cementless", false)];

/// When they were signed: after everything that is recorded in them, before every addendum.
const SIGNED_AT: &str = "2026-11-03T17:30";

/// Nobody could sign this one: its addendum is written all the same, and says that it is not finished.
const UNSIGNED: &str = "half-filled-draft";

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
        CASES.iter().map(|demo| Ok((demo.name, evengap_case::read(demo.case)?.case))).collect()
    }

    /// Gives each of the demonstration's cases with the addendum that belongs to it.
    ///
    /// # Errors
    /// When one of them is none, which the tests rule out.
    pub fn demo_addenda(&self) -> Result<Vec<(&'static str, AddendumReading)>, DeskError> {
        let read = |demo: &DemoCase| {
            let before = evengap_case::read(demo.case)?.case;
            Ok((demo.name, evengap_case::read_addendum(demo.addendum, &before)?))
        };
        CASES.iter().map(read).collect()
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
            Notebook::open(&path, &passphrase, now)?
        } else {
            files::make_folder(data_dir)?;
            // It protects nothing, so trying passphrases on it may be quick.
            Notebook::create(&path, &passphrase, WRITER, Cost::LEAST, now)?
        };
        if !notebook.is_demonstration() {
            notebook.mark_demonstration()?;
        }
        let known = notebook.people()?;
        for DemoPerson { name, role, passphrase } in OTHERS {
            if !known.iter().any(|line| line.name == name) {
                notebook.add_person(name, role, false, &Passphrase::new(passphrase)?, now)?;
            }
        }
        self.write_by_two(&mut notebook)?;
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
        self.take(notebook, now)?;
        self.sign_demonstration()?;
        self.notebook_current(now)?.ok_or_else(DeskError::not_open)
    }

    /// Gives those who can open the demonstration, with their passphrases.
    pub fn demo_people(&self) -> Vec<DemoPerson> {
        let surgeon = DemoPerson { name: WRITER, role: Role::Surgeon, passphrase: PASSPHRASE };
        [surgeon].into_iter().chain(OTHERS).collect()
    }

    /// Lets the registrar begin one case and the surgeon finish it, so that a history by two people can be looked at.
    fn write_by_two(&self, notebook: &mut Notebook) -> Result<(), DeskError> {
        let cases = self.demo_cases()?;
        let Some((_, case)) = cases.into_iter().find(|(name, _)| *name == BY_TWO) else { return Ok(()) };
        if notebook.head(case.id)?.is_some() {
            return Ok(());
        }
        let whole = case.to_value();
        let mut begun = serde_json::Map::new();
        let mut head = None;
        {
            let (registrar, opened_at) = (Passphrase::new(OTHERS[0].passphrase)?, time(STEPS[0].0)?);
            let mut as_registrar = Notebook::open(notebook.path(), &registrar, opened_at)?;
            for (at, sections) in STEPS {
                for section in sections {
                    begun.extend(whole.get(section).map(|answers| ((*section).to_owned(), answers.clone())));
                }
                let state = evengap_case::read_value(begun.clone().into())?.case;
                head = Some(as_registrar.save(&state, head, time(at)?)?);
            }
        }
        notebook.save(&case, head, time(FINISHED_AT)?)?;
        Ok(())
    }

    /// Signs some of the cases, so that signed entries and an addendum can be looked at; those that somebody changed
    /// stay as they are.
    fn sign_demonstration(&mut self) -> Result<(), DeskError> {
        for (name, case) in self.demo_cases()? {
            let Some((_, added)) = SIGNED.iter().find(|(signed, _)| *signed == name) else { continue };
            let stored = self.open()?.show(case.id)?;
            if stored.state == State::Draft && stored.case == case {
                match self.case_sign(case.to_value(), &[], signed_at()?) {
                    // Limits that somebody set in this notebook may stand against it; it opens all the same.
                    // Nor does somebody have to be a surgeon any more.
                    Err(error) if matches!(error.code, ErrorCode::Refused | ErrorCode::NotAllowed) => continue,
                    signed => signed.map(drop)?,
                }
            }
            let stored = self.open()?.show(case.id)?;
            if *added && stored.state == State::Signed && stored.case == case && stored.number == 1 {
                let addenda = self.demo_addenda()?;
                if let Some((_, addendum)) = addenda.into_iter().find(|(of, _)| *of == name) {
                    match self.case_addendum(addendum.case.to_value(), &addendum.text, stored.number, addendum.at) {
                        // Somebody signed it at another time, or set limits that stand against it.
                        Err(error) if matches!(error.code, ErrorCode::Refused | ErrorCode::NotAllowed) => continue,
                        added => added.map(drop)?,
                    }
                }
            }
        }
        Ok(())
    }

    /// Writes every paper of every demonstration case in every language, sheet and form, one folder per case.
    ///
    /// Files of an earlier run are replaced.
    ///
    /// # Errors
    /// When the folder cannot be written.
    pub fn demo_write(&mut self, dir: &Path, now: LocalTime) -> Result<Vec<DemoPaper>, DeskError> {
        let mut written = Vec::new();
        let cases = self.demo_cases()?.into_iter().zip(self.demo_addenda()?);
        for ((name, case), (_, addendum)) in cases {
            let folder = dir.join(name);
            files::make_folder(&folder)?;
            for (kind, language, page) in every_paper() {
                for format in PaperFormat::ALL {
                    // A card differs from the sheet as pages only.
                    if page == PageSize::Wallet && format != PaperFormat::Pdf {
                        continue;
                    }
                    let asked = PaperAsked {
                        language,
                        page,
                        author: Some(WRITER.to_owned()),
                        demonstration: true,
                        ..demo_asked(name, kind, &case, &addendum)?
                    };
                    let to = folder.join(format!("{}.{}", file_name(kind, language, page), format.ending()));
                    let exported = self.paper_export(asked, format, &to, true, now)?;
                    written.push(DemoPaper { path: exported.path, unfinished: exported.unfinished });
                }
            }
        }
        Ok(written)
    }
}

/// Every paper in every language that it has, and the component record also as a card.
fn every_paper() -> Vec<(PaperKind, PaperLanguage, PageSize)> {
    let mut every = Vec::new();
    for kind in PaperKind::ALL {
        every.extend(kind.languages().iter().map(|language| (kind, *language, PageSize::A4)));
        if kind == PaperKind::ComponentRecord {
            every.push((kind, PaperLanguage::En, PageSize::Wallet));
        }
    }
    every
}

fn file_name(kind: PaperKind, language: PaperLanguage, page: PageSize) -> String {
    match (language, page) {
        (_, PageSize::Wallet) => format!("{}.{}", kind.name(), page.code()),
        (PaperLanguage::En, _) => kind.name().to_owned(),
        (language, _) => format!("{}.{}", kind.name(), language.code()),
    }
}

/// The addendum is about the new version of the case; all other papers are about the case itself.
fn demo_asked(name: &str, kind: PaperKind, case: &Case, addendum: &AddendumReading) -> Result<PaperAsked, DeskError> {
    if kind != PaperKind::Addendum {
        return Ok(PaperAsked::new(case.to_value(), kind));
    }
    let AddendumReading { text, by, at, case: new, .. } = addendum.clone();
    let given = Addendum { number: 1, text, by, at, before: case.clone() };
    let signed = if name == UNSIGNED { None } else { Some(signed_at()?) };
    let invented = AddendumAsked::Invented(Box::new(given), signed);
    Ok(PaperAsked { addendum: Some(invented), ..PaperAsked::new(new.to_value(), kind) })
}

fn signed_at() -> Result<LocalTime, DeskError> {
    time(SIGNED_AT)
}

fn time(text: &str) -> Result<LocalTime, DeskError> {
    text.parse().map_err(|error| DeskError::failed(format!("{error}.")))
}
