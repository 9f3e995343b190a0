//! What the ward is to do.

use crate::{Date, LocalTime, codes, record};

codes! {
    /// How much weight the leg may take.
    pub enum WeightBearing {
        Full = "full" => "full",
        Partial = "partial" => "partial",
        ToeTouch = "toe_touch" => "toe touch only",
        None = "none" => "none",
    }
}

record! {
    /// Prevention of venous thromboembolism.
    pub struct Vte {
        #[label("Drug")]
        drug: Option<String>,
        #[label("Dose")]
        dose: Option<String>,
        #[label("First dose at")]
        first_dose_at: Option<LocalTime>,
        #[label("For")]
        #[unit("days")]
        #[plausible(1.0, 42.0)]
        days: Option<u32>,
        /// Stockings, foot pumps, intermittent compression.
        #[label("Mechanical")]
        mechanical: Option<String>,
        #[label("Why no drug")]
        no_drug_reason: Option<String>,
    }
}

record! {
    /// A planned review.
    pub struct Review {
        #[label("What")]
        what: Option<String>,
        #[label("On")]
        on: Option<Date>,
        #[label("With")]
        with: Option<String>,
    }
}

record! {
    /// What is to happen after the operation.
    pub struct Aftercare {
        #[label("Weight bearing")]
        weight_bearing: Option<WeightBearing>,
        #[label("Walking aid")]
        walking_aid: Option<String>,
        #[label("Exercises")]
        #[long(true)]
        exercises: Option<String>,
        #[label("Prevention of blood clots")]
        vte: Vte,
        #[label("Antibiotics after the operation")]
        antibiotics_after: Option<String>,
        #[label("Pain relief")]
        #[long(true)]
        pain_relief: Option<String>,
        #[label("Wound check on")]
        wound_check_on: Option<Date>,
        /// Stitches or clips.
        #[label("Stitches or clips out on")]
        closure_removal_on: Option<Date>,
        #[label("Stitches or clips out by")]
        closure_removal_by: Option<String>,
        #[label("Drain out on")]
        drain_out_on: Option<Date>,
        #[label("Blood tests on")]
        bloods_on: Option<Date>,
        #[label("Film on")]
        film_on: Option<Date>,
        #[label("Reviews")]
        reviews: Vec<Review>,
        /// For ward and patient: the discharge letter prints them, so write plain words.
        #[label("Instructions")]
        #[long(true)]
        instructions: Option<String>,
        /// For the ward; only the operative note prints them.
        #[label("Special instructions")]
        #[long(true)]
        special: Option<String>,
    }
}
