//! Restoring: a notebook made anew from a backup or a copy. Neither the backup nor any other file is changed.

use std::path::{Path, PathBuf};

use evengap_case::LocalTime;
use evengap_door::Door;
use serde::Serialize;
use ts_rs::TS;

use crate::file::{Beside, Layout, followed, journal, look_outside, unlock_door};
use crate::{Notebook, NotebookError, Passphrase, VerifyReport};

/// What was restored.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct RestoreReport {
    /// The new notebook.
    pub path: PathBuf,
    /// How many cases it holds.
    pub cases: u32,
    /// How many of them are drafts.
    pub drafts: u32,
    /// How many entries were signed.
    pub signed: u32,
    /// How many addenda were added.
    pub addenda: u32,
    /// How many papers were kept.
    pub papers: u32,
    /// How many people may open it; the recovery sheet is not counted.
    pub people: u32,
    /// When anything was last saved in it, `YYYY-MM-DDTHH:MM`.
    pub newest: Option<String>,
    /// Whether the backup was of the older layout, or of an older program, and was brought up to date.
    pub converted: bool,
    /// What was found when all of it was looked at.
    pub verified: VerifyReport,
}

/// Makes a notebook at `to` from the backup or copy at `from`, which somebody's passphrase opens.
///
/// # Errors
/// When `to` exists, or `from` cannot be opened; then nothing is at `to`.
pub fn restore(
    from: &Path,
    passphrase: &Passphrase,
    to: &Path,
    now: LocalTime,
) -> Result<RestoreReport, NotebookError> {
    if to.exists() {
        return Err(NotebookError::Exists(to.to_owned()));
    }
    let from = &followed(from)?;
    match look_outside(from) {
        // What may only be read can be restored all the same.
        Err(NotebookError::ReadOnly(_)) => {}
        Ok(Layout::Older) => {}
        Ok(Layout::Door) => {
            let door = Door::read(from).map_err(|error| NotebookError::of_door(from, error))?;
            unlock_door(&door, from, passphrase)?;
        }
        Err(error) => return Err(error),
    }
    let new = Beside::claim(to)?;
    let copied = |error| NotebookError::of_file(to, error);
    copy(from, new.path()).map_err(copied)?;
    if journal(from).exists() {
        // A copy that was taken in the middle of a write: its journal undoes that.
        copy(&journal(from), &journal(new.path())).map_err(copied)?;
    }
    let notebook = Notebook::open(new.path(), passphrase, now).map_err(|error| error.said_of(from, to))?;
    if let Some(kept) = notebook.kept_as() {
        // Only a copy of the copy.
        let _ = std::fs::remove_file(kept);
    }
    let report = report(&notebook, to).map_err(|error| error.said_of(from, to))?;
    drop(notebook);
    new.publish(false)?;
    Ok(report)
}

/// Copies bytes, and no rights: a read-only medium makes no read-only notebook.
fn copy(from: &Path, to: &Path) -> std::io::Result<()> {
    let mut options = std::fs::OpenOptions::new();
    options.write(true).create(true).truncate(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    let mut target = options.open(to)?;
    // Not past SQLite: closing the file would end the locks of those who have it open here.
    evengap_door::copy_out(from, &mut target)?;
    target.sync_all()
}

fn report(notebook: &Notebook, to: &Path) -> Result<RestoreReport, NotebookError> {
    let verified = notebook.verify()?;
    notebook.read(|connection| {
        Ok(connection.query_row(include_str!("report.sql"), [], |row| {
            Ok(RestoreReport {
                path: to.to_owned(),
                cases: row.get("cases")?,
                drafts: row.get("drafts")?,
                signed: row.get("signed")?,
                addenda: row.get("addenda")?,
                papers: row.get("papers")?,
                people: row.get("people")?,
                newest: row.get("newest")?,
                converted: notebook.kept_as().is_some(),
                verified,
            })
        })?)
    })
}
