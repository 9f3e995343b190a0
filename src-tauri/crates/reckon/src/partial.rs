//! Published criteria for a partial replacement, each held against what is recorded: met, not met, not recorded.
//! Two sources that disagree stand side by side; there is no sum and no verdict.

use crate::given::{Given, codes};
use crate::number::tenth;
use crate::{Answer, Degrees, Input, Kilograms, Limits, Reckoning, Refusal, Source, Statement, Years};

codes! {
    /// The compartment to be replaced.
    pub enum Compartment {
        Medial = "medial" => "medial",
        Lateral = "lateral" => "lateral",
    }
}

codes! {
    /// State of the cartilage of a compartment.
    pub enum Cartilage {
        Intact = "intact" => "intact",
        Thinned = "thinned" => "thinned",
        BoneOnBone = "bone_on_bone" => "bone on bone",
    }
}

codes! {
    /// State of a ligament.
    pub enum Ligament {
        Intact = "intact" => "intact",
        Stretched = "stretched" => "stretched",
        Absent = "absent" => "absent",
        NotAssessed = "not_assessed" => "not assessed",
    }
}

codes! {
    /// How far a deformity can be corrected by hand.
    pub enum Correctable {
        Fully = "fully" => "fully correctable",
        Partly = "partly" => "partly correctable",
        Fixed = "fixed" => "fixed",
    }
}

codes! {
    /// How a criterion stands.
    pub enum Standing {
        Met = "met" => "met",
        NotMet = "not_met" => "not met",
        NotRecorded = "not_recorded" => "not recorded",
    }
}

/// What is recorded of the knee and the person. Nothing means not recorded.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Knee {
    /// Age on the day of the operation.
    pub age: Option<Years>,
    /// Body weight.
    pub weight: Option<Kilograms>,
    /// Inflammatory arthritis.
    pub inflammatory: Option<bool>,
    /// Chondrocalcinosis.
    pub chondrocalcinosis: Option<bool>,
    /// Heavy labour.
    pub heavy_work: Option<bool>,
    /// Cartilage of the medial compartment.
    pub medial: Option<Cartilage>,
    /// Cartilage of the lateral compartment.
    pub lateral: Option<Cartilage>,
    /// Cartilage of the patellofemoral compartment.
    pub patellofemoral: Option<Cartilage>,
    /// Bone loss of the patellofemoral compartment.
    pub patellofemoral_bone_loss: Option<bool>,
    /// Anterior cruciate ligament.
    pub acl: Option<Ligament>,
    /// Posterior cruciate ligament.
    pub pcl: Option<Ligament>,
    /// Medial collateral ligament.
    pub mcl: Option<Ligament>,
    /// Lateral collateral ligament.
    pub lcl: Option<Ligament>,
    /// Coronal deformity, varus negative.
    pub coronal: Option<Degrees>,
    /// How far it can be corrected.
    pub correctable: Option<Correctable>,
    /// Fixed flexion, positive.
    pub fixed_flexion: Option<Degrees>,
    /// Lack of extension, positive; hyperextension negative.
    pub extension: Option<Degrees>,
    /// Flexion.
    pub flexion: Option<Degrees>,
}

/// A criterion and how it stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Criterion {
    /// Name in the results.
    pub name: &'static str,
    /// The criterion in words.
    pub about: &'static str,
    /// How it stands.
    pub standing: Standing,
    /// Who named it.
    pub source: Source,
}

/// The classic criteria.
pub const CLASSIC: Source = Source::from_memory(
    "Kozinn & Scott, unicondylar knee arthroplasty (as quoted later)",
    1989,
    "J Bone Joint Surg Am 71:145",
);
/// The review of later evidence.
pub const LATER: Source = Source::published(
    "Unicompartmental knee arthroplasty, review of indications and results",
    2018,
    "EFORT Open Rev 3:363",
);
/// The series that tested the classic criteria.
pub const TESTED: Source = Source::from_memory(
    "Hamilton et al., indications for mobile-bearing unicompartmental replacement in 1000 knees",
    2017,
    "J Arthroplasty 32:1779",
);

