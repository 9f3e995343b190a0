//! Whether and when the patient died, as the end of the entry or its events tell.

use evengap_case::sections::{EventGrade, EventKind, EventWhen};
use evengap_case::{Case, Date};

/// A recorded death.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Death {
    /// The answer that tells it.
    pub path: String,
    /// Its day, where it is recorded.
    pub on: Option<Date>,
}

/// Gives the death that came before the patient could go home, or on that day.
///
/// The end of the entry is heard first. Without it a death among the events counts, and one of the gravest
/// grade, unless it came after discharge.
pub(crate) fn before_discharge(case: &Case) -> Option<Death> {
    if case.end.died_on.is_some() {
        let death = Death { path: "end.died_on".to_owned(), on: case.end.died_on };
        return Some(death).filter(|death| case.discharge.on.is_none_or(|home| death.on <= Some(home)));
    }
    let deadly = case.events.iter().enumerate().find(|(_, event)| {
        let died = event.what == Some(EventKind::Death) || event.grade == Some(EventGrade::Grade5);
        let later = matches!((event.on, case.discharge.on), (Some(on), Some(home)) if on > home);
        died && event.when != Some(EventWhen::AfterDischarge) && !later
    });
    // The day of another event is when it began.
    deadly.map(|(i, event)| Death {
        path: format!("events[{i}].what"),
        on: event.on.filter(|_| event.what == Some(EventKind::Death)),
    })
}

/// Gives the day of the death where one is recorded, whenever it was.
pub(crate) fn dated(case: &Case) -> Option<(String, Date)> {
    if let Some(on) = case.end.died_on {
        return Some(("end.died_on".to_owned(), on));
    }
    let mut deaths = case.events.iter().enumerate().filter(|(_, event)| event.what == Some(EventKind::Death));
    deaths.find_map(|(i, event)| Some((format!("events[{i}].on"), event.on?)))
}
