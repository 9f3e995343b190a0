//! Anaesthesia, drugs, tourniquet and checks.

use crate::{LocalTime, codes, record};

codes! {
    /// A kind of anaesthesia; several may go together.
    pub enum AnaesthesiaKind {
        Spinal = "spinal" => "spinal",
        Epidural = "epidural" => "epidural",
        General = "general" => "general",
        Sedation = "sedation" => "sedation",
        NerveBlock = "nerve_block" => "nerve block",
        LocalInfiltration = "local_infiltration" => "local infiltration",
    }
}

codes! {
    /// How a drug is given.
    pub enum Route {
        Intravenous = "intravenous" => "intravenous",
        Topical = "topical" => "topical",
        Oral = "oral" => "oral",
    }
}

codes! {
    /// Whether a check was done.
    pub enum Check {
        Done = "done" => "done",
        NotDone = "not_done" => "not done",
    }
}

record! {
    /// A local anaesthetic put into the tissues.
    pub struct Infiltration {
        #[label("Drug")]
        drug: Option<String>,
        /// 1 % is 10 mg in each ml.
        #[label("Concentration")]
        #[unit("%")]
        #[plausible(0.05, 2.0)]
        percent: Option<f64>,
        #[label("Volume")]
        #[unit("ml")]
        #[plausible(5.0, 200.0)]
        volume_ml: Option<f64>,
        #[label("With adrenaline")]
        with_adrenaline: Option<bool>,
    }
}

record! {
    /// An antibiotic given to prevent infection.
    pub struct Antibiotic {
        #[label("Drug")]
        drug: Option<String>,
        #[label("Dose")]
        #[unit("mg")]
        #[plausible(50.0, 4500.0)]
        dose_mg: Option<f64>,
        #[label("Given at")]
        given_at: Option<LocalTime>,
    }
}

record! {
    /// A dose of tranexamic acid.
    pub struct Tranexamic {
        #[label("Route")]
        route: Option<Route>,
        #[label("Dose")]
        #[unit("mg")]
        #[plausible(250.0, 3000.0)]
        dose_mg: Option<f64>,
        #[label("Given at")]
        given_at: Option<LocalTime>,
    }
}

record! {
    /// One inflation of the tourniquet.
    pub struct Inflation {
        #[label("Up at")]
        up_at: Option<LocalTime>,
        #[label("Down at")]
        down_at: Option<LocalTime>,
    }
}

record! {
    /// The tourniquet (items of the BOAST on tourniquet use, 2021).
    pub struct Tourniquet {
        #[label("Tourniquet used")]
        used: Option<bool>,
        #[label("Cuff width")]
        #[unit("mm")]
        #[plausible(70.0, 220.0)]
        cuff_width_mm: Option<f64>,
        #[label("Limb occlusion pressure")]
        #[unit("mmHg")]
        #[plausible(90.0, 300.0)]
        limb_occlusion_mmhg: Option<f64>,
        #[label("Cuff pressure")]
        #[unit("mmHg")]
        #[plausible(150.0, 350.0)]
        pressure_mmhg: Option<f64>,
        #[label("Inflations")]
        inflations: Vec<Inflation>,
        #[label("Exsanguination")]
        exsanguination: Option<String>,
        /// How the cuff was kept dry from skin preparation.
        #[label("Isolation")]
        isolation: Option<String>,
        #[label("Skin under the cuff before")]
        skin_before: Option<String>,
        #[label("Skin under the cuff after")]
        skin_after: Option<String>,
    }
}

record! {
    /// The safety checks of the operation.
    pub struct Checks {
        #[label("Sign in")]
        sign_in: Option<Check>,
        #[label("Time out")]
        time_out: Option<Check>,
        #[label("Sign out")]
        sign_out: Option<Check>,
        #[label("Side confirmed")]
        side_confirmed: Option<Check>,
        #[label("Implants confirmed by two people")]
        implants_confirmed_by_two: Option<Check>,
    }
}

record! {
    /// Anaesthesia and preparation.
    pub struct Anaesthesia {
        /// Physical status 1 to 6, American Society of Anesthesiologists.
        #[label("ASA grade")]
        #[limits(1.0, 6.0)]
        asa: Option<u32>,
        #[label("Anaesthesia")]
        kinds: Vec<AnaesthesiaKind>,
        /// Which nerves, with what.
        #[label("Block")]
        block: Option<String>,
        #[label("Position")]
        position: Option<String>,
        #[label("Warming")]
        warming: Option<String>,
        #[label("Infiltration")]
        infiltration: Vec<Infiltration>,
        #[label("Antibiotics")]
        antibiotics: Vec<Antibiotic>,
        /// Only where none was given before the incision.
        #[label("Why no antibiotic")]
        no_antibiotic_reason: Option<String>,
        #[label("Tranexamic acid")]
        tranexamic: Vec<Tranexamic>,
        #[label("Tourniquet")]
        tourniquet: Tourniquet,
        #[label("Safety checks")]
        checks: Checks,
    }
}
