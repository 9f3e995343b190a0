//! The desk as the window holds it: one at a time may use it, with the clock and identifiers of this computer.

use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::Instant;

use evengap_case::{CaseId, LocalTime};
use evengap_desk::Desk;

use crate::folders::Folders;

/// State that Tauri keeps for the commands.
pub struct Desktop {
    desk: Mutex<Desk>,
    /// The person's folders.
    pub folders: Folders,
    /// When somebody last asked to close the window.
    pub close_asked: Mutex<Option<Instant>>,
}

impl Desktop {
    /// Sets up an empty desk.
    pub fn new(folders: Folders) -> Self {
        Self { desk: Mutex::new(Desk::new()), folders, close_asked: Mutex::new(None) }
    }

    /// Waits for the desk. An act that broke off leaves it usable: each act is one transaction.
    pub fn desk(&self) -> MutexGuard<'_, Desk> {
        self.desk.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// Reads the clock.
pub fn now() -> LocalTime {
    LocalTime(chrono::Local::now().naive_local())
}

/// Makes a new identifier.
pub fn new_id() -> CaseId {
    CaseId(uuid::Uuid::new_v4())
}
