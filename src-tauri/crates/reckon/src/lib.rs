//! Reckonings: pure functions of numbers, each with its formula and source as data. No entry, no files, no clock; it
//! states numbers, limits and sources and advises nothing.
//!
//! One module per reckoning or close family. Each has typed inputs that cannot hold impossible numbers, a pure function
//! `reckon`, and a `RECKONING` that puts names, units, sources and the JSON face around it.

mod answer;
mod given;
mod limits;
mod moment;
mod number;
mod reckoning;
mod refusal;
mod source;
mod tables;

pub mod age;
pub mod alignment;
pub mod antibiotic;
pub mod blood;
pub mod body;
pub mod cement;
pub mod cuts;
pub mod gaps;
pub mod insert_choice;
pub mod kidney;
pub mod local_anaesthetic;
pub mod partial;
pub mod readability;
pub mod score;
pub mod sex;
pub mod slope;
pub mod tourniquet;
pub mod tranexamic;
pub mod vte;

pub use answer::{Answer, Echo, Output, Statement};
pub use given::{Given, Read};
pub use limits::{Limit, LimitRow, Limits};
pub use moment::{Day, Moment};
pub use number::{
    Celsius, Centimetres, Count, Creatinine, Degrees, Fraction, Haemoglobin, Kilograms, Milligrams, Millilitres,
    Minutes, Opening, Percent, Pressure, Shift, Thickness, Width, Years, tenth,
};
pub use number::{Haematocrit, Litres};
pub use reckoning::{Input, Reckoning};
pub use refusal::{Problem, Refusal};
pub use sex::Sex;
pub use source::{Source, SourceKind};
pub use tables::{AntibioticLine, CuffLine, LocalAnaestheticLine};

/// Every reckoning, in the order in which a surgeon meets them.
pub static RECKONINGS: &[Reckoning] = &[
    alignment::RECKONING,
    partial::RECKONING,
    cuts::CUT,
    cuts::CUT_TILT,
    cuts::PATELLA_RECKONING,
    cuts::POSTERIOR_OFFSET,
    gaps::RECKONING,
    insert_choice::RECKONING,
    slope::RECKONING,
    cement::RECKONING,
    tourniquet::CUFF_PRESSURE,
    tourniquet::TOURNIQUET_TIME,
    antibiotic::RECKONING,
    tranexamic::RECKONING,
    local_anaesthetic::RECKONING,
    vte::RECKONING,
    age::RECKONING,
    body::BMI,
    body::BSA,
    blood::BLOOD_VOLUME,
    blood::BLOOD_LOSS_HAEMATOCRIT,
    blood::BLOOD_LOSS_HAEMOGLOBIN,
    kidney::EGFR,
    kidney::CREATININE_CLEARANCE,
    readability::RECKONING,
    score::RECKONING,
];

/// Finds a reckoning by its name.
pub fn find(name: &str) -> Option<&'static Reckoning> {
    RECKONINGS.iter().find(|reckoning| reckoning.name == name)
}
