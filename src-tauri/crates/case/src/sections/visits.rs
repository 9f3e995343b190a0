//! Visits after discharge.

use super::{Event, Range, Score};
use crate::{Date, codes, record};

codes! {
    /// What a film shows at the components.
    pub enum Loosening {
        None = "none" => "no loosening",
        Line = "line" => "a line",
        Migration = "migration" => "migration",
    }
}

codes! {
    /// How satisfied the patient is.
    pub enum Satisfied {
        Very = "very" => "very satisfied",
        Mostly = "mostly" => "mostly satisfied",
        Neither = "neither" => "neither satisfied nor dissatisfied",
        NotVery = "not_very" => "not very satisfied",
        NotAtAll = "not_at_all" => "not satisfied at all",
    }
}

record! {
    /// A film taken at a visit.
    pub struct Film {
        #[label("Alignment")]
        alignment: Option<String>,
        #[label("Loosening")]
        loosening: Option<Loosening>,
        #[label("Note")]
        note: Option<String>,
    }
}

record! {
    /// One visit.
    pub struct Visit {
        #[label("On")]
        on: Option<Date>,
        #[label("Seen by")]
        seen_by: Option<String>,
        #[label("Range of movement")]
        range: Range,
        #[label("Pain (0 to 10)")]
        #[limits(0.0, 10.0)]
        pain_0_10: Option<f64>,
        #[label("Scores")]
        scores: Vec<Score>,
        #[label("Film")]
        film: Film,
        #[label("Walking aid")]
        walking_aid: Option<String>,
        #[label("Satisfaction")]
        satisfied: Option<Satisfied>,
        #[label("Note")]
        #[long(true)]
        note: Option<String>,
        #[label("Events since the last visit")]
        events: Vec<Event>,
        /// Tick when events were asked for and there were none.
        #[label("No events")]
        none_recorded: Option<bool>,
    }
}
