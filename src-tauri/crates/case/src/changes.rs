//! What differs between two versions of an entry, answer by answer, in the order of the dictionary.
//!
//! It finds every difference, unknown keys included, and judges none: whether a change matters is for
//! the person who reads it.

use serde::Serialize;
use serde_json::{Map, Value};

use crate::Case;
use crate::dictionary::{Field, Kind};

/// One answer that differs.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Change {
    /// Where, such as `components[2].lot`: in the new version, or in the old one for what is gone.
    pub path: String,
    /// The place in words, from the section inwards: `Components`, `no. 3`, `Lot`.
    ///
    /// An item that came or went says so: `no. 3 (added)`, `no. 3 (removed)`.
    pub labels: Vec<String>,
    /// The answer before; none where nothing was recorded.
    pub before: Option<Value>,
    /// The answer now; none where nothing is recorded.
    pub now: Option<Value>,
    /// Unit of the number, as printed.
    pub unit: Option<&'static str>,
    /// What sort of answer it is; none for a key that the dictionary does not know.
    pub kind: Option<&'static Kind>,
}

/// Gives every answer that differs, one change each; none where the two versions are equal.
///
/// Items of a list are compared by position, after equal items at its two ends are set aside: an item
/// that is added or taken out in the middle is one change and not a change of all items behind it.
pub fn changes(before: &Case, now: &Case) -> Vec<Change> {
    changes_of_values(&before.to_value(), &now.to_value())
}

/// Gives the same of two entries as [`Case::to_value`] gives them, for whoever compares one with many.
pub fn changes_of_values(before: &Value, now: &Value) -> Vec<Change> {
    let mut walk = Walk::default();
    walk.record(Case::FIELDS, Some(before), Some(now));
    walk.found
}

/// Where the walk stands, and what it has found.
#[derive(Default)]
struct Walk {
    path: String,
    labels: Vec<String>,
    found: Vec<Change>,
}

impl Walk {
    /// Goes one step inwards and comes back.
    fn within(&mut self, step: &str, label: String, then: impl FnOnce(&mut Self)) {
        let length = self.path.len();
        if !self.path.is_empty() && !step.starts_with('[') {
            self.path.push('.');
        }
        self.path.push_str(step);
        self.labels.push(label);
        then(self);
        self.labels.pop();
        self.path.truncate(length);
    }

    fn say(
        &mut self,
        before: Option<&Value>,
        now: Option<&Value>,
        unit: Option<&'static str>,
        kind: Option<&'static Kind>,
    ) {
        self.found.push(Change {
            path: self.path.clone(),
            labels: self.labels.clone(),
            before: before.cloned(),
            now: now.cloned(),
            unit,
            kind,
        });
    }

    fn record(&mut self, fields: &'static [Field], before: Option<&Value>, now: Option<&Value>) {
        for field in fields {
            let (before, now) = [before, now].map(|value| value.and_then(|value| value.get(field.name))).into();
            if before != now {
                self.within(field.name, field.label.to_owned(), |walk| {
                    walk.answer(&field.kind, field.unit, before, now);
                });
            }
        }
        let none = Map::new();
        let [before, now] = [before, now].map(|value| value.and_then(Value::as_object).unwrap_or(&none));
        let gone = before.keys().filter(|key| !now.contains_key(*key));
        for key in now.keys().chain(gone).filter(|key| !fields.iter().any(|field| field.name == *key)) {
            if before.get(key) != now.get(key) {
                self.within(key, key.clone(), |walk| walk.say(before.get(key), now.get(key), None, None));
            }
        }
    }

    fn answer(&mut self, kind: &'static Kind, unit: Option<&'static str>, before: Option<&Value>, now: Option<&Value>) {
        if before == now {
            return;
        }
        match kind {
            Kind::Record { fields } => {
                let found = self.found.len();
                self.record(fields, before, now);
                // An item without a single answer can come or go as well.
                if self.found.len() == found {
                    self.say(before, now, unit, Some(kind));
                }
            }
            Kind::List { of } => self.list(of, unit, before, now),
            _ => self.say(before, now, unit, Some(kind)),
        }
    }

    fn list(&mut self, of: &'static Kind, unit: Option<&'static str>, before: Option<&Value>, now: Option<&Value>) {
        let [before, now] = [before, now].map(|value| value.and_then(Value::as_array).map_or(&[][..], Vec::as_slice));
        let shorter = before.len().min(now.len());
        let ahead = before.iter().zip(now).take_while(|(before, now)| before == now).count();
        let pairs_behind = before.iter().rev().zip(now.iter().rev());
        let behind = pairs_behind.take(shorter - ahead).take_while(|(before, now)| before == now).count();
        let (last_before, last_now) = (before.len() - behind, now.len() - behind);
        for at in ahead..last_before.max(last_now) {
            let (was, is) = (before[..last_before].get(at), now[..last_now].get(at));
            let fate = match (was, is) {
                (None, Some(_)) => " (added)",
                (Some(_), None) => " (removed)",
                _ => "",
            };
            self.within(&format!("[{at}]"), format!("no. {}{fate}", at + 1), |walk| walk.answer(of, unit, was, is));
        }
    }
}
