//! How single values are written: numbers, dates, times, references to components.

use chrono::{Datelike, NaiveDate, NaiveTime};
use evengap_case::sections::ComponentRole;
use evengap_case::{Case, Date, LocalTime};

use crate::words::Words;
use crate::{DateFormat, PaperSettings};

/// Writes values in the habit of one entry, its settings and a language.
pub(crate) struct Printer<'a> {
    pub case: &'a Case,
    pub settings: &'a PaperSettings,
    pub words: &'static Words,
}

impl Printer<'_> {
    /// Writes a day.
    pub fn date(&self, date: NaiveDate) -> String {
        let words = &self.words.values;
        let pattern = match self.settings.date_format {
            DateFormat::DayMonthInWords => &words.date,
            DateFormat::MonthInWordsDay => &words.date_month_first,
            DateFormat::YearMonthDay => return date.format("%Y-%m-%d").to_string(),
        };
        let month = words.months.get(date.month0() as usize).map_or("", String::as_str);
        pattern.fill(&[("day", &date.day().to_string()), ("month", month), ("year", &date.year().to_string())])
    }

    /// Writes a recorded day.
    pub fn day(&self, date: Date) -> String {
        self.date(date.0)
    }

    /// Writes a time of day.
    pub fn clock(&self, time: NaiveTime) -> String {
        self.words.values.time.fill(&[("clock", &time.format("%H:%M").to_string())])
    }

    /// Writes a time of day, with the date unless it is the day of the operation.
    pub fn time(&self, time: LocalTime) -> String {
        match self.case.setting.operation_date {
            Some(date) if date.0 == time.0.date() => self.clock(time.0.time()),
            _ => {
                let clock = time.0.format("%H:%M").to_string();
                self.words.values.time_on.fill(&[("clock", &clock), ("date", &self.date(time.0.date()))])
            }
        }
    }

    /// Writes a number as it was recorded: no digits added or lost, a true minus sign.
    pub fn number(&self, value: f64) -> String {
        let written = value.to_string().replace('-', "−");
        match self.words.values.decimal {
            '.' => written,
            sign => written.replace('.', &sign.to_string()),
        }
    }

    /// Writes an angle that leans to one side or the other: "6° varus".
    pub fn leaning(&self, deg: f64, sides: [&str; 2], zero: &str) -> String {
        leaning(deg, &self.number(deg.abs()), sides, zero)
    }

    /// Names the component at an index of the entry's list by its role and name; nothing where it has neither.
    pub fn named_component(&self, index: usize) -> Option<String> {
        let component = self.case.components.get(index)?;
        let role = component.role.map(|role| self.role(role));
        let words: Vec<_> = role.into_iter().chain(component.name.as_deref()).collect();
        (!words.is_empty()).then(|| words.join(" "))
    }

    fn role(&self, role: ComponentRole) -> &str {
        self.words.code("/components/role", role.code()).unwrap_or(role.words())
    }

    /// Names the component at an index of the entry's list.
    pub fn component(&self, index: u64) -> String {
        let words = &self.words.values;
        let number = (index + 1).to_string();
        let found = usize::try_from(index).ok().and_then(|index| self.case.components.get(index));
        let Some(component) = found else {
            return words.component_unknown.fill(&[("number", &number)]);
        };
        let role = component.role.map_or(words.component.as_str(), |role| self.role(role));
        match &component.name {
            Some(name) => words.component_named.fill(&[("role", role), ("name", name), ("number", &number)]),
            None => words.component_number.fill(&[("role", role), ("number", &number)]),
        }
    }
}

/// Says to which side an angle leans; `written` is the angle without its sign, the negative side comes first.
pub(crate) fn leaning(deg: f64, written: &str, [negative, positive]: [&str; 2], zero: &str) -> String {
    if deg == 0.0 { zero.to_owned() } else { format!("{written}° {}", if deg < 0.0 { negative } else { positive }) }
}
