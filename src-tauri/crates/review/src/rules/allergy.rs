//! Recorded allergies beside what was given, put in or stuck on.
//!
//! Word lists of families that share an allergy; common practice, from memory. A name that is in no
//! list is compared as it stands. A finding says that two records meet, not that harm was done.

use super::Look;
use super::components::{called, is_implanted};
use crate::finding::Found;

/// Families of drugs: the words that name the allergy, and the drugs that belong to it.
const DRUG_FAMILIES: &[(&[&str], &[&str])] = &[
    (
        &["penicil", "amoxicillin", "flucloxacillin", "co-amoxiclav", "beta-lactam"],
        &[
            "penicillin",
            "amoxicillin",
            "flucloxacillin",
            "co-amoxiclav",
            "piperacillin",
            "ampicillin",
            "benzylpenicillin",
        ],
    ),
    (
        &["cephalosporin", "cefalosporin", "cefuroxime", "cefazolin", "cefalexin", "ceftriaxone", "beta-lactam"],
        &["cefuroxime", "cefazolin", "cefalexin", "ceftriaxone", "cefotaxime", "ceftazidime"],
    ),
    (
        &["gentamicin", "gentamycin", "aminoglycoside", "tobramycin"],
        &["gentamicin", "gentamycin", "tobramycin", "amikacin"],
    ),
    (&["vancomycin", "teicoplanin", "glycopeptide"], &["vancomycin", "teicoplanin"]),
    (&["clindamycin", "lincomycin", "lincosamide"], &["clindamycin", "lincomycin"]),
    (
        &["local anaesthetic", "lidocaine", "bupivacaine", "ropivacaine"],
        &["lidocaine", "bupivacaine", "levobupivacaine", "ropivacaine"],
    ),
    (
        &["nsaid", "anti-inflammatory", "ibuprofen", "naproxen", "diclofenac"],
        &["ibuprofen", "naproxen", "diclofenac", "celecoxib", "etoricoxib"],
    ),
    (&["aspirin"], &["aspirin"]),
    (&["tranexamic"], &["tranexamic"]),
    (&["quinolone", "floxacin"], &["floxacin"]),
    (
        &["macrolide", "erythromycin", "clarithromycin", "azithromycin"],
        &["erythromycin", "clarithromycin", "azithromycin"],
    ),
    (&["acrylate", "bone cement"], &["bone cement"]),
    (&["chlorhexidine"], &["chlorhexidine"]),
    (&["iodine"], &["iodine"]),
    (&["heparin"], &["heparin", "enoxaparin", "dalteparin", "tinzaparin"]),
];

fn substances<'a>(look: &Look<'a>) -> impl Iterator<Item = (usize, String)> + 'a {
    let allergies = look.case.patient.allergies.iter().enumerate();
    let named = allergies.filter_map(|(i, allergy)| Some((i, allergy.substance.as_deref()?.trim().to_lowercase())));
    // "None known to …" typed as a substance is no allergy.
    named.filter(|(_, substance)| !["none", "no ", "nil", "not "].iter().any(|no| substance.starts_with(no)))
}

fn meets(substance: &str, given: &str) -> bool {
    let given = given.to_lowercase();
    if substance.len() >= 4 && given.contains(substance) {
        return true;
    }
    DRUG_FAMILIES.iter().any(|(names, drugs)| {
        names.iter().any(|name| substance.contains(name)) && drugs.iter().any(|drug| given.contains(drug))
    })
}

