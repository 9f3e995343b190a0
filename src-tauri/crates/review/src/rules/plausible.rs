//! Numbers outside their ordinary range, and numbers that do not fit each other.

use evengap_case::Case;
use evengap_case::dictionary::{Field, Kind, record_fields};
use evengap_case::sections::ScoreKind;
use serde_json::Value;

use super::Look;
use crate::finding::Found;

/// Every number against the plausible range of its dictionary row.
pub fn ranges(look: Look<'_>, found: &mut Found) {
    walk(&look.case.to_value(), Case::FIELDS, "", found);
}

fn walk(value: &Value, fields: &'static [Field], path: &str, found: &mut Found) {
    for field in fields {
        let Some(value) = value.get(field.name) else { continue };
        let here = if path.is_empty() { field.name.to_owned() } else { format!("{path}.{}", field.name) };
        match (field.kind, value) {
            (Kind::Record { fields }, value) => walk(value, fields, &here, found),
            (Kind::List { of }, Value::Array(items)) => {
                for (i, item) in items.iter().enumerate() {
                    if let Some(fields) = record_fields(of) {
                        walk(item, fields, &format!("{here}[{i}]"), found);
                    }
                }
            }
            _ => number(value, field, &here, found),
        }
    }
}

fn number(value: &Value, field: &Field, path: &str, found: &mut Found) {
    let (Some((low, high)), Some(number)) = (field.plausible, value.as_f64()) else { return };
    if (low..=high).contains(&number) {
        return;
    }
    let unit =
        field.unit.map(|unit| if unit == "°" { unit.to_owned() } else { format!(" {unit}") }).unwrap_or_default();
    found
        .out_of_range(
            &[path],
            format!("{} {number}{unit} lies outside the ordinary range of {low} to {high}{unit}.", field.label),
        )
        .source("ordinary ranges: common practice, no source");
}

/// Totals that their scale does not have, and ages that nobody reaches.
pub fn scales(look: Look<'_>, found: &mut Found) {
    let case = look.case;
    let before = case.knee.scores.iter().enumerate().map(|(i, score)| (format!("knee.scores[{i}]"), score));
    let after = case.visits.iter().enumerate().flat_map(|(v, visit)| {
        visit.scores.iter().enumerate().map(move |(i, score)| (format!("visits[{v}].scores[{i}]"), score))
    });
    for (at, score) in before.chain(after) {
        let (Some(kind), Some(value)) = (score.score, score.value) else { continue };
        let most = match kind {
            ScoreKind::OxfordKnee => 48.0,
            ScoreKind::ForgottenJoint => 100.0,
            ScoreKind::Pain => 10.0,
            ScoreKind::Other => continue,
        };
        if !(0.0..=most).contains(&value) {
            found.conflict(
                &[&format!("{at}.value")],
                format!("{} {value}: the scale goes from 0 to {most}.", kind.words()),
            );
        }
    }
    if let (Some(born), Some(day)) = (case.patient.birth_date, case.setting.operation_date)
        && let Some(years) = day.0.years_since(born.0).filter(|years| *years > OLDEST_YEARS)
    {
        found.conflict(
            &["patient.birth_date", "setting.operation_date"],
            format!("The dates give an age of {years} years."),
        );
    }
}

/// Nobody of whom it is certain has lived longer than 122 years.
const OLDEST_YEARS: u32 = 122;

/// A knee cannot bend less than it lacks in extension.
pub fn flexion_below_extension(look: Look<'_>, found: &mut Found) {
    let case = look.case;
    let last = &case.balance.r#final;
    for (path, extension, flexion) in [
        ("knee.range_before", case.knee.range_before.extension_deg, case.knee.range_before.flexion_deg),
        ("balance.final", last.extension_deg, last.flexion_deg),
        ("discharge.range", case.discharge.range.extension_deg, case.discharge.range.flexion_deg),
    ] {
        if let (Some(extension), Some(flexion)) = (extension, flexion)
            && flexion <= extension
        {
            found.conflict(
                &[&format!("{path}.flexion_deg"), &format!("{path}.extension_deg")],
                format!("Flexion to {flexion}° and a lack of extension of {extension}° leave no movement."),
            );
        }
    }
}

/// Below this, a coronal deformity is too small for its sign to mean anything. Common practice, no source.
const CLEAR_DEFORMITY_DEG: f64 = 5.0;

/// Varus on examination and clear valgus on the film, or the reverse.
pub fn deformity_and_alignment(look: Look<'_>, found: &mut Found) {
    let alignment = &look.case.knee.alignment;
    let (Some(deformity), Some(mpta), Some(ldfa)) =
        (look.case.knee.deformity.coronal_deg, alignment.mpta_deg, alignment.ldfa_deg)
    else {
        return;
    };
    // aHKA − JLCA, varus negative, as the deformity is recorded.
    let measured = mpta - ldfa - alignment.jlca_deg.unwrap_or(0.0);
    let opposite = deformity * measured < 0.0;
    if opposite && deformity.abs() >= CLEAR_DEFORMITY_DEG && measured.abs() >= CLEAR_DEFORMITY_DEG {
        let word = |deg: f64| if deg < 0.0 { "varus" } else { "valgus" };
        found.conflict(
            &["knee.deformity.coronal_deg", "knee.alignment.mpta_deg", "knee.alignment.ldfa_deg"],
            format!(
                "The deformity is recorded as {} of {}°, but the angles give {} of {:.1}° (MPTA − LDFA − JLCA).",
                word(deformity),
                deformity.abs(),
                word(measured),
                measured.abs()
            ),
        );
    }
}
