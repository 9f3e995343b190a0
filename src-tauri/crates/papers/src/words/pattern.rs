//! A sentence with places in it, such as `{day} {month} {year}`.

use serde::Deserialize;

/// Text with places in curly brackets.
#[derive(Debug, Deserialize)]
#[serde(transparent)]
pub(crate) struct Pattern(String);

impl Pattern {
    /// Takes a text with places.
    pub fn new(text: impl Into<String>) -> Self {
        Self(text.into())
    }

    /// Fills the places; what is put in is never searched for places again.
    pub fn fill(&self, values: &[(&str, &str)]) -> String {
        let mut filled = String::with_capacity(self.0.len() + 24);
        let mut rest = self.0.as_str();
        while let Some((before, place)) = rest.split_once('{') {
            filled.push_str(before);
            let Some((name, after)) = place.split_once('}') else { break };
            filled.extend(values.iter().find(|(known, _)| *known == name).map(|(_, value)| *value));
            rest = after;
        }
        filled.push_str(rest);
        filled
    }
}
