//! The procedure beside what was put in.

use evengap_case::sections::{Component, ComponentRole, Constraint, Procedure};

use super::Look;
use super::components::{called, is_implanted};
use crate::finding::Found;

/// Roles of which a procedure implants at least one of each group.
fn needed(procedure: Procedure) -> &'static [&'static [ComponentRole]] {
    use ComponentRole::*;
    match procedure {
        Procedure::Total | Procedure::SecondStageReimplantation | Procedure::RevisionAll => {
            &[&[Femur], &[TibialTray, TibialOnePiece], &[Insert, TibialOnePiece]]
        }
        Procedure::MedialPartial | Procedure::LateralPartial => {
            &[&[Femur], &[TibialTray, TibialOnePiece], &[Insert, TibialOnePiece]]
        }
        Procedure::Patellofemoral => &[&[Trochlea]],
        Procedure::Bicompartmental => &[&[Femur], &[TibialTray, TibialOnePiece]],
        Procedure::InsertExchange => &[&[Insert]],
        Procedure::RevisionOneComponent | Procedure::FirstStageRemoval | Procedure::Other => &[],
    }
}

/// Roles that a procedure does not have.
fn foreign(procedure: Procedure) -> &'static [ComponentRole] {
    use ComponentRole::*;
    match procedure {
        Procedure::MedialPartial | Procedure::LateralPartial => &[Patella, Trochlea, Stem, SleeveOrCone],
        Procedure::Patellofemoral => &[Femur, TibialTray, Insert, TibialOnePiece, Stem, SleeveOrCone],
        Procedure::InsertExchange => &[Femur, TibialTray, TibialOnePiece, Trochlea, Stem, SleeveOrCone, Augment],
        Procedure::Total | Procedure::SecondStageReimplantation | Procedure::RevisionAll => &[Trochlea],
        _ => &[],
    }
}

fn implanted<'a>(look: &'a Look<'_>) -> impl Iterator<Item = (usize, &'a Component)> {
    look.case.components.iter().enumerate().filter(|(_, part)| is_implanted(part))
}

fn has(look: &Look<'_>, roles: &[ComponentRole]) -> bool {
    implanted(look).any(|(_, part)| part.role.is_some_and(|role| roles.contains(&role)))
}

/// A part that the procedure has is not among the components.
pub fn part_missing(look: Look<'_>, found: &mut Found) {
    let Some(procedure) = look.case.choice.procedure else { return };
    if look.case.components.is_empty() {
        return; // The published lists already ask for the components.
    }
    for group in needed(procedure) {
        if !has(&look, group) {
            found
                .missing(
                    &["components", "choice.procedure"],
                    format!(
                        "The procedure is a {}, but no {} is among the components.",
                        procedure.words(),
                        group[0].words()
                    ),
                )
                .blocking();
        }
    }
}

/// A part was put in that the procedure does not have.
pub fn part_not_in_procedure(look: Look<'_>, found: &mut Found) {
    let Some(procedure) = look.case.choice.procedure else { return };
    for (i, part) in implanted(&look) {
        if part.role.is_some_and(|role| foreign(procedure).contains(&role)) {
            found.conflict(
                &[&format!("components[{i}].role"), "choice.procedure"],
                format!("The {} does not belong to the procedure: {}.", called(part, i), procedure.words()),
            );
        }
    }
}

/// “Resurfaced” without a button, or a button without “resurfaced”.
pub fn patella(look: Look<'_>, found: &mut Found) {
    let button = has(&look, &[ComponentRole::Patella]);
    match look.case.cuts.patella.resurfaced {
        Some(true) if !button && !look.case.components.is_empty() => {
            found.conflict(
                &["cuts.patella.resurfaced", "components"],
                "The patella is recorded as resurfaced, but no patellar button is among the components.",
            );
        }
        Some(false) if button => {
            found.conflict(
                &["cuts.patella.resurfaced", "components"],
                "The patella is recorded as not resurfaced, but a patellar button is among the components.",
            );
        }
        _ => {}
    }
}

