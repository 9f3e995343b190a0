//! A disk that lets some writes through and then no more.

use std::path::PathBuf;
use std::sync::{Arc, Mutex, PoisonError};

use evengap_door::faults::{Act, Faults, Op, Verdict, install};

use crate::bench::Bench;

/// One such disk at a time: it counts for the whole process.
static TURN: Mutex<()> = Mutex::new(());

struct RefusingAfter {
    folder: PathBuf,
    left: Arc<Mutex<usize>>,
    verdict: Verdict,
}

impl Faults for RefusingAfter {
    fn before(&mut self, op: &Op<'_>) -> Verdict {
        if !op.path.starts_with(&self.folder) || !matches!(op.act, Act::Write { .. } | Act::Sync { .. }) {
            return Verdict::Go;
        }
        let mut left = self.left.lock().unwrap();
        *left = left.saturating_sub(1);
        if *left == 0 { self.verdict } else { Verdict::Go }
    }
}

/// Does something while the disk of a bench refuses every write and sync from the one of that number on; gives how many
/// there were.
pub fn refusing<T>(bench: &Bench, number: usize, verdict: Verdict, act: impl FnOnce() -> T) -> (T, usize) {
    let turn = TURN.lock().unwrap_or_else(PoisonError::into_inner);
    let left = Arc::new(Mutex::new(number));
    let folder = bench.file().parent().unwrap().to_owned();
    install(Some(Box::new(RefusingAfter { folder, left: Arc::clone(&left), verdict })));
    let result = act();
    install(None);
    drop(turn);
    let left = *left.lock().unwrap();
    (result, number - left)
}

struct Watching<F>(PathBuf, F);

impl<F: FnMut() + Send> Faults for Watching<F> {
    fn before(&mut self, op: &Op<'_>) -> Verdict {
        if op.path.starts_with(&self.0) && !matches!(op.act, Act::Open { .. } | Act::Close) {
            self.1();
        }
        Verdict::Go
    }
}

/// Does something and looks at the disk before each change that it makes there, as it would be if the program ended
/// then. Whoever looks must not use a notebook.
pub fn watching<T>(bench: &Bench, look: impl FnMut() + Send + 'static, act: impl FnOnce() -> T) -> T {
    let turn = TURN.lock().unwrap_or_else(PoisonError::into_inner);
    install(Some(Box::new(Watching(bench.file().parent().unwrap().to_owned(), look))));
    let result = act();
    install(None);
    drop(turn);
    result
}
