//! What is left behind when the program breaks: a place in its source, never what it was working on.

use std::panic::{Location, set_hook};

/// From now on a panic says where and nothing else, and a crash leaves no picture of the memory on the disk.
pub fn leave_nothing_behind() {
    set_hook(Box::new(|panic| eprintln!("{}", said(panic.location()))));
    // Where the system refuses, the window still opens: a smaller protection is no reason to keep a case from being written.
    #[cfg(unix)]
    let _ = rlimit::setrlimit(rlimit::Resource::CORE, 0, 0);
}

/// The message of a panic may hold an answer or a path; the place in the source never does.
fn said(place: Option<&Location<'_>>) -> String {
    let place = place.map_or_else(|| "an unknown place".to_owned(), ToString::to_string);
    format!("evengap-window broke off at {place}. What was saved is safe; please tell its developers this line.")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn says_the_place() {
        let sentence = said(Some(Location::caller()));
        assert!(sentence.contains("crash.rs:"), "where it broke: {sentence}");
        assert!(said(None).contains("unknown place"), "even where the place is not known");
    }

    #[test]
    #[cfg(unix)]
    fn leaves_no_picture_of_the_memory() {
        leave_nothing_behind();
        let limit = rlimit::getrlimit(rlimit::Resource::CORE).map(|(soft, _)| soft).ok();
        assert_eq!(limit, Some(0), "the system writes no core file");
    }
}
