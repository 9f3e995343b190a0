//! How an act's outcome is said: results on standard output, sentences on standard error, and the exit code.

use std::io::{self, ErrorKind, Write};
use std::panic::Location;
use std::process::ExitCode;

use evengap_desk::DeskError;
use serde_json::{Value, json};

/// Something was asked or given wrongly.
const WRONG: u8 = 2;
/// A finding or a flaw blocks, or a paper is unfinished.
const BLOCKED: u8 = 1;

/// How the program ends after an act that was done.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Ending {
    /// All is well.
    Fine,
    /// A finding or a flaw blocks, or a paper is unfinished.
    Blocked,
    /// Some of what was given could not be used.
    Wrong,
}

impl Ending {
    /// Blocked or fine.
    pub fn blocked_if(blocked: bool) -> Self {
        if blocked { Self::Blocked } else { Self::Fine }
    }
}

/// What came of an act.
pub struct Answer {
    /// For a person, on standard output.
    pub text: String,
    /// For a machine, on standard output.
    pub json: Value,
    /// Sentences for standard error.
    pub notes: Vec<String>,
    /// How the program ends.
    pub ending: Ending,
}

impl Answer {
    /// Makes an answer without sentences beside it.
    pub fn new(text: String, json: Value) -> Self {
        Self { text, json, notes: Vec::new(), ending: Ending::Fine }
    }

    /// Makes an answer that is JSON for people and machines alike.
    pub fn of_json(json: Value) -> Self {
        Self::new(format!("{json:#}\n"), json)
    }
}

/// Says what came of an act.
pub fn give(outcome: Result<Answer, DeskError>, as_json: bool) -> ExitCode {
    match outcome {
        Ok(answer) => {
            for note in &answer.notes {
                aside(note);
            }
            let text = if as_json { format!("{:#}\n", answer.json) } else { answer.text };
            let code = match answer.ending {
                Ending::Fine => 0,
                Ending::Blocked => BLOCKED,
                Ending::Wrong => WRONG,
            };
            print(&text, code)
        }
        Err(error) => {
            aside(&error.message);
            if as_json { print(&format!("{:#}\n", json!({ "error": error })), WRONG) } else { ExitCode::from(WRONG) }
        }
    }
}

/// Says what is wrong with the arguments, or gives the help that was asked for.
pub fn misused(error: &clap::Error, as_json: bool) -> ExitCode {
    let text = error.render().to_string();
    if !error.use_stderr() {
        return print(&text, 0);
    }
    aside(text.trim_end());
    if as_json {
        let message = text.trim_start_matches("error: ").trim_end();
        return print(
            &format!("{:#}\n", json!({ "error": { "code": "failed", "message": message, "places": [] } })),
            WRONG,
        );
    }
    ExitCode::from(WRONG)
}

/// Says that the program itself is wrong, and where; never what it was at.
pub fn broken(at: Option<&Location<'_>>) {
    let place = at.map(|at| format!(" ({}, line {})", at.file(), at.line())).unwrap_or_default();
    aside(&format!(
        "Evengap made a mistake of its own{place} and stopped. What was saved before is not touched by it."
    ));
}

/// Prints a result. A reader that has gone away, such as `head`, is no error.
fn print(text: &str, code: u8) -> ExitCode {
    let mut out = io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => {
            aside(&format!("The result could not be printed: {error}."));
            ExitCode::from(WRONG)
        }
        _ => ExitCode::from(code),
    }
}

/// Says a sentence on standard error; when nobody can hear it there is nobody to tell.
fn aside(sentence: &str) {
    let _ = writeln!(io::stderr(), "{sentence}");
}
