//! Which elements need or forbid which others.
//!
//! After the mandatory and invalid associations of the GS1 General Specifications. They hold for all
//! codes of one label together, so they are judged anew after a merge.

use crate::{Label, Warning, WarningCode};

/// (these) need at least one of (those), apart from the device identifier.
const NEED: &[(&[&str], &[&str])] =
    &[(&["02", "8026"], &["37"]), (&["37"], &["02", "8026"]), (&["250"], &["21"]), (&["8011"], &["8010"])];

/// (these) need one of (those) trade item numbers.
const NEED_ITEM: &[(&[&str], &[&str])] = &[
    (&["10", "11", "13", "15", "16", "20", "240", "241", "242"], &["01", "02", "03", "8006", "8026"]),
    (&["17"], &["01", "02", "03", "255", "8006", "8026"]),
    (&["21"], &["01", "03", "8006"]),
    (&["30", "7003"], &["01", "02", "03"]),
    (&["250", "251", "8012", "7020", "7021"], &["01", "03", "8006"]),
    (&["22", "235", "243", "710", "711", "712", "713", "714", "715", "716", "717", "8014"], &["01", "03"]),
];

/// (this) never stands beside (those).
const FORBID: &[(&str, &[&str])] =
    &[("01", &["02", "37", "255", "8006"]), ("21", &["235"]), ("8017", &["8018"]), ("8006", &["37", "8026"])];

/// Drops what was said about pairs and judges the elements anew.
pub(crate) fn judge(label: &mut Label) {
    label.warnings.retain(|warning| warning.code != WarningCode::Pairing);
    let mut found = Vec::new();
    let has = |code: &str| label.elements.iter().any(|element| element.code == code);
    let mut alone: Vec<&str> = Vec::new();
    for element in &label.elements {
        let code = element.code.as_str();
        let lacks = NEED_ITEM.iter().any(|(these, those)| these.contains(&code) && !those.iter().any(|that| has(that)));
        if lacks && !alone.contains(&code) {
            alone.push(code);
        }
    }
    if !alone.is_empty() {
        let list: Vec<String> = alone.iter().map(|code| format!("({code})")).collect();
        found.push(format!(
            "The scan carries {} but no device identifier (01): scan the other code of the same label too.",
            list.join(", ")
        ));
    }
    for (these, those) in NEED {
        if let Some(this) = these.iter().find(|this| has(this))
            && !those.iter().any(|that| has(that))
        {
            found
                .push(format!("Element ({this}) stands only beside ({}), which the scan lacks.", those.join(") or (")));
        }
    }
    for (this, those) in FORBID {
        if let Some(that) = those.iter().find(|that| has(this) && has(that)) {
            found.push(format!(
                "Elements ({this}) and ({that}) never stand on one label: compare the scan with the label."
            ));
        }
    }
    label.warnings.extend(found.into_iter().map(|message| Warning { code: WarningCode::Pairing, message }));
}
