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

fn main() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(error) => return answer::misused(&error, std::env::args_os().any(|word| word == "--json")),
    };
    let now = arguments.at.unwrap_or_else(|| LocalTime(chrono::Local::now().naive_local()));
    let outcome = run(arguments.verb, now);
    answer::give(outcome, arguments.json.is_some())
}

fn run(verb: Verb, now: LocalTime) -> Result<Answer, DeskError> {
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
        Verb::Notebook { act } => notebook::run(desk, act, now, || CaseId(uuid::Uuid::new_v4())),
    }
}
