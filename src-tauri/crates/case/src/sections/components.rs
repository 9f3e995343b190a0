//! Every component by reference and lot.

use crate::{Date, codes, record};

codes! {
    /// What a component is for.
    pub enum ComponentRole {
        Femur = "femur" => "femoral component",
        TibialTray = "tibial_tray" => "tibial tray",
        Insert = "insert" => "insert",
        TibialOnePiece = "tibial_one_piece" => "one-piece tibial component",
        Patella = "patella" => "patellar button",
        Trochlea = "trochlea" => "trochlear component",
        Stem = "stem" => "stem",
        Augment = "augment" => "augment",
        SleeveOrCone = "sleeve_or_cone" => "sleeve or cone",
        Screw = "screw" => "screw",
        Cement = "cement" => "bone cement",
        CementRestrictor = "cement_restrictor" => "cement restrictor",
        Other = "other" => "other component",
    }
}

codes! {
    /// The knee that a component is made for.
    pub enum ComponentSide {
        Left = "left" => "left",
        Right = "right" => "right",
        Either = "either" => "either side",
    }
}

codes! {
    /// How a component is held.
    pub enum Fixation {
        Cemented = "cemented" => "cemented",
        Uncemented = "uncemented" => "uncemented",
        None = "none" => "none",
    }
}

codes! {
    /// The kind of label that was read.
    pub enum LabelScheme {
        Gs1 = "gs1" => "GS1",
        Hibc = "hibc" => "HIBC",
        Isbt128 = "isbt128" => "ISBT 128",
        Typed = "typed" => "typed by hand",
    }
}

codes! {
    /// What became of a component.
    pub enum Fate {
        Implanted = "implanted" => "implanted",
        OpenedNotUsed = "opened_not_used" => "opened, not used",
        Removed = "removed" => "removed",
    }
}

record! {
    /// The label as it was read.
    pub struct LabelScan {
        /// Exactly what the scanner sent.
        #[label("Raw scan")]
        raw: Option<String>,
        #[label("Scheme")]
        scheme: Option<LabelScheme>,
        #[label("Device identifier")]
        device_identifier: Option<String>,
    }
}

record! {
    /// One component, implanted, opened or removed.
    pub struct Component {
        #[label("Role")]
        role: Option<ComponentRole>,
        #[label("Maker")]
        maker: Option<String>,
        #[label("Name")]
        name: Option<String>,
        #[label("Reference")]
        reference: Option<String>,
        #[label("Lot")]
        lot: Option<String>,
        #[label("Serial number")]
        serial: Option<String>,
        #[label("Made on")]
        made_on: Option<Date>,
        #[label("Expires on")]
        expires_on: Option<Date>,
        #[label("Size")]
        size: Option<String>,
        #[label("Side")]
        side: Option<ComponentSide>,
        #[label("Thickness")]
        #[unit("mm")]
        #[plausible(2.0, 60.0)]
        thickness_mm: Option<f64>,
        #[label("Material")]
        material: Option<String>,
        #[label("Fixation")]
        fixation: Option<Fixation>,
        #[label("Label")]
        scan: LabelScan,
        #[label("Fate")]
        fate: Option<Fate>,
        #[label("Replaced because")]
        replaced_because: Option<String>,
    }
}
