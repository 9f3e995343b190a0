//! `demo` and `paper`.

use std::path::Path;

use evengap_case::LocalTime;
use evengap_desk::{Desk, DeskError, ErrorCode, FileRead, PaperAsked, PaperFormat};
use serde_json::json;

use crate::answer::Answer;
use crate::arguments::Paper;

/// Writes the papers of the demonstration.
pub fn demo(desk: &Desk, to: &Path, now: LocalTime) -> Result<Answer, DeskError> {
    let written = desk.demo_write(to, now)?;
    let text = written
        .iter()
        .map(|paper| match paper.unfinished.len() {
            0 => format!("{}\n", paper.path),
            _ => format!("{} (unfinished, as its case is)\n", paper.path),
        })
        .collect();
    Ok(Answer::new(text, json!({ "written": written })))
}

/// Makes a paper of a case file.
pub fn paper(desk: &Desk, asked: Paper, now: LocalTime) -> Result<Answer, DeskError> {
    // A wrong ending is said before the case is read.
    let format = asked.to.as_deref().map_or(Ok(PaperFormat::Markdown), PaperFormat::of_file)?;
    let read = desk.case_from_file(&asked.case)?;
    let mut notes: Vec<String> = not_known(&read).into_iter().collect();
    let sheet = PaperAsked {
        case: read.case.to_value(),
        kind: asked.kind,
        page: asked.page.into(),
        author: asked.author,
        demonstration: false,
    };
    let (text, mut json, unfinished, warnings) = match asked.to {
        Some(to) => {
            let exported = desk.paper_export(sheet, format, &to, asked.replace, now).map_err(how_to_replace)?;
            let text = format!("{}\n", exported.path);
            (text, json!({ "path": exported.path }), exported.unfinished, exported.warnings)
        }
        None => {
            let printed = desk.paper_print(sheet, format, now)?;
            let text = String::from_utf8_lossy(&printed.bytes).into_owned();
            (text.clone(), json!({ "markdown": text }), printed.unfinished, printed.warnings)
        }
    };
    notes.extend(warnings.iter().cloned());
    notes.extend(unfinished.iter().map(|why| format!("The paper is unfinished: {why}")));
    json["unfinished"] = json!(unfinished);
    json["warnings"] = json!(warnings);
    json["unknown"] = json!(read.unknown);
    Ok(Answer { text, json, notes, blocked: !unfinished.is_empty() })
}

fn how_to_replace(error: DeskError) -> DeskError {
    match error.code {
        ErrorCode::Exists => DeskError { message: format!("{} (--replace replaces it.)", error.message), ..error },
        _ => error,
    }
}

/// Says which keys of a file were kept without being known.
pub fn not_known(read: &FileRead) -> Option<String> {
    if read.unknown.is_empty() {
        return None;
    }
    Some(format!("{}: kept, not known: {}", read.path.display(), read.unknown.join(", ")))
}
