//! Complications and other events, during the operation or after it.

use crate::{ComponentIndex, Date, codes, record};

codes! {
    /// What happened: the 22 complications of Healy et al., Clin Orthop Relat Res 2013;471:215, and
    /// others that happen during the operation.
    pub enum EventKind {
        Bleeding = "bleeding" => "bleeding",
        WoundComplication = "wound_complication" => "wound complication",
        ThromboembolicDisease = "thromboembolic_disease" => "thromboembolic disease",
        NeuralDeficit = "neural_deficit" => "neural deficit",
        VascularInjury = "vascular_injury" => "vascular injury",
        MedialCollateralLigamentInjury = "medial_collateral_ligament_injury" => "medial collateral ligament injury",
        Instability = "instability" => "instability",
        Malalignment = "malalignment" => "malalignment",
        Stiffness = "stiffness" => "stiffness",
        DeepPeriprostheticJointInfection = "deep_periprosthetic_joint_infection" => "deep periprosthetic joint infection",
        PeriprostheticFracture = "periprosthetic_fracture" => "periprosthetic fracture",
        ExtensorMechanismDisruption = "extensor_mechanism_disruption" => "extensor mechanism disruption",
        PatellofemoralDislocation = "patellofemoral_dislocation" => "patellofemoral dislocation",
        TibiofemoralDislocation = "tibiofemoral_dislocation" => "tibiofemoral dislocation",
        BearingSurfaceWear = "bearing_surface_wear" => "bearing surface wear",
        Osteolysis = "osteolysis" => "osteolysis",
        ImplantLoosening = "implant_loosening" => "implant loosening",
        ImplantFractureOrTibialInsertDissociation = "implant_fracture_or_tibial_insert_dissociation"
            => "implant fracture or tibial insert dissociation",
        Reoperation = "reoperation" => "reoperation",
        Revision = "revision" => "revision",
        Readmission = "readmission" => "readmission",
        Death = "death" => "death",
        FractureDuringOperation = "fracture_during_operation" => "fracture during the operation",
        TendonAvulsion = "tendon_avulsion" => "tendon avulsion",
        LigamentInjury = "ligament_injury" => "ligament injury",
        NerveInjury = "nerve_injury" => "nerve injury",
        VesselInjury = "vessel_injury" => "vessel injury",
        CementSyndrome = "cement_syndrome" => "bone cement implantation syndrome",
        ComponentDropped = "component_dropped" => "component dropped",
        WrongComponentOpened = "wrong_component_opened" => "wrong component opened",
        Other = "other" => "other event",
    }
}

codes! {
    /// When it happened.
    pub enum EventWhen {
        Intraoperative = "intraoperative" => "during the operation",
        Inpatient = "inpatient" => "before discharge",
        AfterDischarge = "after_discharge" => "after discharge",
    }
}

codes! {
    /// Severity: Clavien-Dindo as adapted to orthopaedics by Sink et al., Clin Orthop Relat Res 2012;470:2220.
    pub enum EventGrade {
        Grade1 = "1" => "1",
        Grade2 = "2" => "2",
        Grade3 = "3" => "3",
        Grade4a = "4a" => "4a",
        Grade4b = "4b" => "4b",
        Grade5 = "5" => "5",
    }
}

record! {
    /// One event.
    pub struct Event {
        #[label("What")]
        what: Option<EventKind>,
        #[label("When")]
        when: Option<EventWhen>,
        #[label("On")]
        on: Option<Date>,
        /// Clavien-Dindo as adapted by Sink et al. 2012.
        #[label("Grade")]
        grade: Option<EventGrade>,
        /// Donaldson et al. 2009, 1 to 3; only for bone cement implantation syndrome.
        #[label("Cement syndrome grade")]
        #[limits(1.0, 3.0)]
        cement_syndrome_grade: Option<u32>,
        #[label("Action")]
        #[long(true)]
        action: Option<String>,
        #[label("Outcome")]
        #[long(true)]
        outcome: Option<String>,
        /// The component concerned, where there is one.
        #[label("Component")]
        component: Option<ComponentIndex>,
    }
}