/// A drug that was given or is to be taken, of a family that the patient reacts to.
pub fn drug(look: Look<'_>, found: &mut Found) {
    let case = look.case;
    let mut given: Vec<(String, &str)> = Vec::new();
    if !case.anaesthesia.tranexamic.is_empty() {
        given.push(("anaesthesia.tranexamic".to_owned(), "tranexamic acid"));
    }
    if case.cement.used == Some(true) {
        given.push(("cement.used".to_owned(), "bone cement"));
    }
    for (path, text) in [
        ("closing.washout", &case.closing.washout),
        ("anaesthesia.tourniquet.isolation", &case.anaesthesia.tourniquet.isolation),
    ] {
        given.extend(text.as_deref().map(|text| (path.to_owned(), text)));
    }
    for (i, dose) in case.anaesthesia.antibiotics.iter().enumerate() {
        given.extend(dose.drug.as_deref().map(|drug| (format!("anaesthesia.antibiotics[{i}].drug"), drug)));
    }
    for (i, dose) in case.anaesthesia.infiltration.iter().enumerate() {
        given.extend(dose.drug.as_deref().map(|drug| (format!("anaesthesia.infiltration[{i}].drug"), drug)));
    }
    for (i, mix) in case.cement.mixes.iter().enumerate() {
        given.extend(mix.antibiotic.as_deref().map(|drug| (format!("cement.mixes[{i}].antibiotic"), drug)));
    }
    for (i, medicine) in case.discharge.medicines.iter().enumerate() {
        given.extend(medicine.name.as_deref().map(|drug| (format!("discharge.medicines[{i}].name"), drug)));
    }
    given.extend(case.aftercare.vte.drug.as_deref().map(|drug| ("aftercare.vte.drug".to_owned(), drug)));
    given.extend(case.aftercare.antibiotics_after.as_deref().map(|t| ("aftercare.antibiotics_after".to_owned(), t)));
    for (i, substance) in substances(&look) {
        for (path, drug) in given.iter().filter(|(_, drug)| meets(&substance, drug)) {
            found
                .conflict(
                    &[path, &format!("patient.allergies[{i}].substance")],
                    format!("An allergy to {substance} is recorded; the entry also says: {drug}."),
                )
                .source("families of drugs from memory");
        }
    }
}

/// A metal that the patient reacts to, in the material of an implanted component.
pub fn metal(look: Look<'_>, found: &mut Found) {
    const METALS: &[(&str, &[&str])] = &[
        ("nickel", &["nickel", "cobalt", "stainless", "steel"]),
        ("cobalt", &["cobalt"]),
        ("chromium", &["chromium", "cobalt-chrom", "stainless", "steel"]),
        ("chrome", &["chromium", "cobalt-chrom", "stainless", "steel"]),
        ("titanium", &["titanium"]),
        ("metal", &["nickel", "cobalt", "chrom", "steel", "titanium"]),
    ];
    for (a, substance) in substances(&look) {
        for (i, part) in look.case.components.iter().enumerate().filter(|(_, part)| is_implanted(part)) {
            let Some(material) = part.material.as_deref().map(str::to_lowercase) else { continue };
            let meets = METALS
                .iter()
                .any(|(metal, words)| substance.contains(metal) && words.iter().any(|word| material.contains(word)));
            if meets {
                found
                    .caution(
                        &[&format!("components[{i}].material"), &format!("patient.allergies[{a}].substance")],
                        format!(
                            "An allergy to {substance} is recorded; the {} is made of {material}.",
                            called(part, i)
                        ),
                    )
                    .source("metals of common alloys from memory: cobalt-chromium and steel hold nickel");
            }
        }
    }
}

/// Latex or an adhesive that the patient reacts to, in the dressing.
pub fn dressing(look: Look<'_>, found: &mut Found) {
    let Some(dressing) = look.case.closing.dressing.as_deref() else { return };
    let text = dressing.to_lowercase();
    for (i, substance) in substances(&look) {
        for (word, kin) in [
            ("latex", &["latex"][..]),
            ("plaster", &["plaster", "adhesive"][..]),
            ("adhesive", &["plaster", "adhesive"][..]),
            ("iodine", &["iodine", "iodophor"][..]),
            ("silicone", &["silicone"][..]),
        ] {
            let named = kin.iter().any(|kin| says(&text, kin));
            if substance.contains(word) && named {
                found.caution(
                    &["closing.dressing", &format!("patient.allergies[{i}].substance")],
                    format!("An allergy to {substance} is recorded; the dressing is: {dressing}."),
                );
                break;
            }
        }
    }
}

/// Tells whether a text names a thing, and not its absence ("latex-free", "without adhesive", "no plaster").
fn says(text: &str, thing: &str) -> bool {
    text.match_indices(thing).any(|(at, _)| {
        let before = &text[..at];
        let after = &text[at + thing.len()..];
        let denied = ["no ", "without ", "non-", "not "]
            .iter()
            .any(|no| before.rfind(no).is_some_and(|from| !before[from..].contains([',', ';', '.'])));
        !denied && !after.starts_with("-free") && !after.starts_with(" free")
    })
}
