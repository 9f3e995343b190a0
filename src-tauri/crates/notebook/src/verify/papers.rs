//! The papers: those that are kept each in the ledger, and these and those that lie aside byte for byte as they were made.

use std::collections::HashMap;

use rusqlite::Connection;
use sha2::{Digest, Sha256};

use super::VerifyReport;
use super::ledger::Ledger;
use crate::NotebookError;
use crate::ledger::PaperRow;

/// Looks at every kept paper, one after the other.
pub(super) fn look(connection: &Connection, ledger: &Ledger, report: &mut VerifyReport) -> Result<(), NotebookError> {
    // Position, and whether a paper was found for it.
    let mut entered: HashMap<(String, u32, [u8; 32]), (i64, bool)> = HashMap::new();
    for case_id in &ledger.cases {
        for row in ledger.of(case_id).iter().filter(|row| row.what == "paper") {
            entered.insert((case_id.clone(), row.number, row.hash), (row.position, false));
        }
    }
    // Papers that are not the entered ones, by version: such a one is not missing as well.
    let mut strangers: HashMap<(String, u32), usize> = HashMap::new();
    let mut statement = connection.prepare(include_str!("papers.sql"))?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        let (paper, sum): (PaperRow, [u8; 32]) = (PaperRow::read(row)?, row.get("sha256")?);
        let bytes: Vec<u8> = row.get("bytes")?;
        let which = format!("kept {} of version {} of the entry {}", paper.kind, paper.number, paper.case_id);
        report.papers += 1;
        if sum != <[u8; 32]>::from(Sha256::digest(&bytes)) {
            report.problems.push(format!("The bytes of the {which} are not what was written."));
        }
        match entered.get_mut(&(paper.case_id.clone(), paper.number, paper.hash)) {
            Some((_, found)) if !*found => *found = true,
            _ => {
                report.problems.push(format!("The {which} is not one that the ledger has."));
                *strangers.entry((paper.case_id, paper.number)).or_default() += 1;
            }
        }
    }
    let mut missing: Vec<_> = entered.into_iter().filter(|(_, (_, found))| !found).collect();
    missing.sort_by_key(|(_, (position, _))| *position);
    for ((case_id, number, _), (position, _)) in missing {
        match strangers.get_mut(&(case_id.clone(), number)) {
            Some(left) if *left > 0 => *left -= 1,
            _ => report.problems.push(format!(
                "A kept paper of version {number} of the entry {case_id} is missing; row {position} of the ledger has it."
            )),
        }
    }
    aside(connection, report)
}

/// Looks at the papers that came from another notebook and wait; the ledger has only those that are kept.
fn aside(connection: &Connection, report: &mut VerifyReport) -> Result<(), NotebookError> {
    let mut statement = connection.prepare(include_str!("aside_papers.sql"))?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        let (case_id, kind, sum): (String, String, [u8; 32]) = (row.get(0)?, row.get(1)?, row.get(2)?);
        let bytes: Vec<u8> = row.get(3)?;
        if sum != <[u8; 32]>::from(Sha256::digest(&bytes)) {
            report.problems.push(format!(
                "The bytes of the {kind} of the entry {case_id} that came from another notebook and lies aside are not \
                 what was written."
            ));
        }
    }
    Ok(())
}
