//! Components by themselves: in date, entered once, one serial number each.

use std::collections::BTreeMap;

use evengap_case::sections::{Component, ComponentRole, Fate};

use super::Look;
use crate::finding::Found;

/// Tells whether a component is in the patient.
pub fn is_implanted(part: &Component) -> bool {
    !matches!(part.fate, Some(Fate::OpenedNotUsed | Fate::Removed))
}

/// Names a component for a sentence.
pub fn called(part: &Component, index: usize) -> String {
    let role = part.role.map_or("component", |role| role.words());
    match &part.name {
        Some(name) => format!("{role} {name} (no. {})", index + 1),
        None => format!("{role} (no. {})", index + 1),
    }
}

/// An implanted component whose date had passed on the day of the operation.
pub fn expired(look: Look<'_>, found: &mut Found) {
    let Some(day) = look.case.setting.operation_date else { return };
    for (i, part) in look.case.components.iter().enumerate().filter(|(_, part)| is_implanted(part)) {
        if let Some(expires) = part.expires_on
            && expires < day
        {
            found.conflict(
                &[&format!("components[{i}].expires_on")],
                format!("The {} expired on {expires}, before the operation on {day}.", called(part, i)),
            );
        }
        if let Some(made) = part.made_on
            && made > day
        {
            found.conflict(
                &[&format!("components[{i}].made_on")],
                format!("The {} was made on {made}, after the operation on {day}.", called(part, i)),
            );
        }
    }
}

/// The same component entered twice. Cement and screws come in several of one lot.
pub fn twice(look: Look<'_>, found: &mut Found) {
    let several = |role: Option<ComponentRole>| {
        matches!(role, Some(ComponentRole::Cement | ComponentRole::Screw | ComponentRole::Augment))
    };
    let parts: Vec<_> = look.case.components.iter().enumerate().collect();
    for (at, (i, part)) in parts.iter().enumerate() {
        for (j, other) in &parts[..at] {
            let same = part.reference.is_some()
                && part.reference == other.reference
                && part.lot.is_some()
                && part.lot == other.lot
                && part.serial == other.serial
                && part.role == other.role
                && part.fate == other.fate;
            if same && !several(part.role) {
                found.caution(
                    &[&format!("components[{i}].lot"), &format!("components[{j}].lot")],
                    format!("The {} stands twice with the same reference and lot.", called(part, *i)),
                );
            }
        }
    }
}

/// One serial number on two components: of one reference no two are made alike, of two references it is rare.
pub fn serial_twice(look: Look<'_>, found: &mut Found) {
    let mut seen: BTreeMap<&str, usize> = BTreeMap::new();
    for (i, part) in look.case.components.iter().enumerate() {
        let Some(serial) = part.serial.as_deref() else { continue };
        let Some(first) = seen.insert(serial, i) else { continue };
        let paths = [format!("components[{i}].serial"), format!("components[{first}].serial")];
        let message = format!(
            "Serial number {serial} stands on two components: {} and {}.",
            called(&look.case.components[first], first),
            called(part, i)
        );
        if look.case.components[first].reference == part.reference {
            found.conflict(&[&paths[0], &paths[1]], message);
        } else {
            found.caution(&[&paths[0], &paths[1]], message);
        }
    }
}
