//! Tables made from the entries for lists, search and trace. They can be thrown away at any time.

mod components;
pub(crate) mod folding;
mod line;
mod text;
pub(crate) mod words;

use evengap_case::Case;
use rusqlite::{OptionalExtension, Transaction, params};

use crate::gate::Changed;
use crate::{Notebook, NotebookError};

impl Notebook {
    /// Makes every projection anew from the entries.
    ///
    /// # Errors
    /// When an entry cannot be read, or the file cannot be written.
    pub fn rebuild(&mut self) -> Result<(), NotebookError> {
        self.write(|transaction| {
            rebuild(transaction)?;
            Ok(Changed { result: (), cases: Vec::new() })
        })
    }
}

/// Empties the projections and fills them from the entries, in the order in which cases were begun.
pub(crate) fn rebuild(transaction: &Transaction<'_>) -> Result<(), NotebookError> {
    transaction.execute_batch(include_str!("clear.sql"))?;
    let mut statement = transaction.prepare(include_str!("every_case.sql"))?;
    let cases: Vec<String> = statement.query_map([], |row| row.get(0))?.collect::<Result<_, _>>()?;
    project_all(transaction, &cases)
}

/// Pages of the search index that are merged for each entry whose words changed: enough that the parts of the index stay
/// few, and so few that nobody waits for it. Measured on 100,000 entries; 24 at every save made one in a hundred slow.
const MERGED_PAGES: usize = 16;

/// Makes the projections of these cases anew.
pub(crate) fn project_all(transaction: &Transaction<'_>, cases: &[String]) -> Result<(), NotebookError> {
    let mut changed = 0;
    for case_id in cases {
        changed += usize::from(project_one(transaction, case_id)?);
    }
    if changed > 0 {
        let pages = i64::try_from(changed.saturating_mul(MERGED_PAGES)).unwrap_or(i64::MAX);
        transaction.prepare_cached(include_str!("text_merge.sql"))?.execute([pages])?;
    }
    Ok(())
}

/// Makes the projections of one case anew.
pub(crate) fn project(transaction: &Transaction<'_>, case_id: &str) -> Result<(), NotebookError> {
    project_one(transaction, case_id).map(drop)
}

/// Makes the projections of one case anew; tells whether what search knows of it changed.
fn project_one(transaction: &Transaction<'_>, case_id: &str) -> Result<bool, NotebookError> {
    let newest = transaction
        .prepare_cached(include_str!("../cases/newest.sql"))?
        .query_row([case_id], |row| {
            Ok((row.get::<_, String>("body")?, row.get::<_, String>("state")?, row.get::<_, String>("written_at")?))
        })
        .optional()?;
    let Some((body, state, saved_at)) = newest else { return Ok(false) };
    let case: Case =
        serde_json::from_str(&body).map_err(|source| NotebookError::Unreadable { id: case_id.to_owned(), source })?;
    let kept = line::write(transaction, case_id, &case, &state, &saved_at)?;
    components::write(transaction, kept.row, &case)?;
    let (place, text) = (line::place(kept.row, &case, &saved_at), text::of(&case));
    let sum = text.sum();
    if kept.place == Some(place) && kept.text_sum.as_deref() == Some(&sum) {
        return Ok(false);
    }
    if let Some(before) = kept.place {
        transaction.prepare_cached(include_str!("text_clear.sql"))?.execute([before])?;
    }
    transaction.prepare_cached(include_str!("place.sql"))?.execute(params![kept.row, place, sum])?;
    transaction.prepare_cached(include_str!("text.sql"))?.execute(params![
        place,
        text.names,
        text.numbers,
        text.dates,
        text.components,
        text.texts
    ])?;
    words::add(transaction, &[&text.names, &text.numbers, &text.dates, &text.components, &text.texts])?;
    Ok(true)
}
