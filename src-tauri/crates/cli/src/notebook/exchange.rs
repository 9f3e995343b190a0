//! `notebook send`, `receive`, `conflicts` and `settle`.

use std::path::Path;

use evengap_desk::{CaseOutcome, Desk, DeskError, Keep};
use serde_json::{Value, json};

use super::{Now, UNPROTECTED, cell, how_to_replace, open, plain, table};
use crate::answer::{Answer, Ending};
use crate::arguments::{NewPassphrase, NotebookFile};
use crate::passphrase;

const PROMPT: &str = "Passphrase of the exchange file: ";

pub fn send(
    mut desk: Desk,
    notebook: &NotebookFile,
    (to, replace): (&Path, bool),
    cases: &[String],
    fresh: &NewPassphrase,
    time: Now,
) -> Result<Answer, DeskError> {
    open(&mut desk, notebook, time)?;
    let passphrase = passphrase::ask_second(fresh.file.as_deref(), PROMPT, true)?;
    let ids = (!cases.is_empty()).then_some(cases);
    let written = desk.exchange_write((to, replace), &passphrase, ids, time.given).map_err(how_to_replace)?;
    let note =
        "The file leaves the notebook's protection: it is encrypted, and whoever knows its passphrase reads all of it.";
    let text = format!("{}\nCases: {}.\n", written.path, written.cases);
    Ok(Answer { notes: vec![note.into()], ..Answer::new(text, json!(written)) })
}

pub fn receive(
    mut desk: Desk,
    notebook: &NotebookFile,
    from: &Path,
    fresh: &NewPassphrase,
    time: Now,
) -> Result<Answer, DeskError> {
    open(&mut desk, notebook, time)?;
    let passphrase = passphrase::ask_second(fresh.file.as_deref(), PROMPT, false)?;
    let report = desk.exchange_read(from, &passphrase, time.clock)?;
    let text = format!(
        "New: {}; the same: {}; newer: {}; older: {}; in conflict: {}.\n",
        report.new,
        report.same,
        report.newer,
        report.older,
        report.conflicts.len()
    );
    let one = |case: &CaseOutcome| format!("{} ({}): {}", plain(&case.name), case.id, case.what);
    let mut notes: Vec<String> = report.conflicts.iter().map(one).collect();
    if !notes.is_empty() {
        notes.push("`notebook conflicts` shows what differs; `notebook settle` says which version goes on.".into());
    }
    let ending = Ending::blocked_if(!report.conflicts.is_empty());
    Ok(Answer { text, notes, json: json!(report), ending })
}

pub fn conflicts(mut desk: Desk, notebook: &NotebookFile, number: Option<i64>, time: Now) -> Result<Answer, DeskError> {
    open(&mut desk, notebook, time)?;
    let Some(number) = number else {
        let lines = desk.conflicts()?;
        let row =
            |number: i64, rest: [&String; 4]| [vec![number.to_string()], rest.map(|text| cell(text)).to_vec()].concat();
        let rows = lines.iter().map(|line| row(line.sequence, [&line.name, &line.by, &line.at, &line.id]));
        let none = lines.is_empty().then(|| "No case went two ways.".to_owned());
        let notes = none.into_iter().collect();
        return Ok(Answer { notes, ..Answer::new(table(rows.collect()), json!({ "conflicts": lines })) });
    };
    let conflict = desk.conflict_show(number)?;
    let shown = |value: &Option<Value>| match value {
        None => "not recorded".to_owned(),
        Some(Value::String(text)) => plain(text),
        Some(other) => other.to_string(),
    };
    let mut text = format!(
        "ours: {}, {}\ntheirs: {}, {}\n",
        conflict.ours.at,
        plain(&conflict.ours.by),
        conflict.theirs.at,
        plain(&conflict.theirs.by)
    );
    for change in &conflict.changes {
        let place = plain(&change.labels.join(", "));
        let unit = change.unit.map(|unit| format!(" {unit}")).unwrap_or_default();
        let (ours, theirs) = (shown(&change.before), shown(&change.now));
        text.push_str(&format!("{place}: ours {ours}, theirs {theirs}{unit}\n"));
    }
    Ok(Answer { notes: vec![UNPROTECTED.into()], ..Answer::new(text, json!(conflict)) })
}

pub fn settle(
    mut desk: Desk,
    notebook: &NotebookFile,
    number: i64,
    keep: Keep,
    time: Now,
) -> Result<Answer, DeskError> {
    open(&mut desk, notebook, time)?;
    desk.conflict_settle(number, keep, time.given)?;
    Ok(Answer::new("Settled. Both versions stay in the history.\n".into(), json!({ "settled": number })))
}
