//! The sections of an entry, one file each, in the order of the operation.

mod aftercare;
mod anaesthesia;
mod approach;
mod balance;
mod cement;
mod choice;
mod closing;
mod components;
mod cuts;
mod discharge;
mod end;
mod events;
mod knee;
mod patient;
mod setting;
mod team;
mod times;
mod visits;

pub use aftercare::*;
pub use anaesthesia::*;
pub use approach::*;
pub use balance::*;
pub use cement::*;
pub use choice::*;
pub use closing::*;
pub use components::*;
pub use cuts::*;
pub use discharge::*;
pub use end::*;
pub use events::*;
pub use knee::*;
pub use patient::*;
pub use setting::*;
pub use team::*;
pub use times::*;
pub use visits::*;
