//! The drawings of a paper, made from an entry: the limb axis, the two spaces as left, the surfaces
//! replaced, and the marks of component labels.
//!
//! They show what was recorded and nothing that was not: a drawing without its answers is not drawn.

mod axis;
mod balance;
mod mark;
mod surfaces;

use std::collections::BTreeMap;

use evengap_case::sections::Side;
use evengap_case::{Case, LocalTime};

use crate::drawing::Drawing;
use crate::{Language, words};

pub(crate) use axis::is_recorded as has_axis;
pub(crate) use balance::is_recorded as has_balance;
pub(crate) use mark::of as mark_of;
pub(crate) use surfaces::is_recorded as has_surfaces;

/// Makes every drawing that an entry allows, under the names that templates use.
pub fn of(case: &Case, language: Language) -> BTreeMap<String, Drawing> {
    let drawings = [
        ("axis", axis::draw(case)),
        ("balance", balance::draw(case)),
        ("surfaces", surfaces::draw(case, &words::of(language).surfaces)),
    ];
    drawings.into_iter().filter_map(|(name, drawing)| Some((name.to_owned(), drawing?))).collect()
}

/// Makes the mark of every component that can have one.
///
/// Apart from the others, because few papers ask for them and each is work; `written` is the day on
/// which the paper is made.
pub fn marks(case: &Case, written: LocalTime) -> impl Iterator<Item = (String, Drawing)> {
    let components = case.components.iter().enumerate();
    components.filter_map(move |(index, component)| Some((mark_name(index), mark::draw(component, written)?)))
}

/// Begins the name of every mark.
pub(crate) const MARK: &str = "mark-";

/// Names the mark of a component by its number in the list, from 1.
pub(crate) fn mark_name(index: usize) -> String {
    format!("{MARK}{}", index + 1)
}

/// Tells whether medial is drawn on the left: seen from the front, that is so for a left knee.
fn medial_on_left(side: Side) -> bool {
    side == Side::Left
}
