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
    let before = tries(path);
    // Once it matters each try is counted before it is made: programs side by side share the wait, and nobody gets a try
    // for nothing by stopping the program.
    let counted = before.failed >= FREE && has_door(path);
    if counted {
        wrong(path, now);
    }
    let outcome = attempt();
    match &outcome {
        Ok(_) => right(path),
        Err(error) if error.code == ErrorCode::WrongPassphrase => {
            if !counted {
                wrong(path, now);
            }
        }
        Err(_) if counted => note(path, before),
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

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test stops at the first surprise")]
mod tests {
    use super::*;

    fn wrong_one() -> Result<(), DeskError> {
        Err(DeskError::new(ErrorCode::WrongPassphrase, "wrong"))
    }

    #[test]
    fn several_programs_share_the_wait() {
        let file = tempfile::NamedTempFile::new().unwrap();
        let (path, at) = (file.path(), |clock: &str| format!("2026-06-30T{clock}").parse::<NaiveDateTime>().unwrap());
        Door::new(evengap_door::Cost::LEAST).unwrap().0.write(path).unwrap();
        for _ in 0..FREE {
            let _ = guard(path, at("08:00:00"), wrong_one);
        }
        let mut beside = Ok(());
        let _ = guard(path, at("09:00:00"), || {
            beside = guard(path, at("09:00:00"), wrong_one);
            wrong_one()
        });
        assert_eq!(beside.unwrap_err().code, ErrorCode::Wait, "while one is looked at, no other one is");
        assert_eq!(tries(path).failed, FREE + 1, "and each is counted once");
        let busy = || Err::<(), _>(DeskError::failed("busy"));
        assert_eq!(guard(path, at("10:00:00"), busy).unwrap_err().code, ErrorCode::Failed, "another refusal");
        assert_eq!(tries(path).failed, FREE + 1, "is no wrong passphrase");
        guard(path, at("10:00:00"), || Ok(())).unwrap();
        assert_eq!(tries(path), Tries::default(), "the right one ends it");
    }
}
