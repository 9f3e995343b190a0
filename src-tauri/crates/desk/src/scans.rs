//! Scans: from what a scanner sent, or a picture of a label, to a component of the entry.

use chrono::Datelike;
use evengap_case::sections::{Component, LabelScan, LabelScheme};
use evengap_case::{Case, Date, LocalTime};
use evengap_label::{Label, LabelDate, Options, Scheme, merge, read};
use serde::Serialize;
use serde_json::Value;
use ts_rs::TS;

use crate::{Desk, DeskError, Right};

/// A component as its label says it.
#[derive(Debug, Clone, PartialEq, Serialize, TS)]
pub struct Scanned {
    /// The component; where it belongs to one of the entry, that one with the new parts filled in.
    pub component: Component,
    /// Index of the component of the entry that it belongs to.
    pub into: Option<usize>,
    /// What looks wrong with the label, one sentence each.
    pub warnings: Vec<String>,
    /// What was read, in one sentence.
    pub sentence: String,
}

impl Desk {
    /// Reads a scan for an entry. Two codes of one label become one component.
    ///
    /// # Errors
    /// When the entry cannot be read (`refused`), or the text is no label.
    pub fn scan_read(&self, case: Value, scan: &str, now: LocalTime) -> Result<Scanned, DeskError> {
        self.may(Right::WriteDrafts)?;
        let case = evengap_case::read_value(case)?.case;
        scanned(&case, scan, &self.scan_options(now)?)
    }

    /// Reads the codes in a picture (PNG or JPEG) of a label.
    ///
    /// # Errors
    /// When the entry cannot be read (`refused`), the file is no picture, or nothing readable is in it.
    pub fn picture_read(&self, case: Value, bytes: &[u8], now: LocalTime) -> Result<Vec<Scanned>, DeskError> {
        self.may(Right::WriteDrafts)?;
        let mut case = evengap_case::read_value(case)?.case;
        let scans = evengap_label::read_picture(bytes).map_err(|error| DeskError::failed(error.to_string()))?;
        let options = self.scan_options(now)?;
        let mut found: Vec<Scanned> = Vec::new();
        for scan in scans {
            let read = scanned(&case, &scan.text, &options)?;
            // The next code of the same picture may belong to the component that this one made.
            match read.into {
                Some(at) => case.components[at] = read.component.clone(),
                None => case.components.push(read.component.clone()),
            }
            found.retain(|before| before.into.is_none() || before.into != read.into);
            found.push(read);
        }
        Ok(found)
    }

    fn scan_options(&self, now: LocalTime) -> Result<Options, DeskError> {
        Ok(Options { separators: self.scanner_separators()?, ..Options::new(now.0.year()) })
    }
}

fn scanned(case: &Case, scan: &str, options: &Options) -> Result<Scanned, DeskError> {
    let label = read(scan, options);
    if label.scheme == Scheme::Unknown {
        return Err(DeskError::failed(
            "This is no component label that can be read (GS1, HIBC or ISBT 128). Type the component by hand.",
        ));
    }
    for (at, part) in case.components.iter().enumerate() {
        let Some(raw) = part.scan.raw.as_deref() else { continue };
        let known = read(raw, options);
        if known.raw == label.raw {
            let sentence = format!("This label is there already: component {}.", at + 1);
            return Ok(Scanned { component: part.clone(), into: Some(at), warnings: Vec::new(), sentence });
        }
        // Two labels that repeat each other's lot or serial are two components of one batch.
        if completes(&known, &label)
            && let Ok(both) = merge(&known, &label)
        {
            return Ok(answer(fill(part.clone(), &both), Some(at), &both));
        }
    }
    Ok(answer(fill(Component::default(), &label), None, &label))
}

/// Tells whether one code says what the other lacks, as two codes of one label do.
fn completes(known: &Label, label: &Label) -> bool {
    let main = |label: &Label| label.device_identifier.is_some();
    let traced = |label: &Label| label.lot.is_some() || label.serial.is_some();
    (main(known) && !traced(known) && !main(label)) || (!main(known) && main(label) && !traced(label))
}

fn answer(component: Component, into: Option<usize>, label: &Label) -> Scanned {
    let warnings = label.warnings.iter().map(|warning| warning.message.clone()).collect();
    Scanned { component, into, warnings, sentence: sentence(label) }
}

fn sentence(label: &Label) -> String {
    let date = |date: LabelDate| {
        let month_only = if date.day_not_stated { " (day not stated)" } else { "" };
        format!("{}{month_only}", date.on)
    };
    let parts = [
        label.device_identifier.as_ref().map(|id| format!("device {id}")),
        label.reference.as_ref().map(|reference| format!("reference {reference}")),
        label.lot.as_ref().map(|lot| format!("lot {lot}")),
        label.serial.as_ref().map(|serial| format!("serial {serial}")),
        label.made_on.map(|on| format!("made {}", date(on))),
        label.expires_on.map(|on| format!("expires {}", date(on))),
    ];
    let parts: Vec<_> = parts.into_iter().flatten().collect();
    match (label.scheme, parts.is_empty()) {
        (Scheme::Isbt128, _) => "An ISBT 128 label: kept as scanned, nothing is decoded.".to_owned(),
        (_, true) => "Read, but the label holds no identifier, lot, serial or date.".to_owned(),
        (_, false) => format!("Read: {}.", parts.join(", ")),
    }
}

/// Puts what a label says into a component; what a person typed already stays.
fn fill(mut component: Component, label: &Label) -> Component {
    let date = |date: Option<LabelDate>| date.map(|date| Date(date.on));
    let part = &mut component;
    part.reference = part.reference.take().or(label.reference.clone());
    part.lot = part.lot.take().or(label.lot.clone());
    part.serial = part.serial.take().or(label.serial.clone());
    part.made_on = part.made_on.or(date(label.made_on));
    part.expires_on = part.expires_on.or(date(label.expires_on));
    part.scan = LabelScan {
        raw: Some(label.raw.clone()),
        scheme: match label.scheme {
            Scheme::Gs1 => Some(LabelScheme::Gs1),
            Scheme::Hibc => Some(LabelScheme::Hibc),
            Scheme::Isbt128 => Some(LabelScheme::Isbt128),
            Scheme::Unknown => None,
        },
        device_identifier: part.scan.device_identifier.take().or(label.device_identifier.clone()),
        ..part.scan.clone()
    };
    component
}
