//! `evengap`: the desk from a terminal.
//!
//! Reads arguments, clock and chance, calls one act of the desk, and says what came of it. It decides
//! nothing about entries or papers itself.

mod answer;
mod arguments;
mod label;
mod notebook;
mod papers;
mod passphrase;
mod reckon;
mod review;
mod sources;
mod templates;

use std::process::ExitCode;

use chrono::Datelike;
use clap::Parser;
use evengap_case::{CaseId, LocalTime};
use evengap_desk::{Desk, DeskError};

use answer::Answer;
use arguments::{Arguments, Verb};
use notebook::Now;

fn main() -> ExitCode {
    // What a panic says may hold what somebody typed: only its place is told.
    std::panic::set_hook(Box::new(|panic| answer::broken(panic.location())));
    // Nor may a crash leave a picture of the memory on the disk; where the system refuses, work goes on.
    #[cfg(unix)]
    let _ = rlimit::setrlimit(rlimit::Resource::CORE, 0, 0);
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(error) => return answer::misused(&error, std::env::args_os().any(|word| word == "--json")),
    };
    let clock = LocalTime(chrono::Local::now().naive_local());
    let outcome = run(arguments.verb, Now { given: arguments.at.unwrap_or(clock), clock });
    answer::give(outcome, arguments.json.is_some())
}

fn run(verb: Verb, time: Now) -> Result<Answer, DeskError> {
    let now = time.given;
    let mut desk = Desk::new();
    match verb {
        Verb::Demo { to } => papers::demo(&mut desk, &to, now),
        Verb::Paper(asked) => papers::paper(&mut desk, asked, now),
        Verb::Template { act } => templates::run(&desk, act, now),
        Verb::Review { case } => review::review(&desk, &case),
        Verb::Schema => Ok(Answer::of_json(desk.schema())),
        Verb::Reckon(asked) => reckon::reckon(&desk, asked),
        Verb::Sources => sources::sources(&desk),
        Verb::Label(asked) => label::label(&desk, &asked, now.0.year()),
        Verb::Notebook { act } => notebook::run(desk, act, time, || CaseId(uuid::Uuid::new_v4())),
    }
}
