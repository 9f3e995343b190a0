//! `label`: what the scan of a component label says.

use evengap_desk::{Desk, DeskError, Label, LabelScheme};
use serde_json::json;

use crate::answer::{Answer, Ending};
use crate::arguments::Scans;
use crate::reckon::from_standard_input;

/// Reads the scans of one label and joins them. Warnings go to standard error and into the JSON.
pub fn label(desk: &Desk, asked: &Scans, current_year: i32) -> Result<Answer, DeskError> {
    let mut joined: Option<Label> = None;
    for scan in &asked.scans {
        let scan = if scan == "-" { from_standard_input()? } else { scan.clone() };
        let label = desk.label_read(&scan, &asked.separators, current_year);
        joined = Some(match joined {
            None => label,
            Some(first) => desk.label_merge(&first, &label)?,
        });
    }
    let label = joined.ok_or_else(|| DeskError::failed("Give the scan of a label."))?;
    if label.scheme == LabelScheme::Unknown {
        let why = label.warnings.first().map_or("The scan is no label that can be read.", |warning| &warning.message);
        return Err(DeskError::failed(why));
    }
    let notes = label.warnings.iter().map(|warning| warning.message.clone()).collect();
    Ok(Answer { text: text(&label), json: json!(label), notes, ending: Ending::Fine })
}

fn text(label: &Label) -> String {
    let scheme = match label.scheme {
        LabelScheme::Gs1 => "GS1",
        LabelScheme::Hibc => "HIBC",
        LabelScheme::Isbt128 => "ISBT 128, not decoded",
        LabelScheme::Unknown => "not recognised",
    };
    let day = |date: &Option<evengap_desk::LabelDate>| {
        date.map(|date| format!("{}{}", date.on, if date.day_not_stated { " (day not stated)" } else { "" }))
    };
    let mut lines: Vec<(String, String)> = vec![("scheme".into(), scheme.into())];
    for (name, value) in [
        ("device identifier", label.device_identifier.clone()),
        ("reference", label.reference.clone()),
        ("lot", label.lot.clone()),
        ("serial", label.serial.clone()),
        ("made on", day(&label.made_on)),
        ("expires on", day(&label.expires_on)),
        ("quantity", label.quantity.map(|quantity| quantity.to_string())),
    ] {
        lines.extend(value.map(|value| (name.to_owned(), value)));
    }
    for element in &label.elements {
        lines.push((format!("({}) {}", element.code, element.title), element.value.clone()));
    }
    lines.iter().map(|(name, value)| format!("{name}: {}\n", visible(value))).collect()
}

/// Makes signs visible that would move the terminal's cursor.
fn visible(value: &str) -> String {
    let picture =
        |letter: char| char::from_u32(0x2400 + u32::from(letter)).filter(|_| letter < ' ').unwrap_or('\u{fffd}');
    value.chars().map(|letter| if letter.is_control() { picture(letter) } else { letter }).collect()
}
