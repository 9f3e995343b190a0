//! The rules: each looks at an entry and says what it finds. One rule is one function and one line here.
//!
//! To add one: write the function in the file of its subject, add its line, and give
//! `tests/it/rules.rs` a case that triggers it and a near miss that does not.

mod allergy;
mod cement;
mod components;
mod discharge;
mod drugs;
mod events;
mod label;
mod partial;
mod plausible;
mod procedure;
mod sides;
mod times;
mod usuals;

pub(crate) use components::is_implanted;

use evengap_case::Case;
use evengap_reckon::Answer;
use serde_json::Value;

use crate::beside::Beside;
use crate::{Finding, finding::Found};

/// What a rule may look at.
#[derive(Debug, Clone, Copy)]
pub struct Look<'a> {
    /// The entry.
    pub case: &'a Case,
    /// The entry of the other knee of the same sitting, where it is at hand.
    pub companion: Option<&'a Case>,
    /// What this place's scanners send between two elements of a label, besides ASCII 29.
    pub separators: &'a [String],
    /// The reckonings that follow from the entry, under the limits in force.
    pub beside: &'a [Beside],
}

impl<'a> Look<'a> {
    /// Gives the reckonings of one name with the group of answers that each stands beside.
    fn reckoned(&self, name: &'static str) -> impl Iterator<Item = (&'a str, Reckoned<'a>)> + use<'a> {
        let beside = self.beside.iter().filter(move |beside| beside.answer.reckoning == name);
        beside.map(|beside| (beside.at.as_str(), Reckoned(&beside.answer)))
    }
}

/// The answer of a reckoning, asked by the names of its results.
#[derive(Clone, Copy)]
struct Reckoned<'a>(&'a Answer);

impl Reckoned<'_> {
    fn value(&self, name: &str) -> Option<&Value> {
        self.0.results.iter().find(|result| result.name == name).map(|result| &result.value)
    }

    fn number(&self, name: &str) -> Option<f64> {
        self.value(name)?.as_f64()
    }

    fn is(&self, name: &str, yes: bool) -> bool {
        self.value(name).and_then(Value::as_bool) == Some(yes)
    }

    /// The source of a limit that the result was held against, or of the formula.
    fn source(&self, limit: &str) -> String {
        let limit = self.0.limits.iter().find(|row| row.name == limit);
        limit.map(|row| &row.source).or(self.0.sources.first()).map(ToString::to_string).unwrap_or_default()
    }

    /// A limit that the result was held against.
    fn limit(&self, name: &str) -> Option<f64> {
        self.0.limits.iter().find(|row| row.name == name).map(|row| row.value)
    }
}

/// One rule.
#[derive(Debug, Clone, Copy)]
pub struct Rule {
    /// Its name: lower snake case, stable, because overrides refer to it.
    pub name: &'static str,
    look: fn(Look<'_>, &mut Found),
}

impl Rule {
    /// Runs the rule.
    pub fn findings(&self, look: Look<'_>) -> Vec<Finding> {
        let mut found = Found::of(self.name);
        (self.look)(look, &mut found);
        found.into_findings()
    }
}

const fn rule(name: &'static str, look: fn(Look<'_>, &mut Found)) -> Rule {
    Rule { name, look }
}

/// Every rule beside the published lists, in the order of the operation.
pub const RULES: &[Rule] = &[
    rule("unconfirmed_answers", usuals::unconfirmed),
    rule("side_of_component", sides::component),
    rule("side_of_companion", sides::companion),
    rule("side_in_words", sides::words),
    rule("part_missing", procedure::part_missing),
    rule("part_not_in_procedure", procedure::part_not_in_procedure),
    rule("patella", procedure::patella),
    rule("button_thickness", procedure::button_thickness),
    rule("constraint_and_insert", procedure::constraint),
    rule("insert_thickness", procedure::insert_thickness),
    rule("revision_without_reason", procedure::revision_without_reason),
    rule("label_warning", label::warning),
    rule("label_and_entry", label::differs),
    rule("partial_criteria", partial::criteria),
    rule("patella_thin", partial::patella_thin),
    rule("antibiotic_window", drugs::antibiotic_window),
    rule("antibiotic_dose", drugs::antibiotic_dose),
    rule("antibiotic_again", drugs::antibiotic_again),
    rule("tourniquet_record", drugs::tourniquet_record),
    rule("tourniquet_time", drugs::tourniquet_time),
    rule("tranexamic_total", drugs::tranexamic_total),
    rule("tranexamic_and_kidney", drugs::tranexamic_and_kidney),
    rule("local_anaesthetic_total", drugs::local_anaesthetic_total),
    rule("cement_times", cement::times),
    rule("component_expired", components::expired),
    rule("component_twice", components::twice),
    rule("serial_twice", components::serial_twice),
    rule("fixation_and_cement", cement::fixation),
    rule("cement_without_part", cement::without_part),
    rule("cement_without_mix", cement::without_mix),
    rule("mix_without_cement", cement::mix_component),
    rule("times_order", times::order),
    rule("times_of_drugs", times::drugs_after_leaving),
    rule("day_of_operation", times::day_of_operation),
    rule("dates_order", times::dates),
    rule("allergy_and_drug", allergy::drug),
    rule("allergy_and_metal", allergy::metal),
    rule("allergy_and_dressing", allergy::dressing),
    rule("checks_not_done", events::checks),
    rule("counts", events::counts),
    rule("none_beside_list", events::none_beside_list),
    rule("event_component", events::component),
    rule("outside_ordinary_range", plausible::ranges),
    rule("scales", plausible::scales),
    rule("range_before", plausible::flexion_below_extension),
    rule("deformity_and_alignment", plausible::deformity_and_alignment),
    rule("discharge_without_phone", discharge::phone),
    rule("blood_thinner_without_end", discharge::blood_thinner),
    rule("blood_thinner_dates", discharge::blood_thinner_dates),
    rule("blood_thinner_dose", discharge::blood_thinner_dose),
    rule("two_blood_thinners", discharge::two_blood_thinners),
    rule("allergy_without_substance", discharge::allergy),
    rule("after_death", discharge::after_death),
];
