//! What one run of a template may spend: rounds of its loops, text that passes through it, and the
//! length of what comes out. No clock: the same template and entry always stop at the same place.

use std::cell::RefCell;

/// Longest template, in bytes. The longest built-in one has about 40 kB.
pub(super) const SOURCE_BYTES: usize = 64 * 1024;
/// Rounds of all loops together. A note of 40 components goes round about 200 times.
const ROUNDS: usize = 20_000;
/// Bytes of template that all rounds together may run through.
const RUN_BYTES: usize = 4 * 1024 * 1024;
/// Bytes of text that all filters and values together may make.
const MADE_BYTES: usize = 16 * 1024 * 1024;
/// Bytes of Markdown that a paper may have: about 300 pages.
pub(super) const PAPER_BYTES: usize = 1024 * 1024;

thread_local! {
    static SPENT: RefCell<Option<Spent>> = const { RefCell::new(None) };
}

#[derive(Default)]
struct Spent {
    rounds: usize,
    run: usize,
    made: usize,
    /// Why the template was stopped, and where in the source the innermost known place is.
    stopped: Option<String>,
    loop_at: Option<usize>,
}

/// Runs something on a fresh budget; gives its result, and if the budget was overspent the sentence
/// and the byte of the loop in which that happened.
pub(super) fn within<T>(run: impl FnOnce() -> T) -> (T, Option<(String, Option<usize>)>) {
    // Set back even if `run` unwinds, so that a later run on this thread starts afresh.
    struct Reset;
    impl Drop for Reset {
        fn drop(&mut self) {
            SPENT.with(|spent| spent.take());
        }
    }
    SPENT.with(|spent| spent.replace(Some(Spent::default())));
    let reset = Reset;
    let result = run();
    let stopped = SPENT.with(|spent| spent.take()).and_then(|spent| Some((spent.stopped?, spent.loop_at)));
    drop(reset);
    (result, stopped)
}

/// Spends one round of a loop whose body has so many bytes.
pub(super) fn round(body: usize, at: usize) -> Result<(), String> {
    spend(|spent| {
        spent.loop_at = Some(at);
        spent.rounds += 1;
        spent.run += body;
        (spent.rounds > ROUNDS || spent.run > RUN_BYTES)
            .then(|| format!("The loops of this template go round too often: stopped after {} rounds.", spent.rounds))
    })
}

/// Spends text that was made.
pub(super) fn made(bytes: usize) -> Result<(), String> {
    spend(|spent| {
        spent.made += bytes;
        (spent.made > MADE_BYTES).then(|| {
            let limit = MADE_BYTES / (1024 * 1024);
            format!("The text of this template grows too long: stopped when it had made more than {limit} MB.")
        })
    })
}

/// Says that the paper grew too long.
pub(super) fn too_long() -> String {
    let sentence = format!("The paper grows too long: stopped at {} MB of text.", PAPER_BYTES / (1024 * 1024));
    SPENT.with_borrow_mut(|spent| {
        if let Some(spent) = spent {
            spent.stopped.get_or_insert_with(|| sentence.clone());
        }
    });
    sentence
}

fn spend(on: impl FnOnce(&mut Spent) -> Option<String>) -> Result<(), String> {
    SPENT.with_borrow_mut(|spent| {
        let Some(spent) = spent else { return Ok(()) };
        match on(spent) {
            None => Ok(()),
            Some(sentence) => Err(spent.stopped.get_or_insert(sentence).clone()),
        }
    })
}
