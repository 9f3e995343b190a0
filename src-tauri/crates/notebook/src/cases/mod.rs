//! Entries: adding, saving, signing, adding to signed ones, showing, listing. Who may do so is not asked here.

mod add;
mod addenda;
mod find;
pub(crate) mod lines;
mod query;
mod save;
mod show;
mod sign;

pub use add::Added;
pub use addenda::{AddendumLine, says_something};
pub use find::Found;
pub use lines::{CaseLine, State};
pub use show::{Signature, Stored};
