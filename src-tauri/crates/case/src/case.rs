//! The whole entry: the sections in the order of the operation.

use serde::{Deserialize, Serialize};
use ts_rs::TS;

use crate::dictionary::{Answer, Kind};
use crate::sections::*;
use crate::{CaseId, LocalTime};

/// Name and version of the interchange format.
pub const FORMAT: &str = "evengap-case/1";

/// The `format` key of a case; only [`FORMAT`] is ever written.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize, TS)]
#[serde(into = "String", try_from = "String")]
#[ts(type = "\"evengap-case/1\"")]
pub struct Format;

impl From<Format> for String {
    fn from(_: Format) -> Self {
        FORMAT.to_owned()
    }
}

impl TryFrom<String> for Format {
    type Error = String;
    fn try_from(text: String) -> Result<Self, String> {
        if text == FORMAT {
            return Ok(Self);
        }
        Err(match text.strip_prefix("evengap-case/") {
            Some(_) => format!("this file is written in {text}, which is newer than this program reads ({FORMAT})"),
            None => format!("“{text}” is not a case file; a case file says \"format\": \"{FORMAT}\""),
        })
    }
}

impl Answer for Format {
    const KIND: Kind = Kind::Text;
    fn is_blank(&self) -> bool {
        false
    }
}

crate::codes! {
    /// The sections that a surgeon confirms one by one.
    pub enum SectionName {
        Patient = "patient" => "patient",
        Setting = "setting" => "setting",
        Team = "team" => "team",
        Times = "times" => "times",
        Knee = "knee" => "knee before the operation",
        Choice = "choice" => "choice of operation",
        Anaesthesia = "anaesthesia" => "anaesthesia and preparation",
        Approach = "approach" => "approach and findings",
        Cuts = "cuts" => "bone cuts",
        Balance = "balance" => "balance",
        Components = "components" => "components",
        Cement = "cement" => "cement",
        Closing = "closing" => "closing",
        Events = "events" => "events",
        Aftercare = "aftercare" => "aftercare",
        Discharge = "discharge" => "discharge",
        Visits = "visits" => "visits",
        End = "end" => "end of follow-up",
    }
}

crate::record! {
    /// One operated knee.
    pub struct Case {
        /// Name and version of the format.
        #[label("Format")]
        #[always()]
        format: Format,
        /// Never changes; other cases and papers refer to it.
        #[label("Case identifier")]
        #[always()]
        id: CaseId,
        /// The entry of the other knee, where both were operated on in one anaesthetic.
        #[label("Other knee of the same sitting")]
        companion: Option<CaseId>,
        #[label("Entry begun")]
        created_at: Option<LocalTime>,
        /// Sections into which usual answers were filled. Until such a section is confirmed, nobody can sign.
        #[label("Filled sections")]
        filled: Vec<SectionName>,
        /// Sections whose filled-in usual answers the surgeon has confirmed.
        #[label("Confirmed sections")]
        confirmed: Vec<SectionName>,
        /// Findings that stood against the signature, each with the reason for signing all the same.
        #[label("Signed in spite of")]
        overrides: Vec<Override>,
        #[label("Patient")]
        patient: Patient,
        #[label("Setting")]
        setting: Setting,
        #[label("Team")]
        team: Vec<TeamMember>,
        #[label("Times")]
        times: Times,
        #[label("Knee before the operation")]
        knee: Knee,
        #[label("Choice of operation")]
        choice: Choice,
        #[label("Anaesthesia and preparation")]
        anaesthesia: Anaesthesia,
        #[label("Approach and findings")]
        approach: Approach,
        #[label("Bone cuts")]
        cuts: Cuts,
        #[label("Balance")]
        balance: Balance,
        #[label("Components")]
        components: Vec<Component>,
        #[label("Cement")]
        cement: Cement,
        #[label("Closing")]
        closing: Closing,
        /// Complications and other events, during the operation or after it.
        #[label("Events")]
        events: Vec<Event>,
        /// Tick when events were looked for and there were none.
        #[label("No events")]
        none_recorded: Option<bool>,
        #[label("Aftercare")]
        aftercare: Aftercare,
        #[label("Discharge")]
        discharge: Discharge,
        #[label("Visits")]
        visits: Vec<Visit>,
        #[label("End of follow-up")]
        end: End,
    }
}

impl Case {
    /// Starts an empty entry.
    pub fn new(id: CaseId, created_at: LocalTime) -> Self {
        Self { id, created_at: Some(created_at), ..Self::default() }
    }

    /// Gives the sections whose filled-in usual answers nobody has confirmed, in the order of the entry.
    pub fn unconfirmed(&self) -> impl Iterator<Item = SectionName> {
        let open = |name: &SectionName| self.filled.contains(name) && !self.confirmed.contains(name);
        SectionName::ALL.iter().copied().filter(open)
    }

    /// Writes the interchange file: pretty JSON, blanks left out, unknown keys included.
    pub fn to_json(&self) -> String {
        format!("{:#}\n", self.to_value())
    }

    /// Gives the interchange shape as a JSON value.
    #[expect(clippy::expect_used, reason = "every key is a string and numbers that are not finite become null")]
    pub fn to_value(&self) -> serde_json::Value {
        serde_json::to_value(self).expect("an entry is always representable as JSON")
    }
}
