//! The list of cases: one line each, read from the projection.

use evengap_case::CaseId;
use rusqlite::types::{FromSql, FromSqlError, FromSqlResult, ValueRef};
use rusqlite::{Params, Row};
use serde::{Deserialize, Serialize};
use ts_rs::TS;

use crate::{Notebook, NotebookError};

/// Whether an entry may still change.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, TS)]
#[serde(rename_all = "snake_case")]
pub enum State {
    /// Being written.
    Draft,
    /// Signed; never changes.
    Signed,
}

/// One case in a list. Blank text means "not recorded".
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct CaseLine {
    /// The case identifier (UUID).
    pub id: String,
    /// Family name, given name.
    pub name: String,
    /// As printed on the wristband.
    pub hospital_number: String,
    /// `YYYY-MM-DD`.
    pub birth_date: String,
    /// `YYYY-MM-DD`.
    pub operation_date: String,
    /// In words.
    pub side: String,
    /// In words.
    pub procedure: String,
    /// Draft or signed.
    pub state: State,
    /// `YYYY-MM-DDTHH:MM`.
    pub saved_at: String,
}

impl Notebook {
    /// Lists every case, newest operation first; one without operation date stands at the day on which it was last
    /// saved. Those of one day stand in the order in which they were begun, newest first.
    ///
    /// # Errors
    /// When the file cannot be read.
    pub fn list(&self) -> Result<Vec<CaseLine>, NotebookError> {
        self.find("")
    }

    /// Counts the cases.
    ///
    /// # Errors
    /// When the file cannot be read.
    pub fn count(&self) -> Result<u32, NotebookError> {
        self.read(|connection| Ok(connection.query_row(include_str!("count.sql"), [], |row| row.get(0))?))
    }

    pub(super) fn lines(&self, sql: &str, given: impl Params) -> Result<Vec<CaseLine>, NotebookError> {
        self.read(|connection| {
            let mut statement = connection.prepare_cached(sql)?;
            let lines = statement.query_map(given, line)?;
            Ok(lines.collect::<Result<_, _>>()?)
        })
    }
}

fn line(row: &Row<'_>) -> rusqlite::Result<CaseLine> {
    Ok(CaseLine {
        id: row.get("id")?,
        name: row.get("name")?,
        hospital_number: row.get("hospital_number")?,
        birth_date: row.get("birth_date")?,
        operation_date: row.get("operation_date")?,
        side: row.get("side")?,
        procedure: row.get("procedure")?,
        state: row.get("state")?,
        saved_at: row.get("saved_at")?,
    })
}

impl State {
    /// The stored word.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Draft => "draft",
            Self::Signed => "signed",
        }
    }
}

impl FromSql for State {
    fn column_result(value: ValueRef<'_>) -> FromSqlResult<Self> {
        match value.as_str()? {
            "draft" => Ok(Self::Draft),
            "signed" => Ok(Self::Signed),
            _ => Err(FromSqlError::InvalidType),
        }
    }
}

/// The key under which an entry's rows are kept.
pub(crate) fn key(id: CaseId) -> String {
    id.to_string()
}
