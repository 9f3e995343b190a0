//! Numbers that can exist: each type is parsed once, names the input when it refuses, and is trusted afterwards.
//! The bounds are those of the physical world, not of what is usual: a plausible range is for the review to judge.

use serde_json::Value;

use crate::Refusal;
use crate::given::Read;

/// A bounded number: the bounds and the words for saying what is wrong.
struct Bounds {
    noun: &'static str,
    unit: &'static str,
    least: f64,
    most: f64,
    /// Zero itself is refused (a weight, a height).
    above_zero: bool,
}

impl Bounds {
    fn admit(&self, name: &str, value: f64) -> Result<f64, Refusal> {
        let Self { noun, unit, least, most, above_zero } = *self;
        let space = if unit.is_empty() || unit == "°" { "" } else { " " };
        let message = if !value.is_finite() {
            format!("{noun} must be a finite number (got {value}).")
        } else if above_zero && value <= 0.0 {
            format!("{noun} must be above zero (got {value}).")
        } else if least == 0.0 && value < 0.0 {
            format!("{noun} cannot be negative (got {value}).")
        } else if value < least || value > most {
            format!("{noun} must lie between {least} and {most}{space}{unit} (got {value}).")
        } else {
            return Ok(value + 0.0); // -0 becomes 0
        };
        Err(Refusal::of(name, message))
    }
}

macro_rules! quantities {
    ($($(#[$doc:meta])* $type:ident: $noun:literal, $unit:literal, $least:literal to $most:literal $(, $above:ident)?;)*) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
        pub struct $type(f64);

        impl $type {
            const BOUNDS: Bounds = Bounds {
                noun: $noun, unit: $unit, least: $least, most: $most,
                above_zero: quantities!(@flag $($above)?),
            };

            /// Admits a number, or refuses it with a sentence that begins with `name`.
            pub fn new(name: &str, value: f64) -> Result<Self, Refusal> {
                Self::BOUNDS.admit(name, value).map(Self)
            }

            /// The number.
            pub const fn get(self) -> f64 {
                self.0
            }
        }

        impl Read for $type {
            fn read(name: &str, value: &Value) -> Result<Self, Refusal> {
                Self::new(name, number(name, value)?)
            }
        }
    )*};
    (@flag) => { false };
    (@flag above_zero) => { true };
}

quantities! {
    /// An angle in degrees, within ±180.
    Degrees: "an angle", "°", -180.0 to 180.0;
    /// A thickness of bone, cartilage or component in mm, zero or more.
    Thickness: "a thickness", "mm", 0.0 to 500.0;
    /// The width of something in mm, above zero.
    Width: "a width", "mm", 0.0 to 1000.0, above_zero;
    /// A gap or a laxity in mm, zero or more.
    Opening: "a gap or laxity", "mm", 0.0 to 500.0;
    /// A signed shift in mm.
    Shift: "a shift", "mm", -500.0 to 500.0;
    /// A body weight in kg.
    Kilograms: "a weight", "kg", 0.0 to 700.0, above_zero;
    /// A body height in cm.
    Centimetres: "a height", "cm", 30.0 to 300.0, above_zero;
    /// A pressure in mmHg, above zero.
    Pressure: "a pressure", "mmHg", 0.0 to 1000.0, above_zero;
    /// A dose in mg, zero or more.
    Milligrams: "a dose", "mg", 0.0 to 1_000_000.0;
    /// A strength in per cent (g in 100 ml).
    Percent: "a percentage", "%", 0.0 to 100.0;
    /// A volume in ml, zero or more.
    Millilitres: "a volume", "ml", 0.0 to 100_000.0;
    /// A temperature in °C.
    Celsius: "a temperature", "°C", -100.0 to 100.0;
    /// A haemoglobin concentration in g/l.
    Haemoglobin: "a haemoglobin", "g/l", 20.0 to 400.0, above_zero;
    /// A fraction from 0 to 1, such as a haematocrit.
    Fraction: "a fraction", "", 0.0 to 1.0;
    /// A haematocrit as a fraction, above zero.
    Haematocrit: "a haematocrit (a fraction such as 0.41)", "", 0.0 to 1.0, above_zero;
    /// A blood volume in litres.
    Litres: "a blood volume", "l", 0.0 to 50.0, above_zero;
    /// A creatinine concentration in µmol/l.
    Creatinine: "a creatinine", "µmol/l", 15.0 to 10_000.0, above_zero;
    /// An age in years.
    Years: "an age", "years", 0.0 to 150.0;
    /// A length of time in minutes, zero or more.
    Minutes: "a time span", "min", 0.0 to 100_000.0;
}

impl Thickness {
    /// No thickness at all.
    pub const ZERO: Self = Self(0.0);
}

/// Reads a JSON number.
pub(crate) fn number(name: &str, value: &Value) -> Result<f64, Refusal> {
    value
        .as_f64()
        .ok_or_else(|| Refusal::of(name, format!("a number is needed here, not {}.", crate::given::said(value))))
}

/// A whole number, zero or more.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Count(u32);

impl Count {
    /// Takes a number that is already whole.
    pub const fn new(value: u32) -> Self {
        Self(value)
    }

    /// The number.
    pub const fn get(self) -> u32 {
        self.0
    }
}

impl Read for Count {
    fn read(name: &str, value: &Value) -> Result<Self, Refusal> {
        let given = number(name, value)?;
        // 1,000,000 of anything counted here is a slip; it also keeps date sums inside the calendar.
        if given.fract() == 0.0 && (0.0..=1_000_000.0).contains(&given) {
            Ok(Self(given as u32))
        } else {
            Err(Refusal::of(name, format!("a whole number from 0 to 1000000 is needed here, not {given}.")))
        }
    }
}

/// Rounds to tenths, half away from zero: what every comparison with an edge is made on.
///
/// The sum of two decimals such as 87.95 - 90 carries binary dust (-2.0499999999999972), so a millionth of a step is
/// settled first; otherwise a number exactly between two tenths would fall to a side by accident.
pub fn tenth(value: f64) -> f64 {
    round(round(value, 7), 1)
}

/// Rounds to four decimals, half away from zero: how results are given.
pub(crate) fn shown(value: f64) -> f64 {
    round(round(value, 9), 4)
}

fn round(value: f64, places: i32) -> f64 {
    let scale = 10f64.powi(places);
    let scaled = value * scale;
    // Above this, a float has no decimals left to round (and the scale could overflow).
    if scaled.abs() < 9e15 { scaled.round() / scale + 0.0 } else { value }
}
