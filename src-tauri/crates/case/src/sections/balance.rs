//! The two spaces, measured and judged.

use crate::{codes, record};

codes! {
    /// How the balance was measured.
    pub enum BalanceMethod {
        SpacerBlocks = "spacer_blocks" => "spacer blocks",
        Tensioner = "tensioner" => "a tensioner",
        TrialComponents = "trial_components" => "trial components",
        Sensor = "sensor" => "a pressure sensor",
        Hand = "hand" => "the hand",
    }
}

codes! {
    /// The stage at which the spaces were measured.
    pub enum TrialStage {
        BeforeCuts = "before_cuts" => "before the cuts",
        Gaps = "gaps" => "after the cuts",
        Trial = "trial" => "with the trial",
        Final = "final" => "final",
    }
}

codes! {
    /// What the millimetres mean.
    pub enum SpaceKind {
        Gap = "gap" => "gap",
        Laxity = "laxity" => "laxity",
    }
}

codes! {
    /// How the patella ran in the trochlea.
    pub enum Tracking {
        Central = "central" => "central",
        Tilt = "tilt" => "tilt",
        Subluxation = "subluxation" => "subluxation",
    }
}

record! {
    /// One space on both sides.
    pub struct Space {
        #[label("Medial")]
        #[unit("mm")]
        #[plausible(0.0, 35.0)]
        medial_mm: Option<f64>,
        #[label("Lateral")]
        #[unit("mm")]
        #[plausible(0.0, 35.0)]
        lateral_mm: Option<f64>,
    }
}

record! {
    /// One measurement of the spaces, and what was done about it.
    pub struct BalanceTrial {
        #[label("Stage")]
        stage: Option<TrialStage>,
        #[label("Insert")]
        #[unit("mm")]
        #[plausible(3.0, 30.0)]
        insert_mm: Option<f64>,
        /// A gap is the distance between cut surfaces under tension; laxity is the opening left with the parts in.
        #[label("Measured as")]
        kind: Option<SpaceKind>,
        #[label("In extension")]
        extension: Space,
        #[label("In flexion")]
        flexion: Space,
        #[label("Action taken")]
        action_taken: Option<String>,
    }
}

record! {
    /// The knee as it was left.
    pub struct FinalBalance {
        #[label("Insert")]
        #[unit("mm")]
        #[plausible(3.0, 30.0)]
        insert_mm: Option<f64>,
        /// Laxity left with the parts in.
        #[label("Laxity in extension")]
        extension: Space,
        /// Laxity left with the parts in.
        #[label("Laxity in flexion")]
        flexion: Space,
        #[label("Stable in extension")]
        stable_extension: Option<bool>,
        #[label("Stable in mid flexion")]
        stable_mid_flexion: Option<bool>,
        #[label("Stable in flexion")]
        stable_flexion: Option<bool>,
        /// The tray or insert lifts off in flexion.
        #[label("Lift-off")]
        lift_off: Option<bool>,
        #[label("Patellar tracking")]
        tracking: Option<Tracking>,
        #[label("Done about tracking")]
        tracking_action: Option<String>,
        /// Lack of extension positive.
        #[label("Extension reached")]
        #[unit("°")]
        #[plausible(-15.0, 30.0)]
        extension_deg: Option<f64>,
        #[label("Flexion reached")]
        #[unit("°")]
        #[plausible(60.0, 160.0)]
        flexion_deg: Option<f64>,
        #[label("Note")]
        #[long(true)]
        note: Option<String>,
    }
}

record! {
    /// The balance of the knee.
    pub struct Balance {
        #[label("Measured with")]
        method: Option<BalanceMethod>,
        #[label("Target laxity")]
        #[unit("mm")]
        #[plausible(0.0, 4.0)]
        target_laxity_mm: Option<f64>,
        #[label("Measurements")]
        trials: Vec<BalanceTrial>,
        #[label("As left")]
        r#final: FinalBalance,
    }
}
