//! What full-text search knows of a case: names, numbers, dates, components and every free text.

use evengap_case::dictionary::{Field, Kind};
use evengap_case::{Case, Date};
use serde_json::Value;
use sha2::{Digest, Sha256};

use super::folding::{folded, squeezed};

/// Stands between texts, so that words of two of them are never found as neighbours. Nobody can type it.
const BETWEEN: &str = " \u{E000} ";

/// The columns of the index, folded.
pub(super) struct CaseText {
    pub names: String,
    pub numbers: String,
    pub dates: String,
    pub components: String,
    pub texts: String,
}

impl CaseText {
    /// The SHA-256 of all columns.
    pub(super) fn sum(&self) -> [u8; 32] {
        let columns = [&self.names, &self.numbers, &self.dates, &self.components, &self.texts];
        // A line feed is never in a column: folding makes spaces of control characters.
        columns
            .iter()
            .fold(Sha256::new(), |sum, column| sum.chain_update(column.as_str()).chain_update("\n"))
            .finalize()
            .into()
    }
}

/// Gathers the texts of a case.
pub(super) fn of(case: &Case) -> CaseText {
    let patient = &case.patient;
    let mut names = Column::default();
    names
        .text([patient.given_name.as_deref(), patient.family_name.as_deref()].map(Option::unwrap_or_default).join(" "));

    let mut numbers = Column::default();
    numbers.number(patient.hospital_number.as_deref());

    let mut dates = Column::default();
    for date in [case.setting.operation_date, patient.birth_date].into_iter().flatten() {
        dates.date(date);
    }

    let mut components = Column::default();
    for component in &case.components {
        let scan = &component.scan;
        for number in [&component.reference, &component.lot, &component.serial, &scan.device_identifier, &scan.raw] {
            components.number(number.as_deref());
        }
        for text in [&component.maker, &component.name].into_iter().flatten() {
            components.text(text);
        }
    }

    let mut texts = Column::default();
    texts.text(case.knee.side.map_or("", |side| side.words()));
    texts.text(case.choice.procedure.map_or("", |procedure| procedure.words()));
    texts.record(&case.to_value(), Case::FIELDS);

    CaseText { names: names.0, numbers: numbers.0, dates: dates.0, components: components.0, texts: texts.0 }
}

#[derive(Default)]
struct Column(String);

impl Column {
    /// Adds a text, and those of its words that hold a sign once more without it.
    fn text(&mut self, text: impl AsRef<str>) {
        let text = folded(text.as_ref());
        self.put(&text);
        for word in text.split_whitespace() {
            let joined = squeezed(word);
            if joined != word {
                self.put(&joined);
            }
        }
    }

    /// Adds an identifier, and once more as if it had no signs or spaces.
    fn number(&mut self, number: Option<&str>) {
        let Some(number) = number else { return };
        self.text(number);
        self.put(&squeezed(&folded(number)));
    }

    /// Adds a day in the ways in which people write it, the day before the month.
    fn date(&mut self, Date(date): Date) {
        for form in ["%Y-%m-%d", "%Y%m%d", "%d.%m.%Y", "%-d.%-m.%Y", "%d.%-m.%Y", "%-d.%m.%Y", "%-d %B %Y"] {
            let written = date.format(form).to_string();
            self.put(&folded(&written));
        }
    }

    /// Adds every free text of a record, as deep as it goes.
    fn record(&mut self, value: &Value, fields: &[Field]) {
        for field in fields {
            if let Some(answer) = value.get(field.name) {
                self.answer(answer, &field.kind);
            }
        }
    }

    fn answer(&mut self, answer: &Value, kind: &Kind) {
        match (kind, answer) {
            (Kind::Text, Value::String(text)) => self.text(text),
            (Kind::Record { fields }, record) => self.record(record, fields),
            (Kind::List { of }, Value::Array(items)) => items.iter().for_each(|item| self.answer(item, of)),
            _ => {}
        }
    }

    fn put(&mut self, words: &str) {
        if !words.is_empty() {
            self.0.push_str(words);
            self.0.push_str(BETWEEN);
        }
    }
}
