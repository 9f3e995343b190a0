//! `notebook verify`, `back-up` and `restore`.

use std::path::Path;

use evengap_desk::{Desk, DeskError, ErrorCode, VerifyReport};
use serde_json::json;

use super::{Now, how_to_replace, kept_as, open};
use crate::answer::{Answer, Ending};
use crate::arguments::NotebookFile;
use crate::passphrase;

/// Said with a restored notebook: people who were removed since are back in it.
const WHO_OPENS_IT: &str = "Everybody who could open the notebook when the backup was made can open this one, the recovery \
                            sheet of then too; `notebook people` lists them.";

pub fn verify(mut desk: Desk, notebook: &NotebookFile, time: Now) -> Result<Answer, DeskError> {
    let opened = match open(&mut desk, notebook, time) {
        // A small notebook is looked at page by page before it opens; that is what was asked for.
        Err(error) if error.code == ErrorCode::Damaged => {
            let json = json!({ "problems": [error.message] });
            return Ok(Answer { text: String::new(), json, notes: vec![error.message], ending: Ending::Blocked });
        }
        opened => opened?,
    };
    let report = desk.notebook_verify()?;
    let ending = Ending::blocked_if(!report.problems.is_empty());
    let notes = [kept_as(&opened), report.problems.clone()].concat();
    Ok(Answer { text: looked_at(&report), json: json!(report), notes, ending })
}

pub fn back_up(
    mut desk: Desk,
    notebook: &NotebookFile,
    to: Option<&Path>,
    replace: bool,
    time: Now,
) -> Result<Answer, DeskError> {
    let opened = open(&mut desk, notebook, time)?;
    let report = desk.notebook_back_up(to, replace, time.given, |_| true).map_err(how_to_replace)?;
    let text =
        format!("{}\nWritten and opened again. Cases: {}; bytes: {}.\n", report.path, report.cases, report.bytes);
    Ok(Answer { notes: kept_as(&opened), ..Answer::new(text, json!(report)) })
}

pub fn restore(desk: &Desk, backup: &NotebookFile, to: &Path, time: Now) -> Result<Answer, DeskError> {
    let passphrase = passphrase::ask(backup.passphrase_file.as_deref())?;
    let report = desk.notebook_restore(&backup.path, &passphrase, to, time.clock)?;
    let newest = report.newest_saved_at.as_deref().unwrap_or("never");
    let text = format!(
        "{}\nCases: {}; drafts: {}; signed: {}; addenda: {}; kept papers: {}; people: {}; last saved: {newest}.\n{}",
        report.path,
        report.cases,
        report.drafts,
        report.signed,
        report.addenda,
        report.papers,
        report.people,
        looked_at(&report.verify)
    );
    let ending = Ending::blocked_if(!report.verify.problems.is_empty());
    let notes = [vec![WHO_OPENS_IT.to_owned()], report.verify.problems.clone()].concat();
    Ok(Answer { text, notes, json: json!(report), ending })
}

fn looked_at(report: &VerifyReport) -> String {
    let found = match report.problems.len() {
        0 => "All of it is as it was written.".to_owned(),
        1 => "1 problem was found.".to_owned(),
        n => format!("{n} problems were found."),
    };
    let head = report.ledger_head.as_ref().map(|head| format!("Ledger: {head}\n")).unwrap_or_default();
    format!(
        "Looked at: pages {}; entries {}; signed {}; addenda {}; saved states {}; kept papers {}. {found}\n{head}",
        report.pages, report.entries, report.signed, report.addenda, report.steps, report.papers
    )
}