/// The button's thickness at the cut and on the component.
pub fn button_thickness(look: Look<'_>, found: &mut Found) {
    let buttons: Vec<_> = implanted(&look).filter(|(_, part)| part.role == Some(ComponentRole::Patella)).collect();
    let [(i, button)] = buttons.as_slice() else { return };
    if let (Some(cut), Some(thickness)) = (look.case.cuts.patella.button_mm, button.thickness_mm)
        && (cut - thickness).abs() > 0.05
    {
        found.conflict(
            &["cuts.patella.button_mm", &format!("components[{i}].thickness_mm")],
            format!("The button is {cut} mm at the cut, but the component is {thickness} mm."),
        );
    }
}

/// A constraint that needs an insert of another kind than the one whose name is recorded.
///
/// Only names that say a kind in words are compared; a name that says none is no finding.
pub fn constraint(look: Look<'_>, found: &mut Found) {
    let Some(constraint) = look.case.choice.constraint else { return };
    if constraint == Constraint::NotApplicable {
        return;
    }
    let kinds = [
        (Constraint::CruciateRetaining, "cruciate-retaining"),
        (Constraint::CruciateStabilisingInsert, "cruciate-stabilising"),
        (Constraint::PosteriorStabilised, "posterior-stabilised"),
        (Constraint::VarusValgusConstrained, "constrained"),
        (Constraint::RotatingHinge, "hinge"),
    ];
    for (i, part) in implanted(&look).filter(|(_, part)| part.role == Some(ComponentRole::Insert)) {
        let Some(name) = part.name.as_deref().map(|name| name.to_lowercase().replace(' ', "-")) else { continue };
        let named = kinds.iter().find(|(_, words)| name.contains(words));
        if let Some((kind, _)) = named
            && *kind != constraint
        {
            found.conflict(
                &[&format!("components[{i}].name"), "choice.constraint"],
                format!(
                    "The insert is named as {}, the constraint is recorded as {}.",
                    kind.words(),
                    constraint.words()
                ),
            );
        }
    }
}

/// Three places name the insert's thickness: the component, the last trial and the knee as left.
pub fn insert_thickness(look: Look<'_>, found: &mut Found) {
    let last = look.case.balance.r#final.insert_mm;
    let trial = look.case.balance.trials.last().and_then(|trial| trial.insert_mm);
    let differ = |a: f64, b: f64| (a - b).abs() > 0.05;
    if let (Some(last), Some(trial)) = (last, trial)
        && differ(last, trial)
    {
        let at = look.case.balance.trials.len() - 1;
        found.conflict(
            &["balance.final.insert_mm", &format!("balance.trials[{at}].insert_mm")],
            format!("The knee was left with an insert of {last} mm, but the last trial was {trial} mm."),
        );
    }
    let inserts: Vec<_> = implanted(&look).filter(|(_, part)| part.role == Some(ComponentRole::Insert)).collect();
    let [(i, insert)] = inserts.as_slice() else { return };
    if let (Some(last), Some(thickness)) = (last, insert.thickness_mm)
        && differ(last, thickness)
    {
        found.conflict(
            &["balance.final.insert_mm", &format!("components[{i}].thickness_mm")],
            format!("The knee was left with an insert of {last} mm, but the component is {thickness} mm."),
        );
    }
}

/// A revision says why.
pub fn revision_without_reason(look: Look<'_>, found: &mut Found) {
    use Procedure::*;
    let choice = &look.case.choice;
    let revision = matches!(
        choice.procedure,
        Some(InsertExchange | RevisionOneComponent | RevisionAll | FirstStageRemoval | SecondStageReimplantation)
    );
    if revision && choice.reason_for_revision.is_none() {
        found.missing(&["choice.reason_for_revision"], "The reason for the revision is not recorded.").blocking();
    }
}
