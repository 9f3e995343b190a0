//! Sex as formulas ask for it. Two of the four codes have coefficients; the other two are never mapped to one of them.

use crate::given::codes;

codes! {
    /// Sex as recorded.
    pub enum Sex {
        Female = "female" => "female",
        Male = "male" => "male",
        Other = "other" => "other",
        Unknown = "unknown" => "unknown",
    }
}

/// What is said where a formula has no coefficients for the recorded sex.
pub(crate) const NO_COEFFICIENTS: &str =
    "needs sex female or male: the formula was published for these two only and has no numbers for other or unknown";

impl Sex {
    /// Chooses between the numbers that a formula has for women and for men; nothing for other and unknown.
    pub fn choose<T>(self, female: T, male: T) -> Option<T> {
        match self {
            Self::Female => Some(female),
            Self::Male => Some(male),
            Self::Other | Self::Unknown => None,
        }
    }
}
