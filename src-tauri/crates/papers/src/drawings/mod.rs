//! The drawings of a paper, made from an entry: the limb axis, the two spaces as left, and the surfaces
//! replaced.
//!
//! They show what was recorded and nothing that was not: a drawing without its answers is not drawn.

mod axis;
mod balance;
mod surfaces;

use std::collections::BTreeMap;

use evengap_case::Case;
use evengap_case::sections::Side;

use crate::drawing::Drawing;

pub(crate) use axis::is_recorded as has_axis;
pub(crate) use balance::is_recorded as has_balance;
pub(crate) use surfaces::is_recorded as has_surfaces;

/// Makes every drawing that an entry allows, under the names that templates use.
pub fn of(case: &Case) -> BTreeMap<String, Drawing> {
    let drawings = [("axis", axis::draw(case)), ("balance", balance::draw(case)), ("surfaces", surfaces::draw(case))];
    drawings.into_iter().filter_map(|(name, drawing)| Some((name.to_owned(), drawing?))).collect()
}

/// Tells whether medial is drawn on the left: seen from the front, that is so for a left knee.
fn medial_on_left(side: Side) -> bool {
    side == Side::Left
}
