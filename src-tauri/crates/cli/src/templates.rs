//! `template check`, `names` and `show`, and own templates given to `paper`.

use std::path::Path;

use evengap_case::LocalTime;
use evengap_desk::{Desk, DeskError, Flaw, OwnTemplate, PaperKind, PaperLanguage};
use serde_json::json;

use crate::answer::{Answer, Ending};
use crate::arguments::TemplateAct;

/// Does one act with templates.
pub fn run(desk: &Desk, act: TemplateAct, now: LocalTime) -> Result<Answer, DeskError> {
    match act {
        TemplateAct::Check { kind, file, language } => {
            let flaws = desk.template_check(kind, language, &desk.template_from_file(&file)?)?;
            let text = match flaws.len() {
                0 => "No flaws.\n".to_owned(),
                _ => flaws.iter().map(|flaw| format!("{}\n", line(&file, flaw))).collect(),
            };
            let ending = Ending::blocked_if(!flaws.is_empty());
            Ok(Answer { ending, ..Answer::new(text, json!({ "flaws": flaws })) })
        }
        TemplateAct::Names { kind, case } => {
            let case = case.map(|path| desk.case_from_file(&path)).transpose()?.map(|read| read.case.to_value());
            let names = desk.template_names(case, kind, now)?;
            let widest = names.iter().map(|name| name.name.chars().count()).max().unwrap_or_default();
            let text = names
                .iter()
                .map(|name| {
                    let example = name.example.as_ref().map(|example| format!(" [{example}]")).unwrap_or_default();
                    format!("{:<widest$}  {}{example}\n", name.name, name.meaning)
                })
                .collect();
            Ok(Answer::new(text, json!({ "names": names })))
        }
        TemplateAct::Show { kind, language } => {
            let shown = desk.template_show(kind, language)?;
            Ok(Answer::new(shown.built_in.clone(), json!(shown)))
        }
    }
}

/// Reads an own template for one paper.
///
/// # Errors
/// When it has flaws: one line for each, as compilers write them.
pub fn own(desk: &Desk, file: &Path, kind: PaperKind, language: PaperLanguage) -> Result<OwnTemplate, DeskError> {
    let source = desk.template_from_file(file)?;
    let flaws = desk.template_check(kind, language, &source)?;
    if !flaws.is_empty() {
        let lines: Vec<String> = flaws.iter().map(|flaw| line(file, flaw)).collect();
        return Err(DeskError::failed(lines.join("\n")));
    }
    let name = file.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    Ok(OwnTemplate { name, version: 1, source })
}

fn line(file: &Path, flaw: &Flaw) -> String {
    format!("{}:{}:{}: {}", file.display(), flaw.line, flaw.column, flaw.sentence())
}
