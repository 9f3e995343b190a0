//! Which of the medicines is the blood thinner, and whether two texts name one drug or one dose.
//!
//! Names are compared by whole words and doses by their amounts. It knows no doses and no equivalents,
//! and it never says which of two texts is right.

use evengap_case::sections::Medicine;
use evengap_case::{Case, Date};

/// Words that tell the form, the salt or the way of taking, and no drug. From memory; no list is complete.
const NO_DRUG: &[&str] = &[
    "tablet",
    "tablets",
    "capsule",
    "capsules",
    "injection",
    "injections",
    "syringe",
    "syringes",
    "solution",
    "drops",
    "liquid",
    "oral",
    "once",
    "twice",
    "daily",
    "day",
    "days",
    "each",
    "every",
    "dose",
    "low",
    "high",
    "molecular",
    "weight",
    "units",
    "micrograms",
    "sodium",
    "calcium",
    "acid",
    "the",
    "and",
    "for",
    "with",
];

/// Drugs that thin the blood, by their international names; from memory, and open at its end.
const BLOOD_THINNERS: &[&str] = &[
    "warfarin",
    "acenocoumarol",
    "phenprocoumon",
    "fluindione",
    "apixaban",
    "rivaroxaban",
    "edoxaban",
    "dabigatran",
    "heparin",
    "enoxaparin",
    "dalteparin",
    "tinzaparin",
    "nadroparin",
    "bemiparin",
    "certoparin",
    "fondaparinux",
    "aspirin",
    "acetylsalicylic",
    "clopidogrel",
    "prasugrel",
    "ticagrelor",
    "ticlopidine",
    "dipyridamole",
];

/// Gives the words of a text that may name a drug: of three letters or more, in small letters.
fn words(text: &str) -> Vec<String> {
    let lower = text.to_lowercase();
    let words = lower.split(|c: char| !c.is_alphanumeric());
    let words = words.filter(|word| word.chars().filter(|c| c.is_alphabetic()).count() >= 3);
    words.filter(|word| !NO_DRUG.contains(word)).map(str::to_owned).collect()
}

/// Tells whether two texts name one drug: the same first word, or all words of one among those of the other.
fn same_drug(one: &str, other: &str) -> bool {
    if one.trim().to_lowercase() == other.trim().to_lowercase() {
        return !one.trim().is_empty();
    }
    let (one, other) = (words(one), words(other));
    let within = |part: &[String], whole: &[String]| part.iter().all(|word| whole.contains(word));
    match (one.first(), other.first()) {
        (Some(first), Some(second)) => first == second || within(&one, &other) || within(&other, &one),
        _ => false,
    }
}

/// Gives the medicines that bear the name of the blood thinner, with their places in the list.
pub(crate) fn blood_thinners(case: &Case) -> Vec<(usize, &Medicine)> {
    let Some(drug) = blood_thinner(case) else { return Vec::new() };
    let medicines = case.discharge.medicines.iter().enumerate();
    medicines.filter(|(_, medicine)| medicine.name.as_deref().is_some_and(|name| same_drug(name, drug))).collect()
}

/// Gives the last day of the blood thinner: the latest of the medicines that bear the drug's name.
pub fn blood_thinner_until(case: &Case) -> Option<Date> {
    blood_thinners(case).into_iter().filter_map(|(_, medicine)| medicine.until).max()
}

/// Gives the blood thinners from before the operation that are not the one for afterwards and of which no
/// medicine says what to do. A line of the list says it by a dose ("stopped" is one) or a last day.
pub(crate) fn unexplained_blood_thinners(case: &Case) -> Vec<String> {
    let (Some(before), Some(after)) = (&case.patient.anticoagulant, blood_thinner(case)) else {
        return Vec::new();
    };
    if says_none(before) {
        return Vec::new();
    }
    let explained = |drug: &str| {
        let says = |medicine: &&Medicine| medicine.dose.is_some() || medicine.until.is_some();
        let mut lines = case.discharge.medicines.iter().filter(says).filter_map(|medicine| medicine.name.as_deref());
        same_drug(drug, after) || lines.any(|name| same_drug(name, drug))
    };
    let mut named: Vec<String> = words(before).into_iter().filter(|w| BLOOD_THINNERS.contains(&w.as_str())).collect();
    if named.is_empty() {
        named.push(before.trim().to_owned());
    }
    named.dedup();
    named.retain(|drug| !explained(drug));
    named
}

/// Gives the blood thinner for after the operation, unless its place only says that there is none.
pub(crate) fn blood_thinner(case: &Case) -> Option<&str> {
    case.aftercare.vte.drug.as_deref().filter(|drug| !says_none(drug))
}

/// Tells whether the place of a drug only denies ("none", "no anticoagulant", "not on any").
pub fn says_none(text: &str) -> bool {
    let lower = text.to_lowercase();
    let mut words = lower.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    match words.next() {
        // One dash stands for nothing; what else has no letter is not understood, and is kept.
        None => matches!(text.trim(), "" | "-" | "–" | "—"),
        Some("none" | "nil" | "never" | "nothing" | "na" | "keine" | "keiner" | "ninguno" | "ninguna") => true,
        Some("n") => words.next() == Some("a"),
        Some("no" | "not") => matches!(
            words.next(),
            None | Some(
                "anticoagulant"
                    | "anticoagulants"
                    | "anticoagulation"
                    | "blood"
                    | "known"
                    | "regular"
                    | "on"
                    | "any"
                    | "taking"
                    | "applicable"
                    | "longer"
            )
        ),
        Some(_) => false,
    }
}

