//! `notebook`: cases, papers and history; people, safety and exchange have files of their own.

mod exchange;
mod people;
mod safety;

use std::path::Path;

use evengap_case::{CaseId, LocalTime};
use evengap_desk::{
    CaseLine, Desk, DeskError, ErrorCode, FileRead, HistoryStep, NotebookState, OverrideAsked, PaperChoice,
    PaperFormat, StepKind,
};
use serde_json::json;

use crate::answer::{Answer, Ending};
use crate::arguments::{NotebookAct, NotebookFile};
use crate::passphrase;

/// Letters of a cell; the longest procedure and an identifier fit.
const WIDEST: usize = 48;

/// Said with everything that leaves a notebook readable.
const UNPROTECTED: &str = "What is written here leaves the notebook's protection: whoever has it can read it.";

/// The present time, twice: as it was given, and by the computer's clock, which alone tells how long ago a wrong
/// passphrase was typed.
#[derive(Clone, Copy)]
pub struct Now {
    pub given: LocalTime,
    pub clock: LocalTime,
}

/// Does one act in a notebook. `fresh` gives an identifier that no case has.
pub fn run(mut desk: Desk, act: NotebookAct, time: Now, fresh: impl Fn() -> CaseId) -> Result<Answer, DeskError> {
    let now = time.given;
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
            let opened = open(&mut desk, &notebook, time)?;
            let notes = [kept_as(&opened), notes].concat();
            let added = desk.cases_add(read.into_iter().map(|file| (file.case, fresh())).collect(), now)?;
            let text = added
                .iter()
                .map(|one| if one.new { format!("{}\n", one.id) } else { format!("{} was there already\n", one.id) })
                .collect();
            Ok(Answer { text, json: json!({ "added": added, "unknown": unknown }), notes, ending: Ending::Fine })
        }
        NotebookAct::List { notebook } => {
            let opened = open(&mut desk, &notebook, time)?;
            Ok(Answer { notes: kept_as(&opened), ..lines(&desk.cases_find("")?) })
        }
        NotebookAct::Find { notebook, words } => {
            open(&mut desk, &notebook, time)?;
            Ok(lines(&desk.cases_find(&words.join(" "))?))
        }
        NotebookAct::Show { notebook, id } => {
            open(&mut desk, &notebook, time)?;
            let entry = desk.case_show(&id)?;
            Ok(Answer { notes: vec![UNPROTECTED.into()], ..Answer::new(entry.case.to_json(), json!(entry)) })
        }
        NotebookAct::Sign { notebook, id, overrides } => {
            let overrides = overrides.as_deref().map(overrides_in).transpose()?.unwrap_or_default();
            open(&mut desk, &notebook, time)?;
            let seen = desk.case_show(&id)?.case.to_value();
            let entry = desk
                .case_sign(seen, &overrides, now)
                .map_err(every_place)
                .map_err(|error| in_spite(&desk, &id, error))?;
            let signed = entry.signed.as_ref().map(|signed| format!("Signed by {} on {}.\n", signed.by, signed.at));
            Ok(Answer::new(signed.unwrap_or_default(), json!(entry)))
        }
        NotebookAct::History { notebook, id } => {
            open(&mut desk, &notebook, time)?;
            let steps = desk.case_history(&id)?;
            let text = steps.iter().map(step).collect();
            Ok(Answer { notes: vec![UNPROTECTED.into()], ..Answer::new(text, json!({ "steps": steps })) })
        }
        NotebookAct::Print { notebook, kind, id, to, language, page, number, replace } => {
            let format = PaperFormat::of_file(&to)?;
            open(&mut desk, &notebook, time)?;
            let choice = PaperChoice { kind, language, page: page.into(), addendum: number };
            let exported = desk.paper_export_of(&id, choice, format, (&to, replace), now).map_err(how_to_replace)?;
            let mut notes = exported.warnings.clone();
            notes.extend(exported.unfinished.iter().map(|why| format!("The paper is unfinished: {why}")));
            notes.push(UNPROTECTED.into());
            let ending = Ending::blocked_if(!exported.unfinished.is_empty());
            Ok(Answer { text: format!("{}\n", exported.path), json: json!(exported), notes, ending })
        }
        NotebookAct::Verify { notebook } => safety::verify(desk, &notebook, time),
        NotebookAct::BackUp { notebook, to, replace } => safety::back_up(desk, &notebook, to.as_deref(), replace, time),
        NotebookAct::Restore { notebook, to } => safety::restore(&desk, &notebook, &to, time),
        NotebookAct::People { notebook } => people::list(desk, &notebook, time),
        NotebookAct::PersonAdd { notebook, name, role, keeper, fresh } => {
            people::add(desk, &notebook, (&name, role, keeper), &fresh, time)
        }
        NotebookAct::PersonChange { notebook, person, role, keeper } => {
            people::change(desk, &notebook, &person, (role, keeper), time)
        }
        NotebookAct::PersonRemove { notebook, person } => people::remove(desk, &notebook, &person, time),
        NotebookAct::Passphrase { notebook, person, fresh } => {
            people::passphrase(desk, &notebook, person.as_deref(), &fresh, time)
        }
        NotebookAct::RecoverySheet { notebook, to, page, replace } => {
            people::recovery_sheet(desk, &notebook, &to, page.into(), replace, time)
        }
        NotebookAct::Send { notebook, to, cases, fresh, replace } => {
            exchange::send(desk, &notebook, (&to, replace), &cases, &fresh, time)
        }
        NotebookAct::Receive { notebook, from, fresh } => exchange::receive(desk, &notebook, &from, &fresh, time),
        NotebookAct::Conflicts { notebook, number } => exchange::conflicts(desk, &notebook, number, time),
        NotebookAct::Settle { notebook, number, keep } => exchange::settle(desk, &notebook, number, keep.into(), time),
    }
}

