//! Haemostasis to dressing, and what left the theatre.

use crate::{codes, record};

codes! {
    /// The result of a count.
    pub enum CountResult {
        Correct = "correct" => "correct",
        Incorrect = "incorrect" => "incorrect",
        NotDone = "not_done" => "not done",
    }
}

record! {
    /// A drain.
    pub struct Drain {
        #[label("Drain used")]
        used: Option<bool>,
        #[label("Kind")]
        kind: Option<String>,
    }
}

record! {
    /// One layer of the closure.
    pub struct ClosureLayer {
        #[label("Layer")]
        layer: Option<String>,
        #[label("Material")]
        material: Option<String>,
        #[label("Technique")]
        technique: Option<String>,
    }
}

record! {
    /// Tissue or fluid sent away.
    pub struct Specimen {
        #[label("What")]
        what: Option<String>,
        /// Culture, histology and so on.
        #[label("For")]
        r#for: Option<String>,
    }
}

record! {
    /// The counts before the patient leaves.
    pub struct Counts {
        #[label("Swabs")]
        swabs: Option<CountResult>,
        #[label("Sharps")]
        sharps: Option<CountResult>,
        #[label("Instruments")]
        instruments: Option<CountResult>,
    }
}

record! {
    /// From haemostasis to recovery.
    pub struct Closing {
        #[label("Haemostasis")]
        haemostasis: Option<String>,
        #[label("Washout")]
        washout: Option<String>,
        #[label("Drain")]
        drain: Drain,
        #[label("Layers")]
        layers: Vec<ClosureLayer>,
        #[label("Skin")]
        skin: Option<String>,
        #[label("Dressing")]
        dressing: Option<String>,
        #[label("Blood loss")]
        #[unit("ml")]
        #[plausible(0.0, 2500.0)]
        blood_loss_ml: Option<f64>,
        #[label("Cell salvage returned")]
        #[unit("ml")]
        #[plausible(0.0, 2000.0)]
        cell_salvage_ml: Option<f64>,
        /// Units of red cells.
        #[label("Transfused")]
        #[unit("units")]
        #[plausible(0.0, 10.0)]
        transfused_units: Option<u32>,
        #[label("Specimens")]
        specimens: Vec<Specimen>,
        /// Tick when nothing was sent.
        #[label("No specimens")]
        none_recorded: Option<bool>,
        #[label("Counts")]
        counts: Counts,
        #[label("Equipment problems")]
        equipment_problems: Option<String>,
        /// State of the patient on the way to recovery.
        #[label("To recovery")]
        #[long(true)]
        to_recovery: Option<String>,
    }
}