/// Tells whether two texts give different doses: amounts of one kind of which none is the same, or another
/// number of times a day. What it cannot read, it does not compare.
pub(crate) fn doses_differ(one: &str, other: &str) -> bool {
    let (one, other) = (Dose::read(one), Dose::read(other));
    let disjoint = |a: &[f64], b: &[f64]| {
        !a.is_empty() && !b.is_empty() && !a.iter().any(|x| b.iter().any(|y| (x - y).abs() < 1e-6))
    };
    let often = matches!((one.times_a_day, other.times_a_day), (Some(a), Some(b)) if a != b);
    often || disjoint(&one.mg, &other.mg) || disjoint(&one.units, &other.units)
}

/// What a text says of a dose.
#[derive(Debug, Default, PartialEq)]
struct Dose {
    mg: Vec<f64>,
    /// International units.
    units: Vec<f64>,
    times_a_day: Option<u32>,
}

impl Dose {
    fn read(text: &str) -> Self {
        let lower = text.to_lowercase();
        let mut dose = Self::default();
        let mut rest = lower.as_str();
        while let Some(at) = rest.find(|c: char| c.is_ascii_digit()) {
            rest = &rest[at..];
            let is_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',');
            let (number, after) = rest.split_at(rest.find(|c| !is_number(c)).unwrap_or(rest.len()));
            let after = after.trim_start();
            let unit = &after[..after.find(|c: char| !c.is_alphabetic()).unwrap_or(after.len())];
            dose.take(number.trim_end_matches(['.', ',']), unit);
            rest = after;
        }
        let times = [("once", 1), ("twice", 2), ("three times", 3), ("four times", 4)];
        let mut named = times.iter().filter(|(word, _)| lower.contains(word)).map(|(_, times)| *times);
        dose.times_a_day = named.next().filter(|_| named.next().is_none());
        dose
    }

    fn take(&mut self, number: &str, unit: &str) {
        let decimal = || number.replace(',', ".").parse::<f64>();
        match unit {
            "mg" | "milligram" | "milligrams" => self.mg.extend(decimal()),
            "g" | "gram" | "grams" => self.mg.extend(decimal().map(|g| g * 1000.0)),
            "micrograms" | "microgram" | "mcg" | "µg" | "μg" => self.mg.extend(decimal().map(|ug| ug / 1000.0)),
            // Units are whole, so a point or comma only parts the thousands.
            "unit" | "units" | "iu" | "ie" | "ui" => self.units.extend(number.replace(['.', ','], "").parse::<f64>()),
            _ => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drug_is_known_by_whole_words() {
        for (one, other, same, reason) in [
            ("Rivaroxaban", "rivaroxaban tablets 10 mg", true, "the form is no drug"),
            ("Enoxaparin", "Enoxaparin sodium", true, "nor is the salt"),
            ("Low molecular weight heparin", "Heparin", true, "all words of one are among the other's"),
            ("R", "Rivaroxaban", false, "a letter names no drug"),
            ("Paracetamol", "R", false, "in neither direction"),
            ("R", "r", true, "but what is typed alike is alike"),
            ("Enoxaparin sodium", "Diclofenac sodium", false, "one salt, two drugs"),
            ("Acetylsalicylic acid", "Folic acid", false, "one kind, two drugs"),
            ("Heparin", "Heparinoid cream", false, "a part of a word is no word"),
            ("", "", false, "nothing names nothing"),
        ] {
            assert_eq!(same_drug(one, other), same, "{one} and {other}: {reason}");
            assert_eq!(same_drug(other, one), same, "{other} and {one}: {reason}");
        }
    }

    #[test]
    fn doses_differ_by_their_amounts_and_times() {
        for (one, other, differ) in [
            ("10 mg by mouth once a day", "10 mg once a day with food", false),
            ("10 mg by mouth once a day", "20 mg once a day", true),
            ("2.5 mg twice a day", "2,5 mg", false),
            ("40mg once a day", "40 mg twice a day", true),
            ("0.5 g", "500 mg", false),
            ("40 mg (4,000 units)", "4000 IU each evening", false),
            ("5000 units", "2.500 units", true),
            ("one tablet", "10 mg", false),
            ("15 mg twice a day, then 20 mg once a day", "20 mg once a day", false),
        ] {
            assert_eq!(doses_differ(one, other), differ, "{one} beside {other}");
            assert_eq!(doses_differ(other, one), differ, "{other} beside {one}");
        }
    }

    #[test]
    fn a_denial_names_no_drug() {
        for text in ["None", "no", "No anticoagulant", "n/a", "-", "not on any", "nil regular"] {
            assert!(says_none(text), "{text}");
        }
        for text in ["Warfarin", "not stopped: warfarin", "Apixaban, none since Monday", "Nilotinib", "---"] {
            assert!(!says_none(text), "{text}");
        }
    }
}
