//! The bone cuts, measured.

use crate::{codes, record};

codes! {
    /// Where a piece of bone came from.
    pub enum CutSite {
        DistalMedial = "distal_medial" => "distal medial femur",
        DistalLateral = "distal_lateral" => "distal lateral femur",
        PosteriorMedial = "posterior_medial" => "posterior medial femur",
        PosteriorLateral = "posterior_lateral" => "posterior lateral femur",
        TibiaMedial = "tibia_medial" => "medial tibia",
        TibiaLateral = "tibia_lateral" => "lateral tibia",
        Trochlea = "trochlea" => "trochlea",
    }
}

record! {
    /// One piece of bone, measured with a caliper.
    pub struct CutPiece {
        #[label("Site")]
        site: Option<CutSite>,
        #[label("Measured")]
        #[unit("mm")]
        #[plausible(0.0, 20.0)]
        measured_mm: Option<f64>,
        #[label("Cartilage worn")]
        #[unit("mm")]
        #[plausible(0.0, 4.0)]
        cartilage_worn_mm: Option<f64>,
        /// Thickness of the component at this place.
        #[label("Component")]
        #[unit("mm")]
        #[plausible(2.0, 25.0)]
        component_mm: Option<f64>,
        #[label("Recut")]
        #[unit("mm")]
        #[plausible(0.0, 6.0)]
        recut_mm: Option<f64>,
    }
}

record! {
    /// The patella: resurfaced or not, and how thick before and after.
    pub struct PatellaCut {
        #[label("Patella resurfaced")]
        resurfaced: Option<bool>,
        #[label("Thickness before")]
        #[unit("mm")]
        #[plausible(15.0, 35.0)]
        before_mm: Option<f64>,
        #[label("Bone left")]
        #[unit("mm")]
        #[plausible(8.0, 25.0)]
        residual_mm: Option<f64>,
        #[label("Button")]
        #[unit("mm")]
        #[plausible(5.0, 15.0)]
        button_mm: Option<f64>,
    }
}

record! {
    /// The bone cuts.
    pub struct Cuts {
        /// Width of the saw cut; Howell's caliper technique takes 1.0 mm.
        #[label("Saw kerf")]
        #[unit("mm")]
        #[plausible(0.5, 2.0)]
        kerf_mm: Option<f64>,
        #[label("Measured pieces")]
        pieces: Vec<CutPiece>,
        /// External rotation positive.
        #[label("Femoral rotation")]
        #[unit("°")]
        #[plausible(-5.0, 10.0)]
        femoral_rotation_deg: Option<f64>,
        /// What the rotation was set against, as the epicondylar axis.
        #[label("Rotation reference")]
        rotation_reference: Option<String>,
        #[label("Femoral valgus cut")]
        #[unit("°")]
        #[plausible(0.0, 10.0)]
        femoral_valgus_deg: Option<f64>,
        #[label("Tibial slope cut")]
        #[unit("°")]
        #[plausible(-2.0, 12.0)]
        tibial_slope_deg: Option<f64>,
        #[label("Patella")]
        patella: PatellaCut,
        #[label("Bone defects")]
        #[long(true)]
        bone_defects: Option<String>,
    }
}
