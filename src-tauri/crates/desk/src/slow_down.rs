//! Wrong passphrases in a row slow down whoever types them, at the window and at a terminal alike: they are counted in
//! the file. It holds back a person at the keyboard; somebody with a copy of the file is held back by the cost of one try.

use std::path::Path;

use chrono::{NaiveDateTime, TimeDelta};
use evengap_door::{Door, Tries, note_try, tries};

use crate::{DeskError, ErrorCode};

/// Wrong passphrases that cost nothing but the try.
const FREE: u32 = 5;
/// The longest wait.
const MOST_S: i64 = 60;

/// Tries a passphrase on a file, and counts whether it was a wrong one.
pub(crate) fn guard<T>(
    path: &Path,
    now: NaiveDateTime,
    attempt: impl FnOnce() -> Result<T, DeskError>,
) -> Result<T, DeskError> {
    ask(path, now)?;
    let outcome = attempt();
    match &outcome {
        Ok(_) => right(path),
        Err(error) if error.code == ErrorCode::WrongPassphrase => wrong(path, now),
        Err(_) => {}
    }
    outcome
}

/// Refuses a passphrase, without looking at it, that comes too early after the wrong ones before.
fn ask(path: &Path, now: NaiveDateTime) -> Result<(), DeskError> {
    if !has_door(path) {
        return Ok(());
    }
    let before = tries(path);
    let left = seconds_left(&before, now);
    if left == 0 {
        return Ok(());
    }
    // A clock that was set back must not make anybody wait for days: the wait begins anew.
    if before.last_at.is_some_and(|last| last > now) {
        note(path, Tries { last_at: Some(now), ..before });
    }
    let unit = if left == 1 { "second" } else { "seconds" };
    Err(DeskError::new(
        ErrorCode::Wait,
        format!(
            "{} wrong passphrases were typed in a row. Wait {left} {unit}; the next one is not looked at before.",
            before.failed
        ),
    ))
}

/// Counts a wrong passphrase.
fn wrong(path: &Path, now: NaiveDateTime) {
    if has_door(path) {
        note(path, Tries { failed: tries(path).failed.saturating_add(1), last_at: Some(now) });
    }
}

/// Forgets the wrong ones.
fn right(path: &Path) {
    if has_door(path) && tries(path).failed > 0 {
        note(path, Tries::default());
    }
}

/// A file of the older layout has pages where the count would stand.
fn has_door(path: &Path) -> bool {
    Door::is_at(path).unwrap_or(false)
}

/// A file that may not be written, such as one on a read-only disk, can be opened nowhere anyway.
fn note(path: &Path, tries: Tries) {
    let _ = note_try(path, &tries);
}

fn seconds_left(tries: &Tries, now: NaiveDateTime) -> i64 {
    let wait = wait_s(tries.failed);
    let Some(last) = tries.last_at.filter(|_| wait > 0) else { return 0 };
    let passed = (now - last).max(TimeDelta::zero()).num_seconds();
    (wait - passed).max(0)
}

/// 2, 4, 8 … seconds after the fifth, the sixth, the seventh …
fn wait_s(failed: u32) -> i64 {
    match failed.checked_sub(FREE) {
        None => 0,
        Some(over) => 2_i64.checked_shl(over).filter(|wait| *wait > 0 && over < 16).unwrap_or(MOST_S).min(MOST_S),
    }
}