/// No published criterion of its own was found for the lateral compartment.
pub const LATERAL: Source = Source::common_practice("The compartment that is replaced is worn to bone");

/// Holds the record against the criteria of both sources. Angles and weights are rounded to tenths before comparing.
pub fn reckon(compartment: Compartment, knee: &Knee) -> Vec<Criterion> {
    let (own, other) = match compartment {
        Compartment::Medial => (knee.medial, knee.lateral),
        Compartment::Lateral => (knee.lateral, knee.medial),
    };
    let intact = |ligament: Option<Ligament>| {
        standing(ligament.filter(|state| *state != Ligament::NotAssessed).map(|state| state == Ligament::Intact))
    };
    let under = |angle: Option<Degrees>, limit: f64| standing(angle.map(|angle| tenth(angle.get()).abs() < limit));
    let arc =
        knee.extension.zip(knee.flexion).map(|(extension, flexion)| tenth(flexion.get() - extension.get()) >= 90.0);
    let corrects = standing(knee.correctable.map(|how| how == Correctable::Fully));

    let mut all = Vec::new();
    let mut add = |source: &Source, name, about, standing| {
        all.push(Criterion { name, about, standing, source: source.clone() });
    };
    add(&CLASSIC, "classic_age", "60 years or older", standing(knee.age.map(|age| age.get() >= 60.0)));
    add(&CLASSIC, "classic_weight", "under 82 kg", standing(knee.weight.map(|weight| tenth(weight.get()) < 82.0)));
    add(&CLASSIC, "classic_work", "no heavy labour", none_of(knee.heavy_work));
    add(&CLASSIC, "classic_inflammation", "no inflammatory arthritis", none_of(knee.inflammatory));
    add(&CLASSIC, "classic_chondrocalcinosis", "no chondrocalcinosis", none_of(knee.chondrocalcinosis));
    add(&CLASSIC, "classic_arc", "arc of movement of 90° or more", standing(arc));
    add(&CLASSIC, "classic_fixed_flexion", "fixed flexion under 5°", under(knee.fixed_flexion, 5.0));
    add(&CLASSIC, "classic_deformity", "coronal deformity under 15°", under(knee.coronal, 15.0));
    add(&CLASSIC, "classic_correctable", "deformity fully correctable by hand", corrects);
    add(&CLASSIC, "classic_other_compartment", "no bare bone in the other compartment", not_bare(other));
    add(
        &CLASSIC,
        "classic_patellofemoral",
        "no bare bone in the patellofemoral compartment",
        not_bare(knee.patellofemoral),
    );
    add(&CLASSIC, "classic_acl", "anterior cruciate ligament intact", intact(knee.acl));
    add(&CLASSIC, "classic_pcl", "posterior cruciate ligament intact", intact(knee.pcl));

    let bare = standing(own.map(|own| own == Cartilage::BoneOnBone));
    match compartment {
        Compartment::Medial => add(&LATER, "later_bone_on_bone", "bone on bone in the medial compartment", bare),
        Compartment::Lateral => add(&LATERAL, "later_bone_on_bone", "bone on bone in the lateral compartment", bare),
    }
    let no_grooving = none_of(knee.patellofemoral_bone_loss);
    add(&LATER, "later_patellofemoral", "no patellofemoral wear with bone loss and grooving", no_grooving);
    let full = standing(other.map(|other| other == Cartilage::Intact));
    add(&TESTED, "later_other_compartment", "full cartilage in the other compartment", full);
    add(&TESTED, "later_acl", "anterior cruciate ligament working", intact(knee.acl));
    let collateral = match compartment {
        Compartment::Medial => intact(knee.mcl),
        Compartment::Lateral => intact(knee.lcl),
    };
    add(&TESTED, "later_collateral", "collateral ligament of that side working", collateral);
    add(&TESTED, "later_correctable", "deformity fully correctable by hand", corrects);
    add(&TESTED, "later_inflammation", "no inflammatory arthritis", none_of(knee.inflammatory));
    all
}

