//! Who did what.

use crate::{codes, record};

codes! {
    /// The part a person had in the operation.
    pub enum TeamPart {
        OperatingSurgeon = "operating_surgeon" => "operating surgeon",
        ResponsibleSurgeon = "responsible_surgeon" => "responsible surgeon",
        SupervisingSurgeon = "supervising_surgeon" => "supervising surgeon",
        Assistant = "assistant" => "assistant",
        Anaesthetist = "anaesthetist" => "anaesthetist",
        ScrubPractitioner = "scrub_practitioner" => "scrub practitioner",
        Other = "other" => "other",
    }
}

record! {
    /// One person of the team.
    pub struct TeamMember {
        #[label("Name")]
        person: Option<String>,
        #[label("Part")]
        part: Option<TeamPart>,
        /// Consultant, registrar, fellow and so on.
        #[label("Grade")]
        grade: Option<String>,
        /// Number on the professional register.
        #[label("Registration number")]
        registration: Option<String>,
        /// What this person did, where more than one operates.
        #[label("Did")]
        #[long(true)]
        did: Option<String>,
    }
}
