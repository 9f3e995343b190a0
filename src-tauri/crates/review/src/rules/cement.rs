//! Fixation, cement and mixes.

use evengap_case::sections::{ComponentRole, Fixation};

use super::Look;
use super::components::{called, is_implanted};
use crate::finding::Found;

/// Cemented parts without cement.
pub fn fixation(look: Look<'_>, found: &mut Found) {
    let case = look.case;
    let cemented = case
        .components
        .iter()
        .enumerate()
        .find(|(_, part)| is_implanted(part) && part.fixation == Some(Fixation::Cemented));
    let cement = case.components.iter().any(|part| is_implanted(part) && part.role == Some(ComponentRole::Cement));
    if let Some((i, part)) = cemented {
        if case.cement.used == Some(false) {
            found.conflict(
                &["cement.used", &format!("components[{i}].fixation")],
                format!("The {} is cemented, but no cement is recorded as used.", called(part, i)),
            );
        } else if !cement {
            found
                .missing(
                    &["components", &format!("components[{i}].fixation")],
                    format!("The {} is cemented, but no cement is among the components.", called(part, i)),
                )
                .blocking();
        }
    }
}

/// Cement with nothing to hold.
pub fn without_part(look: Look<'_>, found: &mut Found) {
    let case = look.case;
    let mut parts = case.components.iter().filter(|part| is_implanted(part));
    let cemented = parts.any(|part| part.fixation == Some(Fixation::Cemented));
    if !cemented && case.cement.used == Some(true) && case.components.iter().any(|part| part.fixation.is_some()) {
        found.conflict(
            &["cement.used", "components"],
            "Cement is recorded as used, but no implanted component is cemented.",
        );
    }
}

/// Cement that was put in but never mixed.
pub fn without_mix(look: Look<'_>, found: &mut Found) {
    let mixed =
        |i: usize| look.case.cement.mixes.iter().any(|mix| mix.component.is_some_and(|index| index.0 as usize == i));
    for (i, part) in look.case.components.iter().enumerate() {
        if part.role == Some(ComponentRole::Cement) && is_implanted(part) && !mixed(i) {
            found.missing(
                &["cement.mixes", &format!("components[{i}].role")],
                format!("The {} has no mix.", called(part, i)),
            );
        }
    }
}

/// Cement that took shorter or longer to set than the standard's test allows. A theatre is not that test, so
/// this is something to look at and no fault.
pub fn times(look: Look<'_>, found: &mut Found) {
    for (at, times) in look.reckoned("cement_times") {
        let (Some(minutes), Some(least), Some(most)) = (
            times.number("mix_1_mixed_to_hard_min"),
            times.limit("cement_setting_least_min"),
            times.limit("cement_setting_most_min"),
        ) else {
            continue;
        };
        if !(least..=most).contains(&minutes) {
            found
                .out_of_range(
                    &[&format!("{at}.hard_at"), &format!("{at}.mixed_at")],
                    format!("{minutes} minutes from mixing to hard; the setting test of bone cement allows {least} to {most}."),
                )
                .source(times.source("cement_setting_most_min"));
        }
    }
}

/// A mix that refers to something that is no cement.
pub fn mix_component(look: Look<'_>, found: &mut Found) {
    for (i, mix) in look.case.cement.mixes.iter().enumerate() {
        let path = format!("cement.mixes[{i}].component");
        let Some(index) = mix.component else { continue };
        match look.case.components.get(index.0 as usize) {
            None => {
                found.conflict(&[&path], format!("Mix {} names a component that is not in the list.", i + 1));
            }
            Some(part) if part.role.is_some_and(|role| role != ComponentRole::Cement) => {
                let name = called(part, index.0 as usize);
                found.conflict(&[&path], format!("Mix {} names the {name}, which is no cement.", i + 1));
            }
            Some(_) => {}
        }
    }
}
