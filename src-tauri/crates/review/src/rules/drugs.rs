//! What was given, beside the tables in force: window, dose, interval, totals.
//!
//! Every sentence states the number, the limit and its source; none says what should have been done.

use super::{Look, Reckoned};
use crate::finding::Found;

/// An antibiotic outside of its window before the incision, where no dose was within it.
pub fn antibiotic_window(look: Look<'_>, found: &mut Found) {
    let timed: Vec<_> = look.reckoned("antibiotic_timing").collect();
    let reason = look.case.anaesthesia.no_antibiotic_reason.is_some();
    if reason || timed.iter().any(|(_, dose)| dose.is("within_window", true)) {
        return;
    }
    // Later doses of the same operation are repeats; the first one counts.
    let first = timed
        .iter()
        .filter_map(|(at, dose)| Some((at, dose, dose.number("minutes_before_incision")?)))
        .max_by(|a, b| a.2.total_cmp(&b.2));
    let Some((at, dose, minutes)) = first else { return };
    let window = dose.number("window_min").unwrap_or_default();
    let when = if minutes < 0.0 {
        format!("{} minutes after the incision", -minutes)
    } else {
        format!("{minutes} minutes before the incision")
    };
    found
        .out_of_range(
            &[&format!("{at}.given_at"), "times.incision"],
            format!("The antibiotic was given {when}; the table's window is {window} minutes before it."),
        )
        .source(dose.source("antibiotics"));
}

/// A dose under that of the table for this weight.
pub fn antibiotic_dose(look: Look<'_>, found: &mut Found) {
    for (at, dose) in look.reckoned("antibiotic_timing") {
        // A repeat during the operation may be another dose.
        let before = dose.number("minutes_before_incision").is_some_and(|minutes| minutes >= 0.0);
        let (Some(table), Some(less)) = (dose.number("table_dose_mg"), dose.number("dose_minus_table_mg")) else {
            continue;
        };
        if before && less < 0.0 {
            found
                .out_of_range(
                    &[&format!("{at}.dose_mg"), "patient.weight_kg"],
                    format!("The antibiotic's dose of {} mg is under the table's {table} mg.", table + less),
                )
                .source(dose.source("antibiotics"));
        }
    }
}

/// The interval after which a table repeats a drug had ended before closure, and no later dose is recorded.
pub fn antibiotic_again(look: Look<'_>, found: &mut Found) {
    let doses = &look.case.anaesthesia.antibiotics;
    for (i, dose) in doses.iter().enumerate() {
        let repeated = doses.iter().any(|other| other.drug == dose.drug && other.given_at > dose.given_at);
        let at = format!("anaesthesia.antibiotics[{i}]");
        let Some((_, timing)) = look.reckoned("antibiotic_timing").find(|(beside, _)| *beside == at) else { continue };
        if !repeated && timing.is("interval_ended_before_closure", true) {
            let drug = dose.drug.as_deref().unwrap_or("the antibiotic");
            found
                .caution(
                    &[&format!("{at}.given_at"), "times.closed"],
                    format!("The table's interval for repeating {drug} ended before the wound was closed; one dose is recorded."),
                )
                .source(timing.source("antibiotics"));
        }
    }
}

/// The tourniquet was up for longer than the limit, or down for less than the pause.
pub fn tourniquet_time(look: Look<'_>, found: &mut Found) {
    for (_, time) in look.reckoned("tourniquet_time") {
        let limit = |name: &str| time.limit(name).unwrap_or_default();
        if time.is("total_over_limit", true) {
            let total = time.number("total_min").unwrap_or_default();
            let message = format!(
                "The tourniquet was up for {total} minutes in all; the limit is {} minutes.",
                limit("tourniquet_total_min")
            );
            found
                .out_of_range(&["anaesthesia.tourniquet.inflations"], message)
                .source(time.source("tourniquet_total_min"));
        }
        if time.is("pause_under_limit", true) {
            let message = format!(
                "Between two inflations the tourniquet was down for under {} minutes.",
                limit("tourniquet_gap_min")
            );
            found
                .out_of_range(&["anaesthesia.tourniquet.inflations"], message)
                .source(time.source("tourniquet_gap_min"));
        }
    }
}

