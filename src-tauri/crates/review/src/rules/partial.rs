//! Wear and ligaments beside a partial replacement, and the thickness of the patella: criteria, no verdict.

use super::Look;
use crate::finding::Found;

/// Criteria of wear and ligaments that the later evidence still names.
const HELD: [&str; 6] = [
    "later_bone_on_bone",
    "later_other_compartment",
    "later_acl",
    "later_collateral",
    "later_correctable",
    "later_inflammation",
];

/// The record does not meet criteria that later evidence still names for a partial replacement; each is listed.
pub fn criteria(look: Look<'_>, found: &mut Found) {
    for (_, beside) in look.reckoned("partial_suitability") {
        let not_met = |name: &str| beside.value(name).and_then(|v| v.as_str()) == Some("not met");
        let criteria = beside.0.results.iter().zip(&beside.0.statements);
        let unmet: Vec<_> =
            criteria.filter(|(result, _)| HELD.contains(&result.name.as_str()) && not_met(&result.name)).collect();
        if unmet.is_empty() {
            continue;
        }
        let named: Vec<_> = unmet.iter().map(|(_, criterion)| criterion.about.as_str()).collect();
        let mut sources: Vec<_> = unmet.iter().map(|(_, criterion)| criterion.source.to_string()).collect();
        sources.dedup();
        found
            .caution(
                &["choice.procedure", "knee.wear", "knee.ligaments"],
                format!("Criteria for a partial replacement that the record does not meet: {}.", named.join("; ")),
            )
            .source(sources.join("; "));
    }
}

/// Less bone left in the patella than the limit.
pub fn patella_thin(look: Look<'_>, found: &mut Found) {
    for (_, patella) in look.reckoned("patella") {
        if patella.is("residual_under_limit", true) {
            let residual = look.case.cuts.patella.residual_mm.unwrap_or_default();
            let limit =
                patella.limit("patella_residual_mm").map(|mm| format!("; the limit is {mm} mm")).unwrap_or_default();
            found
                .out_of_range(&["cuts.patella.residual_mm"], format!("{residual} mm of patella are left{limit}."))
                .source(patella.source("patella_residual_mm"));
        }
    }
}