/// Reads the findings in spite of which an entry is to be signed.
fn overrides_in(file: &Path) -> Result<Vec<OverrideAsked>, DeskError> {
    let shown = file.display();
    let text = std::fs::read_to_string(file)
        .map_err(|error| DeskError::failed(format!("{shown} cannot be read: {error}. Give a file with overrides.")))?;
    serde_json::from_str(&text).map_err(|error| {
        DeskError::failed(format!(
            "{shown}: these are no overrides ({error}). Write [{{ \"rule\": …, \"paths\": […], \"reason\": … }}]."
        ))
    })
}

/// A saved state in words: who, when, and each answer before and after.
fn step(step: &HistoryStep) -> String {
    let what = match step.kind {
        StepKind::Draft => "saved".to_owned(),
        StepKind::Signed => "signed".to_owned(),
        StepKind::Addendum => format!("added ({})", step.number.saturating_sub(1)),
    };
    let mut text = format!("{}  {what} by {}  {}\n", step.at, plain(&step.by), &step.node[..step.node.len().min(16)]);
    text.extend(step.text.iter().map(|words| format!("  “{}”\n", plain(words))));
    for change in &step.changes {
        let shown = |value: &Option<serde_json::Value>| match value {
            None => "not recorded".to_owned(),
            Some(serde_json::Value::String(text)) => plain(text),
            Some(other) => other.to_string(),
        };
        let unit = change.unit.map(|unit| format!(" {unit}")).unwrap_or_default();
        let place = change.labels.join(", ");
        text.push_str(&format!("  {}: {} -> {}{unit}\n", plain(&place), shown(&change.before), shown(&change.now)));
    }
    text
}

/// Takes out of a text what would move the terminal's cursor.
fn plain(text: &str) -> String {
    text.chars().map(|letter| if letter.is_control() { ' ' } else { letter }).collect()
}

/// Says how a file that exists is replaced.
fn how_to_replace(error: DeskError) -> DeskError {
    match error.code {
        ErrorCode::Exists => DeskError { message: format!("{} (--replace replaces it.)", error.message), ..error },
        _ => error,
    }
}

/// Says where the file of an older layout was kept.
fn kept_as(state: &NotebookState) -> Vec<String> {
    let said = |path: &String| format!("The notebook was brought up to date. The file from before is kept as {path}.");
    state.kept_as.iter().map(said).collect()
}

/// Puts a line for each place under the sentence.
fn every_place(error: DeskError) -> DeskError {
    let places: String = error.places.iter().map(|place| format!("\n{}: {}", place.path, place.message)).collect();
    DeskError { message: format!("{}{places}", error.message), ..error }
}

/// Says how to sign in spite of findings, where there are any that state what may be true all the same.
fn in_spite(desk: &Desk, id: &str, error: DeskError) -> DeskError {
    if error.code != ErrorCode::Refused {
        return error;
    }
    let found = desk.case_show(id).and_then(|entry| desk.case_review(entry.case.to_value())).unwrap_or_default();
    let asked = found.iter().filter(|finding| finding.blocks && finding.overridable);
    let asked: Vec<_> = asked.map(|one| json!({ "rule": one.rule, "paths": one.paths, "reason": "" })).collect();
    if asked.is_empty() {
        return error;
    }
    let how =
        "If it is true all the same, give the reason in a file and name it with --overrides; it prints on the note:";
    DeskError { message: format!("{}\n{how}\n{}", error.message, json!(asked)), ..error }
}

fn open(desk: &mut Desk, notebook: &NotebookFile, time: Now) -> Result<NotebookState, DeskError> {
    let passphrase = passphrase::ask(notebook.passphrase_file.as_deref())?;
    desk.notebook_open(&notebook.path, &passphrase, time.clock)
}

/// Sets the lines as a table. A name that would widen it beyond use is cut; signs that would move the
/// terminal's cursor become spaces.
fn lines(cases: &[CaseLine]) -> Answer {
    let rows = cases
        .iter()
        .map(|line| {
            let state = line.state.code();
            [&line.operation_date, &line.name, &line.hospital_number, &line.side, &line.procedure, state, &line.id]
                .into_iter()
                .map(cell)
                .collect()
        })
        .collect();
    Answer::new(table(rows), json!({ "cases": cases }))
}

/// Sets rows of equal length as a table.
fn table(rows: Vec<Vec<String>>) -> String {
    let columns = rows.first().map_or(0, Vec::len);
    let width = |column: usize| rows.iter().map(|row| row[column].chars().count()).max().unwrap_or(0);
    let widths: Vec<usize> = (0..columns).map(width).collect();
    let mut text = String::new();
    for row in &rows {
        let cells: Vec<String> = row.iter().zip(&widths).map(|(cell, &width)| format!("{cell:<width$}")).collect();
        text.push_str(cells.join("  ").trim_end());
        text.push('\n');
    }
    text
}

fn cell(text: &str) -> String {
    let mut cell: String =
        text.chars().take(WIDEST).map(|letter| if letter.is_control() { ' ' } else { letter }).collect();
    if text.chars().count() > WIDEST {
        cell.push('…');
    }
    cell
}
