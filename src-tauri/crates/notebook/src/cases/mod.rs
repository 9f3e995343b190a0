//! Entries: adding, saving, showing, listing. Who may do so is not asked here.

mod add;
mod find;
mod lines;
mod query;
mod save;
mod show;

pub use add::Added;
pub use lines::{CaseLine, State};
pub use show::Stored;
