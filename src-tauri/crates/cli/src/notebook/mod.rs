//! `notebook new`, `add`, `list`, `find`, `show` and `sign`.

use evengap_case::{CaseId, LocalTime};
use evengap_desk::{CaseLine, Desk, DeskError, FileRead};
use serde_json::json;

use crate::answer::{Answer, Ending};
use crate::arguments::{NotebookAct, NotebookFile};
use crate::passphrase;

/// Letters of a cell; the longest procedure and an identifier fit.
const WIDEST: usize = 48;

/// Does one act in a notebook. `fresh` gives an identifier that no case has.
pub fn run(mut desk: Desk, act: NotebookAct, now: LocalTime, fresh: impl Fn() -> CaseId) -> Result<Answer, DeskError> {
    match act {
        NotebookAct::New { notebook, writer } => {
            let passphrase = passphrase::ask_new(notebook.passphrase_file.as_deref())?;
            let state = desk.notebook_create(&notebook.path, &passphrase, &writer, now)?;
            Ok(Answer::new(format!("{}\n", state.path), json!(state)))
        }
        NotebookAct::Add { notebook, cases } => {
            // Every file is read before the notebook is touched.
            let read = cases.iter().map(|path| desk.case_from_file(path)).collect::<Result<Vec<_>, _>>()?;
            let notes: Vec<String> = read.iter().filter_map(FileRead::not_known).collect();
            let unknown: Vec<_> = read.iter().map(|file| json!({ "path": file.path, "keys": file.unknown })).collect();
            open(&mut desk, &notebook)?;
            let added = desk.cases_add(read.into_iter().map(|file| (file.case, fresh())).collect(), now)?;
            let text = added
                .iter()
                .map(|one| if one.new { format!("{}\n", one.id) } else { format!("{} was there already\n", one.id) })
                .collect();
            Ok(Answer { text, json: json!({ "added": added, "unknown": unknown }), notes, ending: Ending::Fine })
        }
        NotebookAct::List { notebook } => {
            open(&mut desk, &notebook)?;
            Ok(lines(&desk.cases_find("")?))
        }
        NotebookAct::Find { notebook, words } => {
            open(&mut desk, &notebook)?;
            Ok(lines(&desk.cases_find(&words.join(" "))?))
        }
        NotebookAct::Show { notebook, id } => {
            open(&mut desk, &notebook)?;
            let entry = desk.case_show(&id)?;
            Ok(Answer::new(entry.case.to_json(), json!(entry)))
        }
        NotebookAct::Sign { notebook, id } => {
            open(&mut desk, &notebook)?;
            let seen = desk.case_show(&id)?.case.to_value();
            let entry = desk.case_sign(seen, now).map_err(every_place)?;
            let signed = entry.signed.as_ref().map(|signed| format!("Signed by {} on {}.\n", signed.by, signed.at));
            Ok(Answer::new(signed.unwrap_or_default(), json!(entry)))
        }
    }
}

/// Puts a line for each place under the sentence.
fn every_place(error: DeskError) -> DeskError {
    let places: String = error.places.iter().map(|place| format!("\n{}: {}", place.path, place.message)).collect();
    DeskError { message: format!("{}{places}", error.message), ..error }
}

fn open(desk: &mut Desk, notebook: &NotebookFile) -> Result<(), DeskError> {
    let passphrase = passphrase::ask(notebook.passphrase_file.as_deref())?;
    desk.notebook_open(&notebook.path, &passphrase).map(drop)
}

/// Sets the lines as a table. A name that would widen it beyond use is cut; signs that would move the
/// terminal's cursor become spaces.
fn lines(cases: &[CaseLine]) -> Answer {
    let rows: Vec<Vec<String>> = cases
        .iter()
        .map(|line| {
            let state = line.state.code();
            [&line.operation_date, &line.name, &line.hospital_number, &line.side, &line.procedure, state, &line.id]
                .into_iter()
                .map(cell)
                .collect()
        })
        .collect();
    let columns = rows.first().map_or(0, Vec::len);
    let width = |column: usize| rows.iter().map(|row| row[column].chars().count()).max().unwrap_or(0);
    let widths: Vec<usize> = (0..columns).map(width).collect();
    let mut text = String::new();
    for row in &rows {
        let cells: Vec<String> = row.iter().zip(&widths).map(|(cell, &width)| format!("{cell:<width$}")).collect();
        text.push_str(cells.join("  ").trim_end());
        text.push('\n');
    }
    Answer::new(text, json!({ "cases": cases }))
}

fn cell(text: &str) -> String {
    let mut cell: String =
        text.chars().take(WIDEST).map(|letter| if letter.is_control() { ' ' } else { letter }).collect();
    if text.chars().count() > WIDEST {
        cell.push('…');
    }
    cell
}
