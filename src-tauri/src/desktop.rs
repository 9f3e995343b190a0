//! The desk as the window holds it: one at a time may use it, with the clock and identifiers of this computer.

use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, Weak};
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
    /// The batches of papers that are under way.
    pub batches: Batches,
}

impl Desktop {
    /// Sets up an empty desk.
    pub fn new(folders: Folders) -> Self {
        Self { desk: Mutex::new(Desk::new()), folders, close_asked: Mutex::new(None), batches: Batches::default() }
    }

    /// Waits for the desk. An act that broke off leaves it usable: each act is one transaction.
    pub fn desk(&self) -> MutexGuard<'_, Desk> {
        self.desk.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// The batches of papers that are under way. Each has a flag of its own, so that beginning one never takes back that
/// another is to stop.
#[derive(Default)]
pub struct Batches(Mutex<Vec<Weak<AtomicBool>>>);

/// Whether one batch is to stop; the batch holds it as long as it goes on.
pub struct Stop(Arc<AtomicBool>);

impl Batches {
    /// Begins one.
    pub fn begin(&self) -> Stop {
        let flag = Arc::new(AtomicBool::new(false));
        let mut flags = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        flags.retain(|flag| flag.strong_count() > 0);
        flags.push(Arc::downgrade(&flag));
        Stop(flag)
    }

    /// Asks all of them to stop.
    pub fn stop(&self) {
        let flags = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        flags.iter().filter_map(Weak::upgrade).for_each(|flag| flag.store(true, Ordering::Relaxed));
    }
}

impl Stop {
    /// Tells whether somebody asked.
    pub fn is_asked(&self) -> bool {
        self.0.load(Ordering::Relaxed)
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

#[cfg(test)]
mod tests {
    use super::Batches;

    #[test]
    fn beginning_a_batch_takes_no_stop_back() {
        let batches = Batches::default();
        let first = batches.begin();
        batches.stop();
        let second = batches.begin();
        assert!(first.is_asked(), "the first is still to stop");
        assert!(!second.is_asked(), "the second began afterwards");
        batches.stop();
        assert!(second.is_asked(), "until it is asked itself");
    }
}
