//! How deep an entry may be nested: one limit for saving and for exchanging, so that whatever is saved can be exchanged.
//!
//! The reader of JSON goes no deeper than 127 levels, and a way back has two more than what it restores. What a person
//! wrote stays far below; only keys that the program does not know could go deeper.

use evengap_case::CaseId;
use serde_json::Value;

use crate::NotebookError;

/// Levels that an entry may have, and names that a path of a patch may have.
pub(crate) const DEEPEST: usize = 100;

/// Refuses an entry that could not be read again.
pub(crate) fn check_depth(id: CaseId, body: &Value) -> Result<(), NotebookError> {
    if depth(body) > DEEPEST { Err(NotebookError::TooDeep { id, deepest: DEEPEST }) } else { Ok(()) }
}

/// Counts the levels of lists and objects; a lone word or number has none.
pub(crate) fn depth(value: &Value) -> usize {
    match value {
        Value::Array(items) => 1 + items.iter().map(depth).max().unwrap_or(0),
        Value::Object(map) => 1 + map.values().map(depth).max().unwrap_or(0),
        _ => 0,
    }
}
