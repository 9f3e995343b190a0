//! Going home.

use super::Range;
use crate::{Date, record};

record! {
    /// A medicine to take at home.
    pub struct Medicine {
        #[label("Medicine")]
        name: Option<String>,
        #[label("Dose")]
        dose: Option<String>,
        /// The last day on which it is taken.
        #[label("Until")]
        until: Option<Date>,
    }
}

record! {
    /// Going home. The advice fields are in the surgeon's own words, for the patient.
    pub struct Discharge {
        #[label("Discharged on")]
        on: Option<Date>,
        #[label("Going to")]
        destination: Option<String>,
        #[label("Condition")]
        #[long(true)]
        condition: Option<String>,
        #[label("Range of movement")]
        range: Range,
        #[label("Haemoglobin")]
        #[unit("g/l")]
        #[plausible(60.0, 200.0)]
        haemoglobin_g_l: Option<f64>,
        /// As a fraction, such as 0.34.
        #[label("Haematocrit")]
        #[plausible(0.2, 0.6)]
        #[limits(0.0, 1.0)]
        haematocrit_fraction: Option<f64>,
        #[label("Wound")]
        wound: Option<String>,
        #[label("Medicines")]
        medicines: Vec<Medicine>,
        #[label("Advice on driving")]
        #[long(true)]
        driving_advice: Option<String>,
        #[label("Advice on work")]
        #[long(true)]
        work_advice: Option<String>,
        /// There is no agreed number of weeks: say what this patient should do.
        #[label("Advice on flying")]
        #[long(true)]
        flying_advice: Option<String>,
        #[label("Advice on kneeling")]
        #[long(true)]
        kneeling_advice: Option<String>,
        /// Whom the patient calls with a question.
        #[label("Contact name")]
        contact_name: Option<String>,
        #[label("Contact telephone")]
        contact_phone: Option<String>,
        /// Day and night, for worries that cannot wait.
        #[label("Out-of-hours telephone")]
        emergency_phone: Option<String>,
    }
}
