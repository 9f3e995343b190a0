//! `notebook people`, `person-add`, `person-change`, `person-remove`, `passphrase` and `recovery-sheet`.

use std::path::Path;

use evengap_desk::{Desk, DeskError, PageSize, PersonLine, Role};
use serde_json::json;

use super::{Now, cell, how_to_replace, open, table};
use crate::answer::Answer;
use crate::arguments::{NewPassphrase, NotebookFile};
use crate::passphrase;

const NEW: &str = "New passphrase: ";

pub fn list(mut desk: Desk, notebook: &NotebookFile, time: Now) -> Result<Answer, DeskError> {
    open(&mut desk, notebook, time)?;
    let people = desk.people()?;
    let rows =
        people.iter().map(|person| [&person.name, &standing(person), &person.mark].map(|text| cell(text)).to_vec());
    Ok(Answer::new(table(rows.collect()), json!({ "people": people })))
}

fn standing(person: &PersonLine) -> String {
    let role = person.role.code();
    match (&person.removed_at, person.from_elsewhere, person.keeper && person.role != Role::Keeper) {
        (Some(at), ..) => format!("{role}, removed on {at}"),
        (None, true, _) => "from another notebook".to_owned(),
        (None, false, true) => format!("{role} and keeper"),
        (None, false, false) => role.to_owned(),
    }
}

pub fn add(
    mut desk: Desk,
    notebook: &NotebookFile,
    (name, role, keeper): (&str, Role, bool),
    fresh: &NewPassphrase,
    time: Now,
) -> Result<Answer, DeskError> {
    open(&mut desk, notebook, time)?;
    let passphrase = passphrase::ask_second(fresh.file.as_deref(), NEW, true)?;
    let mark = desk.person_add(name, role, keeper, &passphrase, time.given)?;
    Ok(Answer::new(format!("{mark}\n"), json!({ "mark": mark })))
}

pub fn change(
    mut desk: Desk,
    notebook: &NotebookFile,
    person: &str,
    (role, keeper): (Role, bool),
    time: Now,
) -> Result<Answer, DeskError> {
    open(&mut desk, notebook, time)?;
    let mark = found(&desk, person)?;
    desk.person_change(&mark, role, keeper)?;
    Ok(done(&mark))
}

pub fn remove(mut desk: Desk, notebook: &NotebookFile, person: &str, time: Now) -> Result<Answer, DeskError> {
    open(&mut desk, notebook, time)?;
    let mark = found(&desk, person)?;
    desk.person_remove(&mark, time.given)?;
    let note = "Copies and backups of the notebook from before still open with that person's passphrase.";
    Ok(Answer { notes: vec![note.into()], ..done(&mark) })
}

pub fn passphrase(
    mut desk: Desk,
    notebook: &NotebookFile,
    person: Option<&str>,
    fresh: &NewPassphrase,
    time: Now,
) -> Result<Answer, DeskError> {
    let old = passphrase::ask(notebook.passphrase_file.as_deref())?;
    let state = desk.notebook_open(&notebook.path, &old, time.clock)?;
    let mark = person.map(|person| found(&desk, person)).transpose()?;
    let new = passphrase::ask_second(fresh.file.as_deref(), NEW, true)?;
    match &mark {
        Some(mark) => desk.passphrase_set(mark, &new)?,
        None => desk.passphrase_change(&old, &new, time.clock)?,
    }
    let note = "Copies and backups of the notebook from before still open with the old passphrase.";
    Ok(Answer { notes: vec![note.into()], ..done(&mark.unwrap_or(state.person.mark)) })
}

pub fn recovery_sheet(
    mut desk: Desk,
    notebook: &NotebookFile,
    to: &Path,
    page: PageSize,
    replace: bool,
    time: Now,
) -> Result<Answer, DeskError> {
    open(&mut desk, notebook, time)?;
    let path = desk.recovery_sheet(to, replace, page, time.given).map_err(how_to_replace)?;
    let note = "Whoever has this sheet and the notebook can open it. Print it, lock it away, and delete the file. A sheet \
                from before no longer opens it; backups from before open with that sheet still.";
    Ok(Answer { notes: vec![note.into()], ..Answer::new(format!("{path}\n"), json!({ "path": path })) })
}

/// Finds a person by mark or name.
fn found(desk: &Desk, asked: &str) -> Result<String, DeskError> {
    let people = desk.people()?;
    let here = |person: &&PersonLine| person.removed_at.is_none() && !person.from_elsewhere;
    let line = people.iter().filter(here).find(|person| person.mark == asked || person.name == asked);
    line.map(|line| line.mark.clone()).ok_or_else(|| {
        DeskError::failed(format!(
            "There is nobody called {asked} who can open the notebook; `notebook people` lists all."
        ))
    })
}

fn done(mark: &str) -> Answer {
    Answer::new(format!("{mark}\n"), json!({ "mark": mark }))
}
