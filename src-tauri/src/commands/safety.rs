//! Backing up, restoring, checking, and when the notebook locks by itself.

use std::path::PathBuf;

use evengap_desk::{BackUp, BackupProgress, BackupReport, BackupSettings, DeskError, RestoreReport, VerifyReport};
use tauri::ipc::Channel;
use tauri::{AppHandle, Manager, State};

use crate::desktop::{Desktop, now};

type Answer<T> = Result<T, DeskError>;

/// Writes a backup and checks it by opening it. The desk is free meanwhile, so that saving never waits for it.
#[tauri::command]
pub async fn notebook_back_up(
    app: AppHandle,
    to: Option<String>,
    replace: bool,
    progress: Channel<BackupProgress>,
) -> Answer<BackupReport> {
    let run = move || {
        let desktop = app.state::<Desktop>();
        let to: Option<PathBuf> = to.map(|to| desktop.folders.typed(&to));
        let backup = BackUp::begin(&desktop.desk(), to.as_deref(), replace, now())?;
        // A page that has gone away hears nothing; the backup is made all the same.
        let report = backup.run(|made| {
            let _ = progress.send(made);
            true
        })?;
        backup.finish(&mut desktop.desk())?;
        Ok(report)
    };
    let done = tauri::async_runtime::spawn_blocking(run).await;
    // The error would repeat what a panic says, and that may hold an answer.
    done.unwrap_or_else(|_| Err(DeskError::failed("Evengap made a mistake of its own, and the backup was not made.")))
}

/// Checks the whole open notebook.
#[tauri::command(async)]
pub fn notebook_verify(desktop: State<'_, Desktop>) -> Answer<VerifyReport> {
    desktop.desk().notebook_verify()
}

/// Restores a backup into a new file.
#[tauri::command(async)]
pub fn notebook_restore(desktop: State<'_, Desktop>, from: &str, passphrase: &str, to: &str) -> Answer<RestoreReport> {
    let (from, to) = (desktop.folders.typed(from), desktop.folders.typed(to));
    desktop.desk().notebook_restore(&from, passphrase, &to, now())
}

/// Gives when and where backups are written.
#[tauri::command(async)]
pub fn backup_settings(desktop: State<'_, Desktop>) -> Answer<BackupSettings> {
    desktop.desk().backup_settings()
}

/// Keeps when and where backups are written; the folder is read as a person types it.
#[tauri::command(async)]
pub fn backup_settings_save(desktop: State<'_, Desktop>, settings: BackupSettings) -> Answer<BackupSettings> {
    let typed = |folder: String| desktop.folders.typed(&folder).to_string_lossy().into_owned();
    let settings = BackupSettings { folder: settings.folder.map(typed), ..settings };
    desktop.desk().backup_settings_save(settings)
}

/// Gives the minutes of quiet after which the notebook locks.
#[tauri::command(async)]
pub fn lock_after(desktop: State<'_, Desktop>) -> Answer<u32> {
    desktop.desk().lock_after()
}

/// Keeps the minutes of quiet after which the notebook locks.
#[tauri::command(async)]
pub fn lock_after_save(desktop: State<'_, Desktop>, minutes: u32) -> Answer<u32> {
    desktop.desk().lock_after_save(minutes)
}
