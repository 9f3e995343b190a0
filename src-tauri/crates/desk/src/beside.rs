//! What stands beside the answers: reckonings and drawings.

use evengap_papers::{drawing, drawings};
use evengap_review::Beside;
use serde::Serialize;
use serde_json::Value;
use ts_rs::TS;

use crate::{Desk, DeskError, Right};

/// A drawing beside the answers that it was made from.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct Drawn {
    /// `axis`, `balance` or `surfaces`.
    pub name: String,
    /// The group of answers it stands beside.
    pub at: String,
    /// The drawing as SVG, escaped.
    pub svg: String,
    /// The same in words.
    pub alt: String,
}

impl Desk {
    /// Gives the reckonings that follow from an entry as it stands on the screen.
    ///
    /// # Errors
    /// When the entry cannot be read (`refused`), or the limits of the notebook cannot.
    pub fn case_reckonings(&self, case: Value) -> Result<Vec<Beside>, DeskError> {
        self.may(Right::ReadEntries)?;
        let case = evengap_case::read_value(case)?.case;
        let limits = self.limits()?;
        Ok(evengap_review::reckonings(&case, &limits))
    }

    /// Gives the drawings that an entry allows.
    ///
    /// # Errors
    /// When the entry cannot be read (`refused`).
    pub fn case_drawings(&self, case: Value) -> Result<Vec<Drawn>, DeskError> {
        self.may(Right::ReadEntries)?;
        let case = evengap_case::read_value(case)?.case;
        let places = [("axis", "knee.alignment"), ("balance", "balance.final"), ("surfaces", "choice")];
        let mut made = drawings::of(&case, evengap_papers::Language::En);
        let drawn = places.into_iter().filter_map(|(name, at)| {
            let picture = made.remove(name)?;
            Some(Drawn { name: name.into(), at: at.into(), svg: drawing::svg(&picture), alt: picture.alt })
        });
        Ok(drawn.collect())
    }
}
