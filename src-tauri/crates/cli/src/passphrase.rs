//! Where a passphrase comes from: a person at the terminal, standard input or a file; never an argument,
//! because other programs can read those.

use std::fs::File;
use std::io::{self, BufRead, BufReader, IsTerminal};
use std::path::Path;

use evengap_desk::DeskError;
use zeroize::Zeroizing;

/// More than anybody types; keeps a wrong file from being read whole.
const MOST_BYTES: u64 = 64 * 1024;
/// Room for any passphrase, so that none is copied to a larger place while it is read.
const ROOM: usize = 1024;

/// Gets the passphrase of an existing notebook.
pub fn ask(file: Option<&Path>) -> Result<Zeroizing<String>, DeskError> {
    match file {
        Some(path) => from_file(path),
        None if io::stdin().is_terminal() => typed("Passphrase: "),
        None => first_line(io::stdin().lock()).map_err(|error| unreadable("standard input", &error)),
    }
}

/// Gets the second passphrase of an act: from a file, from the next line of standard input, or typed twice.
pub fn ask_second(file: Option<&Path>, prompt: &str, twice: bool) -> Result<Zeroizing<String>, DeskError> {
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
pub fn ask_new(file: Option<&Path>) -> Result<Zeroizing<String>, DeskError> {
    let passphrase = ask(file)?;
    if file.is_none() && io::stdin().is_terminal() && typed("The same again: ")? != passphrase {
        return Err(DeskError::failed("The two passphrases differ. No notebook was made; try again."));
    }
    Ok(passphrase)
}

fn typed(prompt: &str) -> Result<Zeroizing<String>, DeskError> {
    rpassword::prompt_password(prompt).map(Zeroizing::new).map_err(|error| unreadable("the terminal", &error))
}

fn from_file(path: &Path) -> Result<Zeroizing<String>, DeskError> {
    let shown = path.display().to_string();
    let file = File::open(path).map_err(|error| match error.kind() {
        io::ErrorKind::NotFound => DeskError::failed(format!("There is no passphrase file {shown}. Check the name.")),
        _ => unreadable(&shown, &error),
    })?;
    first_line(BufReader::new(file)).map_err(|error| unreadable(&shown, &error))
}

/// Wiped when they are let go, the line break and what may stand behind it too.
fn first_line(from: impl BufRead) -> io::Result<Zeroizing<String>> {
    let mut line = Zeroizing::new(String::with_capacity(ROOM));
    from.take(MOST_BYTES).read_line(&mut line)?;
    let length = line.strip_suffix('\n').map_or(line.len(), |line| line.strip_suffix('\r').unwrap_or(line).len());
    line.truncate(length);
    Ok(line)
}

fn unreadable(place: &str, error: &io::Error) -> DeskError {
    DeskError::failed(format!("The passphrase could not be read from {place}: {error}."))
}
