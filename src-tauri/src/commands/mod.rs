//! What the page may call, one file per noun. Each command passes one question to the desk and its answer back.

pub mod cases;
pub mod dictionary;
pub mod exchange;
pub mod limits;
pub mod notebook;
pub mod papers;
pub mod people;
pub mod safety;
pub mod scans;
pub mod templates;
pub mod window;
