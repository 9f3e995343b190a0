//! Who may do what in an open notebook: one table, asked by every act.
//!
//! It holds back people at the desk, in the window and on the command line alike. It does not hold back a person with a
//! passphrase, a copy of the file and a program of their own: whoever can open the pages can read them.

use evengap_notebook::{Notebook, Person, Role};
use serde::Serialize;
use ts_rs::TS;

use crate::{Desk, DeskError, ErrorCode, PaperKind};

/// Something that a role may do, or not.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, TS)]
#[serde(rename_all = "snake_case")]
pub enum Right {
    /// See and search the list of cases.
    ListCases,
    /// Read entries, with findings and reckonings.
    ReadEntries,
    /// Begin, change and add drafts.
    WriteDrafts,
    /// Sign, and add to what is signed.
    Sign,
    /// Make every paper.
    AllPapers,
    /// Make the papers that patients and their doctors are given, by the case's line in the list.
    PrintPapers,
    /// See and change templates.
    Templates,
    /// Change the settings of papers, limits and scanners.
    Settings,
    /// Read who changed what.
    History,
    /// Exchange cases with another notebook, and settle conflicts.
    Exchange,
    /// Write backups.
    BackUp,
    /// Set when the notebook is backed up, and when it locks by itself.
    Security,
    /// Add, change and remove people, and give them passphrases.
    People,
    /// Make a recovery sheet.
    RecoverySheet,
    /// Restore backups.
    Restore,
    /// Check the whole notebook.
    Verify,
}

use Right::*;
use Role::{Clinic, Keeper, Registrar, Surgeon};

/// Each right, in words that follow "may not", and the roles that have it.
const TABLE: [(Right, &str, &[Role]); 16] = [
    (ListCases, "see the list of cases", &[Surgeon, Registrar, Clinic]),
    (ReadEntries, "read entries", &[Surgeon, Registrar]),
    (WriteDrafts, "write entries", &[Surgeon, Registrar]),
    (Sign, "sign entries or add to signed ones", &[Surgeon]),
    (AllPapers, "make this paper", &[Surgeon, Registrar]),
    (PrintPapers, "make papers", &[Surgeon, Registrar, Clinic]),
    (Templates, "look at or change templates", &[Surgeon]),
    (Settings, "change these settings", &[Surgeon]),
    (History, "read the history of entries", &[Surgeon, Registrar]),
    (Exchange, "exchange cases with other notebooks", &[Surgeon]),
    (BackUp, "back up the notebook", &[Surgeon, Registrar, Keeper]),
    (Security, "set when the notebook is backed up or locks", &[Surgeon, Keeper]),
    (People, "look after the people of the notebook", &[Keeper]),
    (RecoverySheet, "make a recovery sheet", &[Keeper]),
    (Restore, "restore a backup", &[Keeper]),
    (Verify, "check the notebook", &[Keeper]),
];

/// The papers of [`Right::PrintPapers`].
pub(crate) const PATIENT_PAPERS: [PaperKind; 3] =
    [PaperKind::DischargeLetter, PaperKind::ClinicianLetter, PaperKind::ComponentRecord];

impl Right {
    /// Every right, as the table has them.
    pub const ALL: [Self; TABLE.len()] = {
        let mut all = [ListCases; TABLE.len()];
        let mut row = 0;
        while row < all.len() {
            all[row] = TABLE[row].0;
            row += 1;
        }
        all
    };

    /// The right that a paper by the case's line in the list needs.
    pub(crate) fn to_print(kind: PaperKind) -> Self {
        if PATIENT_PAPERS.contains(&kind) { PrintPapers } else { AllPapers }
    }

    fn row(self) -> (&'static str, &'static [Role]) {
        TABLE.iter().find(|(right, ..)| *right == self).map_or(("do this", &[]), |(_, words, roles)| (words, roles))
    }
}

/// Tells whether somebody with a role has a right; whoever keeps the notebook besides has a keeper's rights too.
pub fn has(role: Role, keeper: bool, right: Right) -> bool {
    let (_, roles) = right.row();
    roles.contains(&role) || (keeper && roles.contains(&Keeper))
}

/// Everything that a person may do.
pub(crate) fn of(person: &Person) -> Vec<Right> {
    Right::ALL.into_iter().filter(|right| has(person.role, person.keeper, *right)).collect()
}

/// Refuses what a person may not do.
pub(crate) fn ask(person: &Person, right: Right) -> Result<(), DeskError> {
    if has(person.role, person.keeper, right) {
        return Ok(());
    }
    let (words, roles) = right.row();
    let who: Vec<&str> = roles.iter().map(|role| in_words(*role)).collect();
    Err(DeskError::new(
        ErrorCode::NotAllowed,
        format!(
            "{} is {} in this notebook and may not {words}; {} may.",
            person.name,
            in_words(person.role),
            who.join(" or ")
        ),
    ))
}

/// A role in a sentence.
pub(crate) fn in_words(role: Role) -> &'static str {
    match role {
        Surgeon => "a surgeon",
        Registrar => "a registrar",
        Clinic => "somebody of the clinic",
        Keeper => "a keeper",
    }
}

impl Desk {
    /// Gives the open notebook to an act that needs a right in it. The person's row is read anew each time, since a
    /// keeper at another computer may have changed it.
    pub(crate) fn open_as(&self, right: Right) -> Result<&Notebook, DeskError> {
        let notebook = self.open()?;
        ask(&notebook.person_now()?, right)?;
        Ok(notebook)
    }

    /// The same for an act that writes.
    pub(crate) fn open_to_write_as(&mut self, right: Right) -> Result<&mut Notebook, DeskError> {
        self.open_as(right)?;
        self.open_to_write()
    }

    /// Asks for an act that does something with an open notebook, and something else without one.
    pub(crate) fn may(&self, right: Right) -> Result<(), DeskError> {
        let Some(notebook) = &self.notebook else { return Ok(()) };
        // What stands on the screen is looked at although the file went away; saving it says so.
        let person = notebook.person_now().unwrap_or_else(|_| notebook.person().clone());
        ask(&person, right)
    }
}
