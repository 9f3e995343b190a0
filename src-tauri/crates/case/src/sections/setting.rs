//! Where and when, how urgent, how clean.

use crate::{Date, codes, record};

codes! {
    /// Urgency of the operation (NCEPOD classification of intervention, 2004).
    pub enum Urgency {
        Elective = "elective" => "elective",
        Expedited = "expedited" => "expedited",
        Urgent = "urgent" => "urgent",
        Immediate = "immediate" => "immediate",
    }
}

codes! {
    /// Surgical wound class (CDC, Guideline for Prevention of Surgical Site Infection, 1999).
    pub enum WoundClass {
        Clean = "clean" => "clean",
        CleanContaminated = "clean_contaminated" => "clean-contaminated",
        Contaminated = "contaminated" => "contaminated",
        Dirty = "dirty" => "dirty",
    }
}

record! {
    /// Where and when the operation took place.
    pub struct Setting {
        #[label("Hospital")]
        hospital: Option<String>,
        #[label("Theatre")]
        theatre: Option<String>,
        #[label("Date of operation")]
        operation_date: Option<Date>,
        #[label("Admitted on")]
        admitted_on: Option<Date>,
        /// NCEPOD classification of intervention, 2004.
        #[label("Urgency")]
        urgency: Option<Urgency>,
        /// CDC surgical wound class, 1999.
        #[label("Wound class")]
        wound_class: Option<WoundClass>,
        /// Place on the day's list, 1 for the first.
        #[label("Place on the list")]
        #[plausible(1.0, 12.0)]
        list_position: Option<u32>,
    }
}
