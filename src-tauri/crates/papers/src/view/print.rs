//! How single values are written: numbers, dates, times, references to components.

use chrono::NaiveDate;
use evengap_case::{Case, Date, LocalTime};

use crate::{DateFormat, PaperSettings};

/// Writes values in the habit of one entry and its settings.
pub(crate) struct Printer<'a> {
    pub case: &'a Case,
    pub settings: &'a PaperSettings,
}

impl Printer<'_> {
    /// Writes a day.
    pub fn date(&self, date: NaiveDate) -> String {
        let pattern = match self.settings.date_format {
            DateFormat::DayMonthInWords => "%-d %B %Y",
            DateFormat::MonthInWordsDay => "%B %-d, %Y",
            DateFormat::YearMonthDay => "%Y-%m-%d",
        };
        date.format(pattern).to_string()
    }

    /// Writes a recorded day.
    pub fn day(&self, date: Date) -> String {
        self.date(date.0)
    }

    /// Writes a time of day, with the date unless it is the day of the operation.
    pub fn time(&self, time: LocalTime) -> String {
        let clock = time.0.format("%H:%M").to_string();
        match self.case.setting.operation_date {
            Some(date) if date.0 == time.0.date() => clock,
            _ => format!("{clock} on {}", self.date(time.0.date())),
        }
    }

    /// Names the component at an index of the entry's list.
    pub fn component(&self, index: u64) -> String {
        let found = usize::try_from(index).ok().and_then(|index| self.case.components.get(index));
        let Some(component) = found else {
            return format!("component {} (not in the list)", index + 1);
        };
        let role = component.role.map_or("component", |role| role.words());
        let number = index + 1;
        match &component.name {
            Some(name) => format!("{role} {name} (no. {number} in the table)"),
            None => format!("{role} (no. {number} in the table)"),
        }
    }
}

/// Writes a number as it was recorded: no digits added or lost, a true minus sign.
pub(crate) fn number(value: f64) -> String {
    value.to_string().replace('-', "−")
}
