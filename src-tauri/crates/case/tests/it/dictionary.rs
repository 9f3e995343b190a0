//! The dictionary is complete and says its units.

use evengap_case::Case;
use evengap_case::dictionary::{Field, Kind, field, record_fields};

fn each(fields: &'static [Field], path: &str, visit: &mut impl FnMut(&str, &'static Field)) {
    for field in fields {
        let here = if path.is_empty() { field.name.to_owned() } else { format!("{path}.{}", field.name) };
        visit(&here, field);
        if let Some(inner) = record_fields(&field.kind) {
            each(inner, &here, visit);
        }
    }
}

#[test]
fn every_field_has_a_label_and_its_number_a_unit_and_a_range() {
    each(Case::FIELDS, "", &mut |path, field| {
        assert!(!field.label.is_empty(), "{path} has no label");
        for (ending, unit) in [
            ("_mm", "mm"),
            ("_deg", "°"),
            ("_cm", "cm"),
            ("_kg", "kg"),
            ("_ml", "ml"),
            ("_mg", "mg"),
            ("_mmhg", "mmHg"),
            ("_g_l", "g/l"),
            ("_umol_l", "µmol/l"),
        ] {
            if field.name.ends_with(ending) {
                assert_eq!(field.unit, Some(unit), "{path} ends in {ending}: its unit must say so");
                assert!(field.plausible.is_some(), "{path} is a measurement: it needs a plausible range");
            }
        }
        if let Some((low, high)) = field.plausible {
            assert!(low < high, "{path}: the range must go up");
            if let Some((least, most)) = field.limits {
                assert!(least <= low && high <= most, "{path}: the plausible range must lie within the limits");
            }
        }
    });
}

#[test]
fn names_are_lower_snake_case_and_unique_within_their_record() {
    let snake = |name: &str| name.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'_');
    let mut seen = std::collections::BTreeSet::new();
    each(Case::FIELDS, "", &mut |path, field| {
        assert!(snake(field.name), "{path} is not lower snake case");
        assert!(seen.insert(path.to_owned()), "{path} stands twice");
        if let Kind::Code { codes } = field.kind {
            let mut codes: Vec<_> = codes.iter().map(|code| code.code).collect();
            let all = codes.len();
            codes.sort_unstable();
            codes.dedup();
            assert_eq!(codes.len(), all, "{path} has a code twice");
            assert!(codes.iter().all(|code| snake(code)), "{path} has a code that is not lower snake case");
        }
    });
}

#[test]
fn fields_are_found_by_path() {
    let label = |path: &str| field(path).map(|field| field.label);
    assert_eq!(label("knee.deformity.coronal_deg"), Some("Coronal deformity"), "nested record");
    assert_eq!(label("components[2].lot"), Some("Lot"), "record in a list");
    assert_eq!(label("balance.final.note"), Some("Note"), "a name that is also a Rust keyword");
    assert_eq!(label("knee.deformity.nothing"), None, "unknown name");
    assert_eq!(label("patient.sex.code"), None, "nothing below a code");
}

/// The events are the 22 of Healy et al., Clin Orthop Relat Res 2013;471:215-220, table 1, and ours.
#[test]
fn the_events_hold_the_published_22() {
    let Some(Kind::Code { codes }) = field("events.what").map(|field| field.kind) else {
        panic!("events.what must be a code");
    };
    assert_eq!(codes[..22].first().map(|c| c.code), Some("bleeding"), "the published list begins with bleeding");
    assert_eq!(codes[..22].last().map(|c| c.code), Some("death"), "the published list ends with death");
    assert_eq!(codes.len(), 31, "22 published, 8 during the operation, other");
}
