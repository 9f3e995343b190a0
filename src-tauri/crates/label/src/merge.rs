//! Two codes of one label become one label, or a sentence why they cannot.

use crate::hibc::{self, check_character};
use crate::label::shown;
use crate::{Label, LabelDate, Scheme, dates, gs1};

/// Says why two scans are not two codes of one label.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum MergeRefusal {
    /// One of the scans is not readable or not decoded.
    #[error(
        "The scan ‘{scan}’ cannot be joined to another one because it is not read: type its lot or serial by hand."
    )]
    NotRead {
        /// The scan, shortened.
        scan: String,
    },
    /// GS1 and HIBC.
    #[error("One scan is a GS1 code and the other a HIBC code: enter them as two components.")]
    DifferentSchemes,
    /// Two products.
    #[error("The scans name two devices, {first} and {second}: enter them as two components.")]
    DifferentDevices {
        /// The device identifier of the first scan.
        first: String,
        /// The device identifier of the second scan.
        second: String,
    },
    /// Two items of one product.
    #[error("The scans give two values for the {what}, {first} and {second}: enter them as two components.")]
    DifferentItems {
        /// `lot`, `serial number`, `expiry` or `day of manufacture`.
        what: &'static str,
        /// The value of the first scan.
        first: String,
        /// The value of the second scan.
        second: String,
    },
    /// The link character of a second HIBC code fits another first code.
    #[error(
        "The second HIBC code belongs to another first code (its link character is ‘{link}’): scan both codes of the same label."
    )]
    DifferentLink {
        /// The link character.
        link: String,
    },
}

/// Joins two scans of one label.
///
/// The one that names the device comes first; a scan that is there already adds nothing.
///
/// # Errors
///
/// Refuses scans that name two devices, lots, serials, dates or schemes, or that are not read.
pub fn merge(a: &Label, b: &Label) -> Result<Label, MergeRefusal> {
    if a.raw.lines().any(|line| line == b.raw) {
        return Ok(a.clone());
    }
    if b.raw.lines().any(|line| line == a.raw) {
        return Ok(b.clone());
    }
    for label in [a, b] {
        if !matches!(label.scheme, Scheme::Gs1 | Scheme::Hibc) {
            return Err(MergeRefusal::NotRead { scan: shown(&label.raw) });
        }
    }
    if a.scheme != b.scheme {
        return Err(MergeRefusal::DifferentSchemes);
    }
    let (a, b) = if a.device_identifier.is_none() && b.device_identifier.is_some() { (b, a) } else { (a, b) };
    if let Some((first, second)) = differ(a.device_identifier.as_ref(), b.device_identifier.as_ref()) {
        return Err(MergeRefusal::DifferentDevices { first, second });
    }
    let day = |date: Option<LabelDate>| date.map(|date| date.on.to_string());
    let agree = |first: Option<LabelDate>, second: Option<LabelDate>| match (first, second) {
        (Some(first), Some(second)) => dates::agree(first, second),
        _ => true,
    };
    for (what, pair) in [
        ("lot", differ(a.lot.as_ref(), b.lot.as_ref())),
        ("serial number", differ(a.serial.as_ref(), b.serial.as_ref())),
        (
            "expiry",
            differ(day(a.expires_on).as_ref(), day(b.expires_on).as_ref())
                .filter(|_| !agree(a.expires_on, b.expires_on)),
        ),
        (
            "day of manufacture",
            differ(day(a.made_on).as_ref(), day(b.made_on).as_ref()).filter(|_| !agree(a.made_on, b.made_on)),
        ),
    ] {
        if let Some((first, second)) = pair {
            return Err(MergeRefusal::DifferentItems { what, first, second });
        }
    }
    linked(a, b)?;
    Ok(join(a, b))
}

fn differ(first: Option<&String>, second: Option<&String>) -> Option<(String, String)> {
    let (first, second) = first.zip(second)?;
    (first != second).then(|| (shown(first), shown(second)))
}

/// Holds the link characters of second HIBC codes against the first code, or against each other.
fn linked(a: &Label, b: &Label) -> Result<(), MergeRefusal> {
    let links = |label: &Label| -> Vec<String> {
        label.elements.iter().filter(|element| element.code == "link").map(|element| element.value.clone()).collect()
    };
    let (ours, theirs) = (links(a), links(b));
    let Some(device) = &a.device_identifier else {
        return match (ours.first(), theirs.first()) {
            (Some(first), Some(second)) if first != second => Err(MergeRefusal::DifferentLink { link: shown(second) }),
            _ => Ok(()),
        };
    };
    if a.scheme != Scheme::Hibc {
        return Ok(());
    }
    let right = check_character(&format!("+{device}")).map(String::from);
    let fits = |link: &String| {
        Some(link) == right.as_ref()
            || a.elements.iter().any(|element| element.code == "check" && &element.value == link)
    };
    match theirs.iter().chain(&ours).find(|link| !fits(link)) {
        Some(link) => Err(MergeRefusal::DifferentLink { link: shown(link) }),
        None => Ok(()),
    }
}

fn join(a: &Label, b: &Label) -> Label {
    let mut label = a.clone();
    label.raw = format!("{}\n{}", a.raw, b.raw);
    for (field, other) in [
        (&mut label.device_identifier, &b.device_identifier),
        (&mut label.reference, &b.reference),
        (&mut label.lot, &b.lot),
        (&mut label.serial, &b.serial),
    ] {
        if field.is_none() {
            field.clone_from(other);
        }
    }
    label.made_on = dates::closer(a.made_on, b.made_on);
    label.expires_on = dates::closer(a.expires_on, b.expires_on);
    label.quantity = a.quantity.or(b.quantity);
    let double = |code: &str| code == "check" || code == "link";
    for element in &b.elements {
        if double(&element.code) || !label.elements.contains(element) {
            label.elements.push(element.clone());
        }
    }
    for warning in &b.warnings {
        if !label.warnings.contains(warning) {
            label.warnings.push(warning.clone());
        }
    }
    match label.scheme {
        Scheme::Gs1 => gs1::judge(&mut label),
        _ => hibc::judge(&mut label),
    }
    label
}
