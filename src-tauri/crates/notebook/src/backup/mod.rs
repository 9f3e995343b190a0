//! Backups: one encrypted file that opens like the notebook, made while the notebook is used.
//!
//! It has the door of the notebook, so whoever opens the notebook opens it. It gets its name only after it was written
//! durably and opened again; whatever happens before leaves nothing at that name.

mod restore;

use std::path::{Path, PathBuf};
use std::time::Duration;

use evengap_door::{Door, FileKey};
use rusqlite::Connection;
use rusqlite::backup::{Backup, StepResult};
use serde::Serialize;
use ts_rs::TS;

pub use restore::{RestoreReport, restore};

use crate::file::{Beside, Identity, check_pages, check_whole, connect, mend_free_pages};
use crate::{Notebook, NotebookError};

/// Pages copied at once: about a megabyte, between two looks at whether to go on.
const PAGES: i32 = 256;
/// Times that a save may make the copy begin anew; then it is made in one go, and saves wait for it.
const ANEW: u32 = 3;
/// Waits for somebody who writes.
const WAITS: u32 = 250;
const WAIT: Duration = Duration::from_millis(20);

/// A backup that can be made, in another thread if need be.
pub struct BackupJob {
    path: PathBuf,
    key: FileKey,
    identity: Identity,
}

/// What a backup holds.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct BackupReport {
    /// The file.
    pub path: PathBuf,
    /// Its length.
    #[ts(type = "number")]
    pub bytes: u64,
    /// How many cases it holds.
    pub cases: u32,
    /// How many entries were signed or added to them.
    pub signed: u32,
}

impl Notebook {
    /// Prepares a backup of what is committed.
    pub fn back_up(&self) -> BackupJob {
        BackupJob { path: self.path.clone(), key: self.key.clone(), identity: self.identity }
    }
}

impl BackupJob {
    /// Makes the backup. `progress` gets how many pages are done and how many there are; false stops it.
    ///
    /// # Errors
    /// When the target exists and may not be replaced, is the notebook itself, or the disk refuses; when the notebook is
    /// gone, damaged or has another key by now; when it was stopped. Nothing is then at the target that was not there.
    pub fn run(
        &self,
        to: &Path,
        replace: bool,
        mut progress: impl FnMut(u32, u32) -> bool,
    ) -> Result<BackupReport, NotebookError> {
        if !self.identity.is_at(&self.path) {
            return Err(NotebookError::Gone(self.path.clone()));
        }
        if self.identity.is_at(to) {
            return Err(NotebookError::OntoItself(to.to_owned()));
        }
        if to.is_dir() {
            return Err(NotebookError::Folder(to.to_owned()));
        }
        if !replace && to.exists() {
            return Err(NotebookError::Exists(to.to_owned()));
        }
        let copy = Beside::claim(to)?;
        let mut door = Door::read(&self.path).map_err(|error| NotebookError::of_door(&self.path, error))?;
        door.write(copy.path()).map_err(|error| NotebookError::of_door(to, error))?;
        let source = connect(&self.path, &self.key).map_err(|error| NotebookError::from(error).at(&self.path))?;
        source.busy_timeout(Duration::from_secs(5))?;
        self.check_source(&source).map_err(|error| error.at(&self.path))?;
        self.copy(&source, copy.path(), to, &mut progress)?;
        let (cases, signed) = self.check(copy.path()).map_err(|error| match error.at(to) {
            NotebookError::Damaged { what, .. } => NotebookError::CopyBroken { path: to.to_owned(), what },
            error => error,
        })?;
        let bytes = std::fs::metadata(copy.path()).map_err(|error| NotebookError::of_file(to, error))?.len();
        copy.publish(replace)?;
        Ok(BackupReport { path: to.to_owned(), bytes, cases, signed })
    }

    /// Looks whether the key is still right, and every page as it was written: a damaged one would be copied as an
    /// empty one.
    fn check_source(&self, source: &Connection) -> Result<(), NotebookError> {
        source.pragma_query_value(None, "user_version", |row| row.get::<_, i64>(0))?;
        // Somebody who saves meanwhile makes pages look broken; those are looked at again while nobody can.
        let is_torn = match check_pages(source, &self.path) {
            Ok(false) => false,
            _ => {
                let moment = source.unchecked_transaction()?;
                moment.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get::<_, i64>(0))?;
                check_pages(&moment, &self.path)?
            }
        };
        if is_torn {
            mend_free_pages(source)?;
        }
        Ok(())
    }

    fn copy(
        &self,
        source: &Connection,
        temporary: &Path,
        to: &Path,
        progress: &mut impl FnMut(u32, u32) -> bool,
    ) -> Result<(), NotebookError> {
        let at_target = |error| NotebookError::from(error).at(to);
        let mut target = connect(temporary, &self.key).map_err(at_target)?;
        // The file is thrown away if anything goes wrong, and synced before it gets its name.
        target.execute_batch(include_str!("temporary.sql")).map_err(at_target)?;
        let backup = Backup::new(source, &mut target).map_err(at_target)?;
        let (mut left, mut anew, mut waits) = (i32::MAX, 0, 0);
        loop {
            let step = backup.step(if anew < ANEW { PAGES } else { -1 }).map_err(at_target)?;
            let now = backup.progress();
            if now.remaining > left {
                anew += 1;
            }
            left = now.remaining;
            let count = |pages: i32| u32::try_from(pages).unwrap_or(0);
            if !progress(count(now.pagecount - now.remaining), count(now.pagecount)) {
                return Err(NotebookError::Stopped(to.to_owned()));
            }
            match step {
                StepResult::Done => return Ok(()),
                StepResult::Busy | StepResult::Locked if waits >= WAITS => {
                    return Err(NotebookError::Busy(self.path.clone()));
                }
                StepResult::Busy | StepResult::Locked => {
                    waits += 1;
                    std::thread::sleep(WAIT);
                }
                _ => waits = 0,
            }
        }
    }

    /// Opens the copy as a notebook is opened and looks at all of it; gives the cases and the signed versions in it.
    fn check(&self, copy: &Path) -> Result<(u32, u32), NotebookError> {
        Door::read(copy).map_err(|error| NotebookError::of_door(copy, error))?;
        let copied = connect(copy, &self.key)?;
        check_whole(&copied, copy)?;
        let (cases, listed, signed, positions, last): (u32, u32, u32, u32, u32) =
            copied.query_row(include_str!("counts.sql"), [], |row| {
                Ok((row.get(0)?, row.get(1)?, row.get(2)?, row.get(3)?, row.get(4)?))
            })?;
        if cases != listed || positions != last {
            let what = "its lists and its entries do not agree".into();
            return Err(NotebookError::Damaged { path: copy.to_owned(), what });
        }
        Ok((cases, signed))
    }
}
