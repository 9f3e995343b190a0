//! Who is operated on.

use crate::{Date, codes, record};

codes! {
    /// Sex as used by formulas and recorded by the hospital.
    pub enum Sex {
        Female = "female" => "female",
        Male = "male" => "male",
        Other = "other" => "other",
        Unknown = "unknown" => "unknown",
    }
}

codes! {
    /// Smoking history.
    pub enum Smoker {
        Never = "never" => "never smoked",
        Former = "former" => "former smoker",
        Current = "current" => "current smoker",
    }
}

record! {
    /// A substance that the patient reacts to.
    pub struct Allergy {
        /// Drug, metal, latex, dressing or other substance.
        #[label("Substance")]
        substance: Option<String>,
        /// What happened, in a few words.
        #[label("Reaction")]
        reaction: Option<String>,
    }
}

record! {
    /// Who is operated on, and what the team must know before touching them.
    pub struct Patient {
        /// As printed on the wristband.
        #[label("Hospital number")]
        hospital_number: Option<String>,
        #[label("Given name")]
        given_name: Option<String>,
        #[label("Family name")]
        family_name: Option<String>,
        #[label("Date of birth")]
        birth_date: Option<Date>,
        #[label("Sex")]
        sex: Option<Sex>,
        /// Standing, without shoes.
        #[label("Height")]
        #[unit("cm")]
        #[plausible(120.0, 220.0)]
        height_cm: Option<f64>,
        #[label("Weight")]
        #[unit("kg")]
        #[plausible(35.0, 220.0)]
        weight_kg: Option<f64>,
        #[label("Allergies")]
        allergies: Vec<Allergy>,
        /// Tick when allergies were asked for and there are none.
        #[label("No known allergies")]
        none_recorded: Option<bool>,
        /// Regular blood thinner, with when it was stopped.
        #[label("Anticoagulant")]
        anticoagulant: Option<String>,
        /// Illnesses that matter for this operation, one a line.
        #[label("Conditions")]
        conditions: Vec<String>,
        #[label("Smoking")]
        smoker: Option<Smoker>,
        /// The language in which the patient reads best.
        #[label("Language")]
        language: Option<String>,
    }
}
