//! `demo` and `paper`.

use std::path::{Path, PathBuf};

use evengap_case::LocalTime;
use evengap_desk::{
    Addendum, AddendumAsked, Batch, BatchOf, BatchTo, Desk, DeskError, ErrorCode, PaperAsked, PaperFormat, PaperKind,
    Reading,
};
use serde_json::{Value, json};

use crate::answer::{Answer, Ending};
use crate::arguments::Paper;
use crate::templates;

/// Writes the papers of the demonstration.
pub fn demo(desk: &mut Desk, to: &Path, now: LocalTime) -> Result<Answer, DeskError> {
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

/// Makes a paper of a case file, or one of each of several.
pub fn paper(desk: &mut Desk, asked: Paper, now: LocalTime) -> Result<Answer, DeskError> {
    match (&asked.cases[..], asked.kind) {
        ([_], PaperKind::Addendum) if asked.addendum.is_none() => {
            return Err(DeskError::failed("Give what the addendum adds: --addendum FILE.json."));
        }
        ([_], PaperKind::Addendum) => {}
        (_, PaperKind::Addendum) => return Err(DeskError::failed("An addendum belongs to one case; give one CASE.")),
        _ if asked.addendum.is_some() => {
            return Err(DeskError::failed(
                "--addendum is for the paper addendum; leave it out, or ask for that paper.",
            ));
        }
        _ => {}
    }
    let own = asked.template.as_deref().map(|file| templates::own(desk, file, asked.kind, asked.language));
    let like = PaperAsked {
        language: asked.language,
        page: asked.page.into(),
        author: asked.author.clone(),
        template: own.transpose()?,
        ..PaperAsked::new(Value::Null, asked.kind)
    };
    match (&asked.cases[..], &asked.to) {
        ([case], to) if !to.as_deref().is_some_and(Path::is_dir) => one(desk, case, &asked, like, now),
        (_, Some(to)) => many(desk, &asked, like, to, now),
        (_, None) => Err(DeskError::failed("Several cases need --to: a folder, or one file that ends in .pdf.")),
    }
}

fn one(desk: &mut Desk, case: &Path, asked: &Paper, like: PaperAsked, now: LocalTime) -> Result<Answer, DeskError> {
    // A wrong ending is said before the case is read.
    let format = asked.to.as_deref().map_or(Ok(PaperFormat::Markdown), PaperFormat::of_file)?;
    let read = desk.case_from_file(case)?;
    let mut notes: Vec<String> = read.not_known().into_iter().collect();
    let mut sheet = PaperAsked { case: read.case.to_value(), ..like };
    if let Some(file) = &asked.addendum {
        let added = desk.addendum_from_file(file, &read.case)?;
        let addendum = Addendum { number: 1, text: added.text, by: added.by, at: added.at, before: read.case };
        sheet.case = added.case.to_value();
        sheet.addendum = Some(AddendumAsked::Given(Box::new(addendum)));
    }
    let (text, mut json, unfinished, warnings, reading) = match &asked.to {
        Some(to) => {
            let exported = desk.paper_export(sheet, format, to, asked.replace, now).map_err(how_to_replace)?;
            let text = format!("{}\n", exported.path);
            (text, json!({ "path": exported.path }), exported.unfinished, exported.warnings, exported.reading)
        }
        None => {
            let printed = desk.paper_print(sheet, format, now)?;
            let text = String::from_utf8_lossy(&printed.bytes).into_owned();
            (text.clone(), json!({ "markdown": text }), printed.unfinished, printed.warnings, printed.reading)
        }
    };
    notes.extend(warnings.iter().cloned());
    notes.extend(unfinished.iter().map(|why| format!("The paper is unfinished: {why}")));
    notes.extend(reading.as_ref().map(figures));
    json["unfinished"] = json!(unfinished);
    json["warnings"] = json!(warnings);
    json["unknown"] = json!(read.unknown);
    if asked.kind == PaperKind::DischargeLetter {
        json["reading"] = json!(reading);
    }
    Ok(Answer { text, json, notes, ending: Ending::blocked_if(!unfinished.is_empty()) })
}

fn many(desk: &mut Desk, asked: &Paper, like: PaperAsked, to: &Path, now: LocalTime) -> Result<Answer, DeskError> {
    let shown = to.to_string_lossy().into_owned();
    let to = match to.extension() {
        _ if to.is_dir() => BatchTo::Folder(shown),
        None => BatchTo::Folder(shown),
        Some(_) => PaperFormat::of_file(to).map(|_| BatchTo::File(shown))?,
    };
    let files: Vec<PathBuf> = asked.cases.clone();
    let mut batch = Batch::of(desk, BatchOf::Files(files), vec![asked.kind], like, (to, asked.replace), now)
        .map_err(how_to_replace)?;
    while batch.step(desk) {}
    let report = batch.finish(desk).map_err(how_to_replace)?;
    let mut paths: Vec<&str> = report.written.iter().map(|paper| paper.path.as_str()).collect();
    paths.dedup();
    let mut notes = report.warnings.clone();
    for paper in &report.written {
        notes.extend(paper.unfinished.iter().map(|why| format!("{}: the paper is unfinished: {why}", paper.id)));
    }
    notes.extend(report.failed.iter().map(|failed| failed.message.clone()));
    let ending = match report.failed.len() {
        0 => Ending::blocked_if(report.written.iter().any(|paper| !paper.unfinished.is_empty())),
        _ => Ending::Wrong,
    };
    let text = paths.iter().map(|path| format!("{path}\n")).collect();
    Ok(Answer { text, json: json!(report), notes, ending })
}

/// Says how hard a letter is to read.
fn figures(reading: &Reading) -> String {
    format!(
        "Reading: Flesch-Kincaid grade {} (limit {}), SMOG grade {} (limit {}).",
        reading.flesch_kincaid_grade,
        reading.limits.flesch_kincaid_grade,
        reading.smog_grade,
        reading.limits.smog_grade
    )
}

fn how_to_replace(error: DeskError) -> DeskError {
    match error.code {
        ErrorCode::Exists => DeskError { message: format!("{} (--replace replaces it.)", error.message), ..error },
        _ => error,
    }
}
