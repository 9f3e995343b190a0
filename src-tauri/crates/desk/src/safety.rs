//! Backing up, restoring, checking, and when a notebook locks by itself.

use std::path::{Path, PathBuf};

use evengap_case::LocalTime;
use evengap_notebook::{BackupJob, Notebook, Passphrase, restore};
use serde::{Deserialize, Serialize};
use ts_rs::TS;

use crate::notebooks::free_name;
use crate::{Desk, DeskError, ErrorCode, Right, files, rights, slow_down};

// Settings of the notebook under these names.
const BACKUPS: &str = "backups";
const LAST_BACKUP: &str = "last_backup_at";
const LOCK_AFTER: &str = "lock_after_minutes";

/// Common practice, no source: a week of work is what a person can write again from the theatre's lists.
const EVERY_DAYS: u32 = 7;
const LONGEST_DAYS: u32 = 366;
/// Common practice, no source.
const LOCK_AFTER_MINUTES: u32 = 10;
const LOCK_AFTER_RANGE: std::ops::RangeInclusive<u32> = 1..=120;

/// How the backups of a notebook stand.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct BackupState {
    /// When the last one was written, `YYYY-MM-DDTHH:MM`; `null` where none was.
    pub last_at: Option<String>,
    /// Whole days since then.
    pub days_since: Option<u32>,
    /// Whether one should be written today.
    pub due: bool,
    /// The folder for them.
    pub folder: Option<String>,
    /// Days from one to the next; 0 for no reminder.
    pub every_days: u32,
}

/// When and where backups are written.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, TS)]
pub struct BackupSettings {
    /// The folder for them; `null` to be asked each time.
    pub folder: Option<String>,
    /// Days from one to the next, 1 to 366; 0 for no reminder.
    pub every_days: u32,
}

/// How far a backup has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, TS)]
pub struct BackupProgress {
    /// Pages that are written.
    pub done: u32,
    /// All pages.
    pub total: u32,
}

/// A backup that was written, and opened again to check it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct BackupReport {
    /// The file.
    pub path: String,
    /// Cases in it.
    pub cases: u32,
    /// Its length.
    #[ts(type = "number")]
    pub bytes: u64,
}

/// What a check of the whole notebook looked at, and what is wrong.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct VerifyReport {
    /// Encrypted pages whose seals were checked.
    pub pages: u32,
    /// Entries, drafts and signed ones.
    pub entries: u32,
    /// Signed versions.
    pub signed: u32,
    /// Addenda.
    pub addenda: u32,
    /// Saved states of entries.
    pub steps: u32,
    /// Kept papers.
    pub papers: u32,
    /// Rows of the ledger, which holds everything that was signed, added or kept.
    pub ledger_rows: u32,
    /// Fingerprint of the ledger's newest row; whoever notes it can tell later that nothing was cut off.
    pub ledger_head: Option<String>,
    /// What is wrong, the first broken link first; empty when all is well.
    pub problems: Vec<String>,
}

/// What a restored notebook holds.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct RestoreReport {
    /// The new notebook.
    pub path: String,
    /// Cases in it.
    pub cases: u32,
    /// Those that are drafts.
    pub drafts: u32,
    /// Those that are signed.
    pub signed: u32,
    /// Addenda.
    pub addenda: u32,
    /// Kept papers.
    pub papers: u32,
    /// People who can open it.
    pub people: u32,
    /// When the newest version in it was saved, `YYYY-MM-DDTHH:MM`.
    pub newest_saved_at: Option<String>,
    /// What the check of the whole said.
    pub verify: VerifyReport,
}

impl From<evengap_notebook::VerifyReport> for VerifyReport {
    fn from(report: evengap_notebook::VerifyReport) -> Self {
        Self {
            pages: report.pages,
            entries: report.entries,
            signed: report.signed,
            addenda: report.addenda,
            steps: report.steps,
            papers: report.papers,
            ledger_rows: report.ledger_rows,
            ledger_head: report.ledger_head,
            problems: report.problems,
        }
    }
}

/// A backup under way. It needs no desk while it runs, so that saving never waits for it.
pub struct BackUp {
    job: BackupJob,
    notebook: PathBuf,
    to: PathBuf,
    replace: bool,
    now: LocalTime,
}

