//! `review`.

use std::path::Path;

use evengap_desk::{Desk, DeskError, Finding, FindingKind};
use serde_json::json;

use crate::answer::{Answer, Ending};

/// Says what a case file lacks.
pub fn review(desk: &Desk, case: &Path) -> Result<Answer, DeskError> {
    let read = desk.case_from_file(case)?;
    let findings = desk.case_review(read.case.to_value())?;
    let text = match findings.len() {
        0 => "No findings.\n".to_owned(),
        _ => findings.iter().map(line).collect(),
    };
    Ok(Answer {
        text,
        notes: read.not_known().into_iter().collect(),
        ending: Ending::blocked_if(findings.iter().any(|finding| finding.blocks)),
        json: json!({ "findings": findings, "unknown": read.unknown }),
    })
}

fn line(finding: &Finding) -> String {
    let kind = match finding.kind {
        FindingKind::Missing => "missing",
        FindingKind::Conflict => "conflict",
        FindingKind::OutOfRange => "out of range",
        FindingKind::Caution => "caution",
    };
    let blocks = match &finding.overridden {
        Some(reason) => format!(", signed in spite of it ({reason})"),
        None if finding.blocks => ", blocks".to_owned(),
        None => String::new(),
    };
    let paths = finding.paths.join(", ");
    let source = finding.source.as_ref().map(|source| format!(" ({source})")).unwrap_or_default();
    format!("{kind}{blocks}: {} [{paths}]{source}\n", finding.message)
}
