//! The knee before the operation: why it was worn and what was found beforehand.

use crate::{Date, codes, record};

codes! {
    /// Which knee; always written in full.
    pub enum Side {
        Left = "left" => "left",
        Right = "right" => "right",
    }
}

codes! {
    /// Why the knee is to be operated on.
    pub enum DiagnosisKind {
        PrimaryOsteoarthritis = "primary_osteoarthritis" => "primary osteoarthritis",
        PostTraumaticOsteoarthritis = "post_traumatic_osteoarthritis" => "post-traumatic osteoarthritis",
        InflammatoryArthritis = "inflammatory_arthritis" => "inflammatory arthritis",
        Osteonecrosis = "osteonecrosis" => "osteonecrosis",
        FailedReplacement = "failed_replacement" => "failed knee replacement",
        Infection = "infection" => "infection",
        Fracture = "fracture" => "fracture",
        Other = "other" => "other diagnosis",
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
    pub enum LigamentState {
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
    /// What the alignment angles were measured on.
    pub enum MeasuredOn {
        LongLegFilm = "long_leg_film" => "a long-leg film",
        ShortFilm = "short_film" => "a short film",
        Ct = "ct" => "CT",
        Mri = "mri" => "MRI",
        Navigation = "navigation" => "computer navigation",
    }
}

codes! {
    /// A patient-reported score, recorded as its total only.
    pub enum ScoreKind {
        OxfordKnee = "oxford_knee" => "Oxford Knee Score",
        ForgottenJoint = "forgotten_joint" => "Forgotten Joint Score",
        Pain = "pain_0_10" => "pain (0 to 10)",
        Other = "other" => "other score",
    }
}

record! {
    /// Why the knee is to be operated on.
    pub struct Diagnosis {
        #[label("Diagnosis")]
        kind: Option<DiagnosisKind>,
        #[label("Detail")]
        detail: Option<String>,
        /// ICD-10 code, as M17.1.
        #[label("ICD-10")]
        icd10: Option<String>,
    }
}

record! {
    /// Wear of one compartment.
    pub struct CompartmentWear {
        /// Kellgren and Lawrence 1957, 0 to 4.
        #[label("Kellgren-Lawrence")]
        #[limits(0.0, 4.0)]
        kellgren_lawrence: Option<u32>,
        #[label("Cartilage")]
        cartilage: Option<Cartilage>,
        #[label("Bone loss")]
        bone_loss: Option<bool>,
    }
}

record! {
    /// Wear of the three compartments.
    pub struct Wear {
        #[label("Medial")]
        medial: CompartmentWear,
        #[label("Lateral")]
        lateral: CompartmentWear,
        #[label("Patellofemoral")]
        patellofemoral: CompartmentWear,
    }
}

record! {
    /// The four ligaments.
    pub struct Ligaments {
        #[label("Anterior cruciate")]
        acl: Option<LigamentState>,
        #[label("Posterior cruciate")]
        pcl: Option<LigamentState>,
        #[label("Medial collateral")]
        mcl: Option<LigamentState>,
        #[label("Lateral collateral")]
        lcl: Option<LigamentState>,
    }
}

record! {
    /// Deformity on examination.
    pub struct Deformity {
        /// Varus negative, valgus positive.
        #[label("Coronal deformity")]
        #[unit("°")]
        #[plausible(-30.0, 30.0)]
        coronal_deg: Option<f64>,
        #[label("Correctable")]
        correctable: Option<Correctable>,
        #[label("Fixed flexion")]
        #[unit("°")]
        #[plausible(0.0, 40.0)]
        fixed_flexion_deg: Option<f64>,
    }
}

record! {
    /// Range of movement.
    pub struct Range {
        /// Lack of extension is positive, hyperextension negative.
        #[label("Extension")]
        #[unit("°")]
        #[plausible(-15.0, 45.0)]
        extension_deg: Option<f64>,
        #[label("Flexion")]
        #[unit("°")]
        #[plausible(30.0, 160.0)]
        flexion_deg: Option<f64>,
    }
}

record! {
    /// Alignment measured before the operation.
    pub struct Alignment {
        /// Lateral distal femoral angle.
        #[label("LDFA")]
        #[unit("°")]
        #[plausible(78.0, 98.0)]
        ldfa_deg: Option<f64>,
        /// Medial proximal tibial angle.
        #[label("MPTA")]
        #[unit("°")]
        #[plausible(76.0, 98.0)]
        mpta_deg: Option<f64>,
        /// Joint-line convergence angle, varus positive.
        #[label("JLCA")]
        #[unit("°")]
        #[plausible(-10.0, 15.0)]
        jlca_deg: Option<f64>,
        /// Posterior slope of the tibia.
        #[label("Tibial slope")]
        #[unit("°")]
        #[plausible(-5.0, 20.0)]
        slope_deg: Option<f64>,
        #[label("Measured on")]
        measured_on: Option<MeasuredOn>,
    }
}

record! {
    /// An earlier operation on this knee.
    pub struct PreviousSurgery {
        #[label("What")]
        what: Option<String>,
        #[label("On")]
        on: Option<Date>,
    }
}

record! {
    /// The total of a patient-reported score; the questions are licensed and never stored.
    pub struct Score {
        #[label("Score")]
        score: Option<ScoreKind>,
        /// Name, where it is another score.
        #[label("Name")]
        name: Option<String>,
        #[label("Total")]
        #[plausible(0.0, 100.0)]
        value: Option<f64>,
        #[label("On")]
        on: Option<Date>,
    }
}

record! {
    /// Blood tests before the operation.
    pub struct BloodsBefore {
        #[label("Haemoglobin")]
        #[unit("g/l")]
        #[plausible(70.0, 200.0)]
        haemoglobin_g_l: Option<f64>,
        /// As a fraction, such as 0.41.
        #[label("Haematocrit")]
        #[plausible(0.2, 0.6)]
        #[limits(0.0, 1.0)]
        haematocrit_fraction: Option<f64>,
        #[label("Creatinine")]
        #[unit("µmol/l")]
        #[plausible(30.0, 400.0)]
        creatinine_umol_l: Option<f64>,
        #[label("On")]
        on: Option<Date>,
    }
}

record! {
    /// The knee before the operation.
    pub struct Knee {
        /// Written in full wherever a person reads it.
        #[label("Side")]
        side: Option<Side>,
        #[label("Diagnosis")]
        diagnosis: Diagnosis,
        #[label("Symptoms")]
        #[long(true)]
        symptoms: Option<String>,
        #[label("Walking distance")]
        walking_distance: Option<String>,
        #[label("Wear")]
        wear: Wear,
        #[label("Ligaments")]
        ligaments: Ligaments,
        #[label("Deformity")]
        deformity: Deformity,
        #[label("Range of movement before")]
        range_before: Range,
        #[label("Alignment")]
        alignment: Alignment,
        #[label("Previous surgery to this knee")]
        previous_surgery: Vec<PreviousSurgery>,
        /// Tick when it was asked for and there was none.
        #[label("No previous surgery")]
        none_recorded: Option<bool>,
        #[label("Scores before")]
        scores: Vec<Score>,
        #[label("Blood tests before")]
        bloods_before: BloodsBefore,
    }
}
