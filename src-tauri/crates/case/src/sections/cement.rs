//! The cement and its clock.

use crate::{ComponentIndex, LocalTime, codes, record};

codes! {
    /// How the cement was mixed.
    pub enum Mixing {
        Vacuum = "vacuum" => "under vacuum",
        Hand = "hand" => "by hand",
    }
}

record! {
    /// One mix of cement.
    pub struct CementMix {
        /// The cement among the components.
        #[label("Cement")]
        component: Option<ComponentIndex>,
        #[label("Antibiotic in the cement")]
        antibiotic: Option<String>,
        #[label("Mixing")]
        mixing: Option<Mixing>,
        #[label("Technique")]
        technique: Option<String>,
        #[label("Storage temperature")]
        #[unit("°C")]
        #[plausible(2.0, 30.0)]
        storage_c: Option<f64>,
        #[label("Theatre temperature")]
        #[unit("°C")]
        #[plausible(14.0, 28.0)]
        theatre_c: Option<f64>,
        #[label("Humidity")]
        #[unit("%")]
        #[plausible(20.0, 80.0)]
        humidity_percent: Option<f64>,
        #[label("Mixed at")]
        mixed_at: Option<LocalTime>,
        #[label("Applied at")]
        applied_at: Option<LocalTime>,
        #[label("Seated at")]
        seated_at: Option<LocalTime>,
        #[label("Hard at")]
        hard_at: Option<LocalTime>,
    }
}

record! {
    /// The cement.
    pub struct Cement {
        #[label("Cement used")]
        used: Option<bool>,
        #[label("Mixes")]
        mixes: Vec<CementMix>,
        #[label("Excess removed")]
        excess_removed: Option<bool>,
    }
}
