//! What was chosen and why.

use crate::{Date, codes, record};

codes! {
    /// The operation.
    pub enum Procedure {
        Total = "total" => "total knee replacement",
        MedialPartial = "medial_partial" => "medial partial knee replacement",
        LateralPartial = "lateral_partial" => "lateral partial knee replacement",
        Patellofemoral = "patellofemoral" => "patellofemoral (kneecap joint) replacement",
        Bicompartmental = "bicompartmental" => "bicompartmental knee replacement",
        InsertExchange = "insert_exchange" => "exchange of the insert",
        RevisionOneComponent = "revision_one_component" => "revision of one component of a knee replacement",
        RevisionAll = "revision_all" => "revision of all components of a knee replacement",
        FirstStageRemoval = "first_stage_removal" => "first-stage removal of a knee replacement",
        SecondStageReimplantation = "second_stage_reimplantation" => "second-stage reimplantation of a knee replacement",
        Other = "other" => "other knee operation",
    }
}

codes! {
    /// Whether the insert moves on the tray.
    pub enum Bearing {
        Fixed = "fixed" => "fixed",
        Mobile = "mobile" => "mobile",
    }
}

codes! {
    /// How much stability the implant itself gives.
    pub enum Constraint {
        CruciateRetaining = "cruciate_retaining" => "cruciate retaining",
        CruciateStabilisingInsert = "cruciate_stabilising_insert" => "cruciate-stabilising insert",
        PosteriorStabilised = "posterior_stabilised" => "posterior stabilised",
        VarusValgusConstrained = "varus_valgus_constrained" => "varus-valgus constrained",
        RotatingHinge = "rotating_hinge" => "rotating hinge",
        NotApplicable = "not_applicable" => "not applicable",
    }
}

codes! {
    /// The alignment that was aimed for.
    pub enum AlignmentAim {
        Mechanical = "mechanical" => "mechanical",
        Kinematic = "kinematic" => "kinematic",
        RestrictedKinematic = "restricted_kinematic" => "restricted kinematic",
        Functional = "functional" => "functional",
        Anatomic = "anatomic" => "anatomic",
        LigamentLed = "ligament_led" => "ligament-led",
        Other = "other" => "other",
    }
}

codes! {
    /// How the cuts were guided.
    pub enum Guidance {
        ConventionalInstruments = "conventional_instruments" => "conventional instruments",
        ComputerNavigation = "computer_navigation" => "computer navigation",
        RoboticArm = "robotic_arm" => "a robotic arm",
        PatientSpecificGuides = "patient_specific_guides" => "patient-specific guides",
    }
}

codes! {
    /// What patient-specific guides were made from.
    pub enum GuidesFrom {
        Ct = "ct" => "CT",
        Mri = "mri" => "MRI",
        Radiograph = "radiograph" => "radiographs",
    }
}

codes! {
    /// Bone loss after removal of an implant (Anderson Orthopaedic Research Institute classification).
    pub enum BoneLoss {
        Type1 = "1" => "type 1",
        Type2a = "2a" => "type 2A",
        Type2b = "2b" => "type 2B",
        Type3 = "3" => "type 3",
    }
}

record! {
    /// The patient's agreement.
    pub struct Consent {
        #[label("Taken on")]
        on: Option<Date>,
        #[label("Taken by")]
        taken_by: Option<String>,
        /// Each risk that was talked through, one a line.
        #[label("Risks explained")]
        risks: Vec<String>,
    }
}

record! {
    /// Sizes planned before the operation.
    pub struct Planned {
        #[label("Femoral size")]
        femur_size: Option<String>,
        #[label("Tibial size")]
        tibia_size: Option<String>,
        #[label("Insert thickness")]
        #[unit("mm")]
        #[plausible(3.0, 30.0)]
        insert_mm: Option<f64>,
    }
}

record! {
    /// What was chosen and why.
    pub struct Choice {
        #[label("Procedure")]
        procedure: Option<Procedure>,
        /// Why this operation for this knee.
        #[label("Reason")]
        #[long(true)]
        reason: Option<String>,
        #[label("Alternatives discussed")]
        #[long(true)]
        alternatives_discussed: Option<String>,
        #[label("Consent")]
        consent: Consent,
        #[label("Bearing")]
        bearing: Option<Bearing>,
        #[label("Constraint")]
        constraint: Option<Constraint>,
        #[label("Alignment aim")]
        alignment_aim: Option<AlignmentAim>,
        #[label("Guidance")]
        guidance: Option<Guidance>,
        #[label("Guides made from")]
        guides_from: Option<GuidesFrom>,
        #[label("Planned sizes")]
        planned: Planned,
        /// Only for a revision.
        #[label("Reason for revision")]
        #[long(true)]
        reason_for_revision: Option<String>,
        /// AORI classification, only for a revision.
        #[label("Femoral bone loss (AORI)")]
        bone_loss_femur: Option<BoneLoss>,
        /// AORI classification, only for a revision.
        #[label("Tibial bone loss (AORI)")]
        bone_loss_tibia: Option<BoneLoss>,
    }
}