fn standing(met: Option<bool>) -> Standing {
    match met {
        Some(true) => Standing::Met,
        Some(false) => Standing::NotMet,
        None => Standing::NotRecorded,
    }
}

fn none_of(present: Option<bool>) -> Standing {
    standing(present.map(|present| !present))
}

fn not_bare(cartilage: Option<Cartilage>) -> Standing {
    standing(cartilage.map(|cartilage| cartilage != Cartilage::BoneOnBone))
}

const CARTILAGE: &str = "intact, thinned or bone_on_bone";
const LIGAMENT: &str = "intact, stretched, absent or not_assessed";

/// The reckoning as data.
pub const RECKONING: Reckoning = Reckoning {
    name: "partial_suitability",
    title: "Published criteria for a partial replacement",
    formula: "each criterion: met, not met or not recorded; no sum, no verdict",
    inputs: &[
        Input::required("compartment", "", "compartment to be replaced: medial or lateral"),
        Input::optional("age_years", "years", "age on the day of the operation"),
        Input::optional("weight_kg", "kg", "body weight"),
        Input::optional("inflammatory_arthritis", "", "true or false"),
        Input::optional("chondrocalcinosis", "", "true or false"),
        Input::optional("heavy_work", "", "true or false"),
        Input::optional("medial_cartilage", "", CARTILAGE),
        Input::optional("lateral_cartilage", "", CARTILAGE),
        Input::optional("patellofemoral_cartilage", "", CARTILAGE),
        Input::optional("patellofemoral_bone_loss", "", "true or false"),
        Input::optional("acl", "", LIGAMENT),
        Input::optional("pcl", "", LIGAMENT),
        Input::optional("mcl", "", LIGAMENT),
        Input::optional("lcl", "", LIGAMENT),
        Input::optional("coronal_deg", "°", "coronal deformity, varus negative"),
        Input::optional("correctable", "", "fully, partly or fixed"),
        Input::optional("fixed_flexion_deg", "°", "fixed flexion, positive"),
        Input::optional("extension_deg", "°", "lack of extension, positive"),
        Input::optional("flexion_deg", "°", "flexion"),
    ],
    sources: &[CLASSIC, LATER, TESTED],
    answer,
};

fn answer(given: &mut Given<'_>, _: &Limits) -> Result<Answer, Refusal> {
    let compartment = given.take::<Compartment>("compartment");
    let knee = Knee {
        age: given.take("age_years"),
        weight: given.take("weight_kg"),
        inflammatory: given.take("inflammatory_arthritis"),
        chondrocalcinosis: given.take("chondrocalcinosis"),
        heavy_work: given.take("heavy_work"),
        medial: given.take("medial_cartilage"),
        lateral: given.take("lateral_cartilage"),
        patellofemoral: given.take("patellofemoral_cartilage"),
        patellofemoral_bone_loss: given.take("patellofemoral_bone_loss"),
        acl: given.take("acl"),
        pcl: given.take("pcl"),
        mcl: given.take("mcl"),
        lcl: given.take("lcl"),
        coronal: given.take("coronal_deg"),
        correctable: given.take("correctable"),
        fixed_flexion: given.take("fixed_flexion_deg"),
        extension: given.take("extension_deg"),
        flexion: given.take("flexion_deg"),
    };
    let Some(compartment) = compartment else { return Ok(given.needs()) };
    let mut answer = Answer::of(&RECKONING);
    for criterion in reckon(compartment, &knee) {
        answer.text(criterion.name, criterion.standing.words());
        answer.statements.push(Statement {
            about: criterion.about.into(),
            says: criterion.standing.words().into(),
            source: criterion.source,
        });
    }
    answer.note(
        "By the review of 2018, age under 60, a weight of 82 kg or more, heavy work, chondrocalcinosis and bare bone in the \
         patellofemoral compartment are no contraindications; the series of 2017 found no worse results with them.",
    );
    answer.note("The classic limit for deformity is also quoted as 10° in varus and 15° in valgus.");
    answer.note("Weight and angles are rounded to tenths before comparing.");
    Ok(answer)
}
