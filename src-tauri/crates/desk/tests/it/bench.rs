//! A folder, a clock that stands still, and an entry.

use evengap_case::{Case, CaseId, LocalTime};
use evengap_desk::{Cost, Desk, DeskError, ErrorCode, Saved};
use serde_json::{Value, json};
use tempfile::TempDir;
use uuid::Uuid;

/// The passphrase of every notebook made here.
pub const PASSPHRASE: &str = "open sesame, said the book";

pub fn folder() -> TempDir {
    TempDir::new().unwrap()
}

pub fn at(clock: &str) -> LocalTime {
    format!("2026-06-30T{clock}").parse().unwrap()
}

pub fn id(n: u128) -> CaseId {
    CaseId(Uuid::from_u128(n))
}

/// A desk whose notebooks take no time to open.
pub fn quick() -> Desk {
    Desk::with_cost(Cost::LEAST)
}

/// Saves over whatever is stored.
pub fn save(desk: &mut Desk, case: Value, now: LocalTime) -> Result<Saved, DeskError> {
    let version = case["id"].as_str().and_then(|id| desk.case_show(id).ok()).map(|entry| entry.version);
    desk.case_save(case, version.as_deref(), now)
}

/// A desk with a new, empty notebook open in a folder.
pub fn desk_in(folder: &TempDir) -> Desk {
    let mut desk = quick();
    desk.notebook_create(&folder.path().join("knees.evengap"), PASSPHRASE, "Ms Orla Quill", at("08:00")).unwrap();
    desk
}

/// An entry as the window sends it.
pub fn entry(n: u128, family: &str) -> Value {
    json!({
        "format": "evengap-case/1",
        "id": id(n).to_string(),
        "patient": { "family_name": family, "given_name": "Mavis" },
        "setting": { "operation_date": "2026-03-04" },
        "knee": { "side": "left" },
    })
}

/// Expects a refusal with a code; gives its sentence.
#[track_caller]
pub fn refused<T>(outcome: Result<T, DeskError>, code: ErrorCode) -> String {
    let Err(error) = outcome else { panic!("this was expected to be refused as {code:?}") };
    assert_eq!(error.code, code, "{}", error.message);
    error.message
}

/// A demonstration case that nothing stands against.
pub fn finished() -> Case {
    let (_, case) = Desk::new().demo_cases().unwrap().into_iter().find(|(name, _)| *name == FINISHED).unwrap();
    case
}

/// The demonstration case that is signed in these tests.
pub const FINISHED: &str = "medial-part";
