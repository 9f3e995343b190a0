//! What lists and search read, held against what a rebuild makes of each entry. Nothing is lost where they differ.

use rusqlite::types::Value;
use rusqlite::{Connection, Transaction, params};

use super::VerifyReport;
use crate::file::migrations;
use crate::{NotebookError, projections};

/// Looks at the line and the components of every case, and whether search knows it.
pub(super) fn look(connection: &Connection, report: &mut VerifyReport) -> Result<(), NotebookError> {
    // A notebook of its own in memory, which holds one case after the other.
    let mut bench = Connection::open_in_memory()?;
    bench.pragma_update(None, "foreign_keys", false)?;
    let bench = bench.transaction()?;
    migrations::run(&bench)?;
    bench.execute_batch(include_str!("bench.sql"))?;
    let mut newest = connection.prepare(include_str!("newest.sql"))?;
    let mut rows = newest.query([])?;
    let mut differing = 0_u32;
    let mut first: Option<String> = None;
    while let Some(row) = rows.next()? {
        let (case_id, kind, written_at, body, line): (String, String, String, String, Option<i64>) =
            (row.get(0)?, row.get(1)?, row.get(2)?, row.get(3)?, row.get(4)?);
        let same = match line {
            Some(line) => same(connection, &bench, line, &Entry { case_id: &case_id, kind, written_at, body })?,
            None => false,
        };
        if !same {
            differing += 1;
            first.get_or_insert(case_id);
        }
    }
    let lines: u32 = connection.query_row("SELECT count(*) FROM case_line", [], |row| row.get(0))?;
    let texts: u32 = connection.query_row("SELECT count(*) FROM case_text", [], |row| row.get(0))?;
    let again = "Nothing that was written is lost: list and search can be made again.";
    match first {
        Some(first) if differing == 1 => {
            report.problems.push(format!("What list and search know of the entry {first} is not what it says. {again}"))
        }
        Some(first) => report.problems.push(format!(
            "What list and search know of {differing} entries is not what these say, the first being {first}. {again}"
        )),
        None if lines != report.entries => {
            report.problems.push(format!("The list has {lines} cases for {} entries. {again}", report.entries));
        }
        None if texts != lines => {
            report.problems.push(format!("Search knows {texts} of {lines} cases. {again}"));
        }
        None => {}
    }
    Ok(())
}

/// The newest version of an entry.
struct Entry<'a> {
    case_id: &'a str,
    kind: String,
    written_at: String,
    body: String,
}

/// Makes the projections of one entry on the bench and compares them.
fn same(connection: &Connection, bench: &Transaction<'_>, line: i64, entry: &Entry<'_>) -> Result<bool, NotebookError> {
    bench.execute_batch(include_str!("bench_clear.sql"))?;
    let given = params![entry.case_id, entry.kind, entry.written_at, entry.body];
    bench.prepare_cached(include_str!("bench_entry.sql"))?.execute(given)?;
    bench.prepare_cached(include_str!("bench_line.sql"))?.execute(params![line, entry.case_id])?;
    match projections::project(bench, entry.case_id) {
        Err(NotebookError::Unreadable { .. }) => return Ok(false),
        projected => projected?,
    }
    for sql in [include_str!("line.sql"), include_str!("components.sql"), include_str!("text.sql")] {
        if table(connection, sql, line)? != table(bench, sql, line)? {
            return Ok(false);
        }
    }
    Ok(true)
}

fn table(connection: &Connection, sql: &str, line: i64) -> rusqlite::Result<Vec<Vec<Value>>> {
    let mut statement = connection.prepare_cached(sql)?;
    let columns = statement.column_count();
    let rows = statement.query_map([line], |row| (0..columns).map(|at| row.get(at)).collect())?;
    rows.collect()
}
