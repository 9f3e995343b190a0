//! Labels of components: scans and pictures.

use evengap_desk::{Desk, DeskError, Scanned};
use serde_json::Value;
use tauri::State;
use tauri::ipc::{InvokeBody, Request};

use crate::desktop::{Desktop, now};

type Answer<T> = Result<T, DeskError>;

/// Reads a scan for an entry as it stands on the screen.
#[tauri::command(async)]
pub fn scan_read(desktop: State<'_, Desktop>, case: Value, scan: &str) -> Answer<Scanned> {
    desktop.desk().scan_read(case, scan, now())
}

/// Reads the codes in a picture of a label; the entry comes in front of the picture, in one body.
#[tauri::command(async)]
pub fn picture_read(request: Request<'_>) -> Answer<Vec<Scanned>> {
    let InvokeBody::Raw(body) = request.body() else { return Err(not_whole()) };
    let (case, picture) = split(body).ok_or_else(not_whole)?;
    // At a desk of its own: looking for codes may take seconds, and saving must not wait for it.
    Desk::new().picture_read(case, picture, now())
}

/// Gives what this place's scanners send between two parts of a label.
#[tauri::command(async)]
pub fn scanner_separators(desktop: State<'_, Desktop>) -> Answer<Vec<String>> {
    desktop.desk().scanner_separators()
}

/// Keeps what this place's scanners send between two parts of a label.
#[tauri::command(async)]
pub fn scanner_separators_save(desktop: State<'_, Desktop>, separators: Vec<String>) -> Answer<Vec<String>> {
    desktop.desk().scanner_separators_save(separators)
}

fn not_whole() -> DeskError {
    DeskError::failed("The picture did not arrive whole. Try it once more, or type the component by hand.")
}

/// Parts four bytes of length (most significant first), the entry's JSON of that length, and the picture.
fn split(body: &[u8]) -> Option<(Value, &[u8])> {
    let (length, rest) = body.split_first_chunk::<4>()?;
    let (json, picture) = rest.split_at_checked(usize::try_from(u32::from_be_bytes(*length)).ok()?)?;
    Some((serde_json::from_slice(json).ok()?, picture))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(body: &[u8], expected: Option<(&str, &[u8])>, reason: &str) {
        let found = split(body).map(|(case, picture)| (case.to_string(), picture));
        assert_eq!(found, expected.map(|(case, picture)| (case.to_owned(), picture)), "{reason}");
    }

    #[test]
    fn parts_entry_and_picture() {
        check(b"\0\0\0\x07{\"a\":1}\xff\xd8", Some(("{\"a\":1}", b"\xff\xd8")), "both are there");
        check(b"\0\0\0\x02{}", Some(("{}", b"")), "an empty picture is for the desk to refuse");
    }

    #[test]
    fn refuses_what_is_not_whole() {
        check(b"", None, "nothing came");
        check(b"\0\0\0", None, "no length");
        check(b"\0\0\0\x09{}", None, "shorter than its length");
        check(b"\xff\xff\xff\xff{}", None, "a length out of all proportion");
        check(b"\0\0\0\x02{]rest", None, "no JSON");
    }
}