/// A tourniquet that was not used but has a record, or a cuff that was set under the limb's occlusion pressure.
pub fn tourniquet_record(look: Look<'_>, found: &mut Found) {
    let cuff = &look.case.anaesthesia.tourniquet;
    let recorded = !cuff.inflations.is_empty() || cuff.pressure_mmhg.is_some();
    if cuff.used == Some(false) && recorded {
        found.conflict(
            &["anaesthesia.tourniquet.used", "anaesthesia.tourniquet.inflations"],
            "The tourniquet is recorded as not used, but an inflation or a cuff pressure is recorded.",
        );
    }
    if let (Some(occlusion), Some(set)) = (cuff.limb_occlusion_mmhg, cuff.pressure_mmhg)
        && set < occlusion
    {
        found.conflict(
            &["anaesthesia.tourniquet.pressure_mmhg", "anaesthesia.tourniquet.limb_occlusion_mmhg"],
            format!("The cuff was set to {set} mmHg, under the recorded limb occlusion pressure of {occlusion} mmHg."),
        );
    }
}

/// More tranexamic acid in all than the limit.
pub fn tranexamic_total(look: Look<'_>, found: &mut Found) {
    over(look, found, "tranexamic_total", |total| {
        let (given, limit) = (total.number("total_mg")?, total.limit("tranexamic_total_mg")?);
        let message = format!("Tranexamic acid {given} mg in all; the limit is {limit} mg.");
        Some(("anaesthesia.tranexamic", message, total.source("tranexamic_total_mg")))
    });
}

/// Under this filtration rate, labels of tranexamic acid speak of less. KDIGO 2012 calls it G3a and below; that
/// labels do so is from memory.
const KIDNEY_ML_MIN: f64 = 60.0;

/// Tranexamic acid into the blood of a patient whose kidneys filter little.
pub fn tranexamic_and_kidney(look: Look<'_>, found: &mut Found) {
    use evengap_case::sections::Route;
    let doses = &look.case.anaesthesia.tranexamic;
    if !doses.iter().any(|dose| dose.route != Some(Route::Topical)) {
        return;
    }
    for (_, kidney) in look.reckoned("egfr") {
        let Some(rate) = kidney.number("egfr_ml_min_1_73m2").filter(|rate| *rate < KIDNEY_ML_MIN) else { continue };
        found
            .caution(
                &["anaesthesia.tranexamic", "knee.bloods_before.creatinine_umol_l"],
                format!(
                    "Tranexamic acid leaves by the kidneys; the estimated filtration is {rate:.0} ml/min per 1.73 m²."
                ),
            )
            .source(format!("labels of tranexamic acid, from memory; estimate: {}", kidney.source("")));
    }
}

/// More local anaesthetic in all than the table allows.
pub fn local_anaesthetic_total(look: Look<'_>, found: &mut Found) {
    over(look, found, "local_anaesthetic", |total| {
        // Where the table lacks a drug, the known part alone is over already.
        let share = total.number("fraction_together").or_else(|| total.number("fraction_known"))?;
        let message = format!("The infiltrations make at least {:.0} % of the table's greatest dose.", share * 100.0);
        Some(("anaesthesia.infiltration", message, total.source("local_anaesthetics")))
    });
}

fn over(
    look: Look<'_>,
    found: &mut Found,
    name: &'static str,
    say: impl Fn(&Reckoned<'_>) -> Option<(&'static str, String, String)>,
) {
    for (_, total) in look.reckoned(name) {
        if total.is("over_limit", true)
            && let Some((path, message, source)) = say(&total)
        {
            found.out_of_range(&[path], message).source(source);
        }
    }
}