impl BackUp {
    /// Begins a backup of the open notebook; without a file it gets a free name in the folder of the settings.
    ///
    /// # Errors
    /// When there is no such folder or the file is the notebook itself (`refused`), or no notebook is open.
    pub fn begin(desk: &Desk, to: Option<&Path>, replace: bool, now: LocalTime) -> Result<Self, DeskError> {
        let notebook = desk.open_as(Right::BackUp)?;
        let to = match (to, backup_settings(notebook)?.folder) {
            (Some(to), _) => to.to_owned(),
            (None, Some(folder)) => {
                let stem = notebook.path().file_stem().map(|stem| stem.to_string_lossy().into_owned());
                let at = now.0.format("%Y-%m-%d %H.%M");
                free_name(Path::new(&folder), &format!("{} {at}", stem.unwrap_or_default()), "evengap")
            }
            (None, None) => {
                return Err(DeskError::new(
                    ErrorCode::Refused,
                    "No folder for backups is set. Say where the backup goes, or set a folder for all of them.",
                ));
            }
        };
        desk.not_the_notebook(&to)?;
        Ok(Self { job: notebook.back_up(), notebook: notebook.path().to_owned(), to, replace, now })
    }

    /// Writes it and opens it to check it. `progress` says whether to go on.
    ///
    /// # Errors
    /// When the file exists and may not be replaced (`exists`), it was stopped, or the disk refuses; then nothing is
    /// there that was not there before.
    pub fn run(&self, mut progress: impl FnMut(BackupProgress) -> bool) -> Result<BackupReport, DeskError> {
        let report = self.job.run(&self.to, self.replace, |done, total| progress(BackupProgress { done, total }));
        let report = report.map_err(|error| match error {
            evengap_notebook::NotebookError::Exists(path) => files::exists(&path),
            error => error.into(),
        })?;
        let path = report.path.to_string_lossy().into_owned();
        Ok(BackupReport { path, cases: report.cases, bytes: report.bytes })
    }

    /// Notes in the notebook that it was backed up, if it is still open.
    ///
    /// # Errors
    /// When the notebook cannot be written.
    pub fn finish(self, desk: &mut Desk) -> Result<(), DeskError> {
        match &mut desk.notebook {
            Some(notebook) if notebook.path() == self.notebook => {
                Ok(notebook.set_setting(LAST_BACKUP, &self.now.to_string())?)
            }
            _ => Ok(()),
        }
    }
}

impl Default for BackupSettings {
    fn default() -> Self {
        Self { folder: None, every_days: EVERY_DAYS }
    }
}

impl Desk {
    /// Writes a backup of the open notebook: one encrypted file that the same passphrases open. It is opened to check it.
    ///
    /// # Errors
    /// As for [`BackUp::begin`] and [`BackUp::run`].
    pub fn notebook_back_up(
        &mut self,
        to: Option<&Path>,
        replace: bool,
        now: LocalTime,
        progress: impl FnMut(BackupProgress) -> bool,
    ) -> Result<BackupReport, DeskError> {
        let backup = BackUp::begin(self, to, replace, now)?;
        let report = backup.run(progress)?;
        backup.finish(self)?;
        Ok(report)
    }

    /// Checks the whole of the open notebook: every page, every signed version, every saved state, every kept paper.
    ///
    /// # Errors
    /// When no notebook is open, or it can no longer be reached; what is damaged in it stands in the report.
    pub fn notebook_verify(&self) -> Result<VerifyReport, DeskError> {
        Ok(self.open_as(Right::Verify)?.verify()?.into())
    }

    /// Makes a new notebook of a backup, for a keeper in it. The open one stays open, and the backup as it is.
    ///
    /// # Errors
    /// When there is a file at `to` (`exists`), the passphrase opens nothing (`wrong_passphrase`, and `wait` after too
    /// many) or is of somebody who may not restore (`not_allowed`), or the backup is damaged; then nothing is at `to`.
    pub fn notebook_restore(
        &self,
        from: &Path,
        passphrase: &str,
        to: &Path,
        now: LocalTime,
    ) -> Result<RestoreReport, DeskError> {
        let passphrase = Passphrase::new(passphrase)?;
        self.may(Right::Restore)?;
        let report = slow_down::guard(from, now.0, || Ok(restore(from, &passphrase, to, now)?))?;
        let checked = Notebook::open(to, &passphrase, now).map_err(DeskError::from).and_then(|notebook| {
            rights::ask(notebook.person(), Right::Restore)?;
            Ok(notebook.verify()?)
        });
        let verify = checked.inspect_err(|_| {
            // It is ours, and nobody asked for it who may have it.
            let _ = std::fs::remove_file(to);
        })?;
        Ok(RestoreReport {
            path: report.path.to_string_lossy().into_owned(),
            cases: report.cases,
            drafts: report.drafts,
            signed: report.signed,
            addenda: report.addenda,
            papers: report.papers,
            people: report.people,
            newest_saved_at: report.newest,
            verify: verify.into(),
        })
    }

