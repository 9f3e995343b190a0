//! Where a passphrase comes from: a person at the terminal, standard input or a file; never an argument,
//! because other programs can read those.

use std::fs::File;
use std::io::{self, BufRead, BufReader, IsTerminal};
use std::path::Path;

use evengap_desk::DeskError;

/// More than anybody types; keeps a wrong file from being read whole.
const MOST_BYTES: u64 = 64 * 1024;

/// Gets the passphrase of an existing notebook.
pub fn ask(file: Option<&Path>) -> Result<String, DeskError> {
    match file {
        Some(path) => from_file(path),
        None if io::stdin().is_terminal() => typed("Passphrase: "),
        None => first_line(io::stdin().lock()).map_err(|error| unreadable("standard input", &error)),
    }
}

/// Gets the second passphrase of an act: from a file, from the next line of standard input, or typed twice.
pub fn ask_second(file: Option<&Path>, prompt: &str, twice: bool) -> Result<String, DeskError> {
    match file {
        Some(path) => from_file(path),
        None if io::stdin().is_terminal() => {
            let passphrase = typed(prompt)?;
            if twice && typed("The same again: ")? != passphrase {
                return Err(DeskError::failed("The two passphrases differ. Nothing was changed; try again."));
            }
            Ok(passphrase)
        }
        None => first_line(io::stdin().lock()).map_err(|error| unreadable("standard input", &error)),
    }
}

/// Gets the passphrase of a new notebook; a person types it twice.
pub fn ask_new(file: Option<&Path>) -> Result<String, DeskError> {
    let passphrase = ask(file)?;
    if file.is_none() && io::stdin().is_terminal() && typed("The same again: ")? != passphrase {
        return Err(DeskError::failed("The two passphrases differ. No notebook was made; try again."));
    }
    Ok(passphrase)
}

fn typed(prompt: &str) -> Result<String, DeskError> {
    rpassword::prompt_password(prompt).map_err(|error| unreadable("the terminal", &error))
}

fn from_file(path: &Path) -> Result<String, DeskError> {
    let shown = path.display().to_string();
    let file = File::open(path).map_err(|error| match error.kind() {
        io::ErrorKind::NotFound => DeskError::failed(format!("There is no passphrase file {shown}. Check the name.")),
        _ => unreadable(&shown, &error),
    })?;
    first_line(BufReader::new(file)).map_err(|error| unreadable(&shown, &error))
}

fn first_line(from: impl BufRead) -> io::Result<String> {
    let mut line = String::new();
    from.take(MOST_BYTES).read_line(&mut line)?;
    let line = line.strip_suffix('\n').unwrap_or(&line);
    Ok(line.strip_suffix('\r').unwrap_or(line).to_owned())
}

fn unreadable(place: &str, error: &io::Error) -> DeskError {
    DeskError::failed(format!("The passphrase could not be read from {place}: {error}."))
}
