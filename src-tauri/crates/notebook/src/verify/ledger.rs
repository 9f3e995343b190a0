//! The ledger: every row there, each following from the one before.

use std::collections::HashMap;

use rusqlite::Connection;

use super::VerifyReport;
use crate::NotebookError;
use crate::ledger::own_hash;

/// A row of the ledger.
pub(super) struct LedgerRow {
    pub position: i64,
    pub what: String,
    pub number: u32,
    pub hash: [u8; 32],
}

/// What the ledger says, by case, each in the order of the ledger.
pub(super) struct Ledger {
    /// The cases in the order in which they came in.
    pub cases: Vec<String>,
    rows: HashMap<String, Vec<LedgerRow>>,
}

impl Ledger {
    pub fn of(&self, case_id: &str) -> &[LedgerRow] {
        self.rows.get(case_id).map_or(&[], Vec::as_slice)
    }
}

/// Reads the ledger and names the first row that is missing or not what was written.
pub(super) fn look(connection: &Connection, report: &mut VerifyReport) -> Result<Ledger, NotebookError> {
    let mut ledger = Ledger { cases: Vec::new(), rows: HashMap::new() };
    let mut statement = connection.prepare(include_str!("ledger.sql"))?;
    let mut rows = statement.query([])?;
    let (mut before, mut whole) = ((0_i64, None::<[u8; 32]>), true);
    while let Some(row) = rows.next()? {
        let (position, what, case_id): (i64, String, String) = (row.get(0)?, row.get(1)?, row.get(2)?);
        let (number, hash): (u32, [u8; 32]) = (row.get(3)?, row.get(4)?);
        let (previous, own): (Option<[u8; 32]>, [u8; 32]) = (row.get(5)?, row.get(6)?);
        let computed = own_hash(position, &what, &case_id, number, &hash, previous.as_ref());
        let expected = before.0 + 1;
        let problem = if position != expected {
            Some(format!("Row {expected} of the ledger is missing."))
        } else if computed != own {
            Some(format!("Row {position} of the ledger ({what}, the entry {case_id}) is not what was written."))
        } else if previous != before.1 {
            Some(format!("Row {position} of the ledger does not follow from the row before it."))
        } else {
            None
        };
        if let (true, Some(problem)) = (whole, problem) {
            report.problems.push(problem);
            whole = false;
        }
        before = (position, Some(own));
        report.ledger_rows += 1;
        let of_case = ledger.rows.entry(case_id.clone()).or_insert_with(|| {
            ledger.cases.push(case_id);
            Vec::new()
        });
        of_case.push(LedgerRow { position, what, number, hash });
    }
    report.ledger_head = before.1.map(|own| own.iter().map(|byte| format!("{byte:02x}")).collect());
    Ok(ledger)
}