    /// Gives when and where backups are written.
    ///
    /// # Errors
    /// When no notebook is open, or it can no longer be read.
    pub fn backup_settings(&self) -> Result<BackupSettings, DeskError> {
        backup_settings(self.open_as(Right::BackUp)?)
    }

    /// Keeps when and where backups are written.
    ///
    /// # Errors
    /// When the folder is none or the days cannot be right (`refused`), or no notebook is open.
    pub fn backup_settings_save(&mut self, settings: BackupSettings) -> Result<BackupSettings, DeskError> {
        let notebook = self.open_to_write_as(Right::Security)?;
        if settings.every_days > LONGEST_DAYS {
            return Err(DeskError::new(
                ErrorCode::Refused,
                format!("Days from backup to backup: write 1 to {LONGEST_DAYS}, or 0 for no reminder."),
            ));
        }
        let folder = settings.folder.map(|folder| folder.trim().to_owned()).filter(|folder| !folder.is_empty());
        if let Some(folder) = folder.as_deref().filter(|folder| !Path::new(folder).is_dir()) {
            return Err(DeskError::new(
                ErrorCode::Refused,
                format!("There is no folder {folder}. Make it first, or choose another for the backups."),
            ));
        }
        let settings = BackupSettings { folder, ..settings };
        let stored = serde_json::to_string(&settings)
            .map_err(|error| DeskError::failed(format!("The settings cannot be stored: {error}.")))?;
        notebook.set_setting(BACKUPS, &stored)?;
        Ok(settings)
    }

    /// Gives the minutes without a key or a movement after which the notebook locks by itself.
    ///
    /// # Errors
    /// When no notebook is open, or it can no longer be read.
    pub fn lock_after(&self) -> Result<u32, DeskError> {
        lock_after(self.open()?)
    }

    /// Keeps the minutes after which the notebook locks by itself.
    ///
    /// # Errors
    /// When they are not 1 to 120 (`refused`), or no notebook is open.
    pub fn lock_after_save(&mut self, minutes: u32) -> Result<u32, DeskError> {
        let notebook = self.open_to_write_as(Right::Security)?;
        if !LOCK_AFTER_RANGE.contains(&minutes) {
            return Err(DeskError::new(
                ErrorCode::Refused,
                format!(
                    "Minutes until the notebook locks: write {} to {}.",
                    LOCK_AFTER_RANGE.start(),
                    LOCK_AFTER_RANGE.end()
                ),
            ));
        }
        notebook.set_setting(LOCK_AFTER, &minutes.to_string())?;
        Ok(minutes)
    }
}

/// A setting that cannot be read is none: nobody can set it but this program, and a notebook must open.
fn backup_settings(notebook: &Notebook) -> Result<BackupSettings, DeskError> {
    let stored = notebook.setting(BACKUPS)?;
    Ok(stored.and_then(|stored| serde_json::from_str(&stored).ok()).unwrap_or_default())
}

pub(crate) fn lock_after(notebook: &Notebook) -> Result<u32, DeskError> {
    let stored = notebook.setting(LOCK_AFTER)?.and_then(|stored| stored.parse().ok());
    Ok(stored.filter(|minutes| LOCK_AFTER_RANGE.contains(minutes)).unwrap_or(LOCK_AFTER_MINUTES))
}

/// How the backups stand at a time. A notebook without a case, or of invented people only, needs none.
pub(crate) fn backup_state(notebook: &Notebook, cases: u32, now: LocalTime) -> Result<BackupState, DeskError> {
    let BackupSettings { folder, every_days } = backup_settings(notebook)?;
    let last_at = notebook.setting(LAST_BACKUP)?;
    let last: Option<LocalTime> = last_at.as_deref().and_then(|at| at.parse().ok());
    let days_since = last.map(|last| {
        // A clock that was set back makes no backup of tomorrow due.
        u32::try_from((now.0.date() - last.0.date()).num_days()).unwrap_or(0)
    });
    let due =
        every_days > 0 && cases > 0 && !notebook.is_demonstration() && days_since.is_none_or(|days| days >= every_days);
    Ok(BackupState { last_at, days_since, due, folder, every_days })
}
