//! The way in, what was found, what was released.

use crate::{codes, record};

codes! {
    /// How the joint was opened.
    pub enum Arthrotomy {
        MedialParapatellar = "medial_parapatellar" => "medial parapatellar",
        Midvastus = "midvastus" => "midvastus",
        Subvastus = "subvastus" => "subvastus",
        LateralParapatellar = "lateral_parapatellar" => "lateral parapatellar",
        Other = "other" => "other",
    }
}

codes! {
    /// What was done with the patella during exposure.
    pub enum PatellaHandling {
        Everted = "everted" => "everted",
        Subluxed = "subluxed" => "subluxed",
    }
}

codes! {
    /// How far a structure was released.
    pub enum ReleaseExtent {
        Partial = "partial" => "partial",
        Complete = "complete" => "complete",
    }
}

codes! {
    /// When a structure was released.
    pub enum ReleaseStage {
        BeforeCuts = "before_cuts" => "before the bone cuts",
        AfterCuts = "after_cuts" => "after the bone cuts",
        Trial = "trial" => "with the trial components in",
    }
}

record! {
    /// A soft-tissue release.
    pub struct Release {
        #[label("Structure")]
        structure: Option<String>,
        #[label("Extent")]
        extent: Option<ReleaseExtent>,
        #[label("Stage")]
        stage: Option<ReleaseStage>,
    }
}

record! {
    /// Something done besides the planned operation.
    pub struct ExtraProcedure {
        #[label("What")]
        what: Option<String>,
        #[label("Why")]
        why: Option<String>,
    }
}

record! {
    /// The way in and what was found.
    pub struct Approach {
        #[label("Examination under anaesthesia")]
        #[long(true)]
        examination_under_anaesthesia: Option<String>,
        /// Place and length, as midline, 14 cm.
        #[label("Incision")]
        incision: Option<String>,
        #[label("Arthrotomy")]
        arthrotomy: Option<Arthrotomy>,
        #[label("Patella")]
        patella: Option<PatellaHandling>,
        #[label("Findings")]
        #[long(true)]
        findings: Option<String>,
        /// What the operation showed the diagnosis to be, where it confirms or differs from the one before.
        #[label("Diagnosis at operation")]
        postoperative_diagnosis: Option<String>,
        #[label("Osteophytes removed")]
        osteophytes_removed: Option<String>,
        #[label("Releases")]
        releases: Vec<Release>,
        /// Tick when nothing was released.
        #[label("No releases")]
        none_recorded: Option<bool>,
        #[label("Extra procedures")]
        extra_procedures: Vec<ExtraProcedure>,
    }
}
