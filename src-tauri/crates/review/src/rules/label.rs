//! Labels as scanned: what looks wrong with them, and whether the entry says the same.

use chrono::Datelike;
use evengap_case::sections::Component;
use evengap_label::{Label, Options, Scheme};

use super::Look;
use super::components::called;
use crate::finding::Found;

/// Reads the labels again. The year decides the century of two-digit years: that of the operation.
fn labels<'a>(look: &Look<'a>) -> impl Iterator<Item = (usize, &'a Component, Label)> + use<'a> {
    let case = look.case;
    let operated = case.setting.operation_date.map(|date| date.0.year());
    let year = operated.or(case.created_at.map(|begun| begun.0.year()));
    let options = year.map(|year| Options { separators: look.separators.to_vec(), ..Options::new(year) });
    case.components.iter().enumerate().filter_map(move |(i, part)| {
        let label = evengap_label::read(part.scan.raw.as_deref()?, options.as_ref()?);
        (label.scheme != Scheme::Unknown).then_some((i, part, label))
    })
}

/// A label that does not follow its own standard.
pub fn warning(look: Look<'_>, found: &mut Found) {
    for (i, part, label) in labels(&look) {
        for warning in &label.warnings {
            found.caution(
                &[&format!("components[{i}].scan.raw")],
                format!("Label of the {}: {}", called(part, i), warning.message),
            );
        }
    }
}

/// The entry says something else than the label that was scanned.
pub fn differs(look: Look<'_>, found: &mut Found) {
    for (i, part, label) in labels(&look) {
        let date = |date: Option<evengap_label::LabelDate>| date.map(|date| date.on.to_string());
        let entered = |date: Option<evengap_case::Date>| date.map(|date| date.to_string());
        for (field, what, scanned, entry) in [
            ("lot", "lot", label.lot.clone(), part.lot.clone()),
            ("serial", "serial number", label.serial.clone(), part.serial.clone()),
            ("expires_on", "last day of use", date(label.expires_on), entered(part.expires_on)),
            ("made_on", "day of manufacture", date(label.made_on), entered(part.made_on)),
            ("reference", "reference", label.reference.clone(), part.reference.clone()),
            (
                "scan.device_identifier",
                "device identifier",
                label.device_identifier.clone(),
                part.scan.device_identifier.clone(),
            ),
        ] {
            if let (Some(scanned), Some(entry)) = (scanned, entry)
                && !(scanned == entry || field == "reference" && bare(&scanned) == bare(&entry))
            {
                found.conflict(
                    &[&format!("components[{i}].{field}"), &format!("components[{i}].scan.raw")],
                    format!("The label of the {} says {what} {scanned}, the entry says {entry}.", called(part, i)),
                );
            }
        }
    }
}

/// A reference as a label may hold it: without the signs that part it, in capitals.
fn bare(reference: &str) -> String {
    reference.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_uppercase).collect()
}
