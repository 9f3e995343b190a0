//! What the window can be told when it is started. Reads words, touches nothing.

use std::ffi::OsString;
use std::path::PathBuf;

const HELP: &str = "\
Opens the Evengap window.

evengap-window [--data DIR]

  --data DIR   folder for the demonstration notebook and the window's own state
  --version    prints the version
  --help       prints this";

/// What was asked for.
#[derive(Debug, PartialEq, Eq)]
pub enum Asked {
    /// The window, with the folder that replaces the usual one.
    Window {
        /// Folder for the demonstration notebook and the window's state.
        data: Option<PathBuf>,
    },
    /// Words to print instead of a window.
    Words(String),
}

/// Reads the arguments after the program's name.
///
/// # Errors
/// A sentence, when a word is not known or the folder is missing.
pub fn read(mut words: impl Iterator<Item = OsString>) -> Result<Asked, String> {
    let mut data = None;
    while let Some(word) = words.next() {
        match word.to_str() {
            Some("--help" | "-h") => return Ok(Asked::Words(HELP.to_owned())),
            Some("--version") => return Ok(Asked::Words(format!("evengap-window {}", env!("CARGO_PKG_VERSION")))),
            Some("--data") => match words.next() {
                Some(folder) if !folder.is_empty() => data = Some(PathBuf::from(folder)),
                _ => return Err("--data needs a folder: evengap-window --data DIR".to_owned()),
            },
            _ => {
                return Err(format!(
                    "“{}” is not known here. evengap-window --help lists what is.",
                    word.to_string_lossy()
                ));
            }
        }
    }
    Ok(Asked::Window { data })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(words: &[&str], expected: Result<Asked, &str>) {
        let found = read(words.iter().map(OsString::from));
        match (found, expected) {
            (Err(sentence), Err(part)) => assert!(sentence.contains(part), "“{sentence}” should say “{part}”"),
            (found, expected) => assert_eq!(found, expected.map_err(str::to_owned), "for {words:?}"),
        }
    }

    #[test]
    fn reads_the_folder() {
        check(&[], Ok(Asked::Window { data: None }));
        check(&["--data", "here/it is"], Ok(Asked::Window { data: Some("here/it is".into()) }));
    }

    #[test]
    fn says_what_is_wrong() {
        check(&["--data"], Err("needs a folder"));
        check(&["--data", ""], Err("needs a folder"));
        check(&["--dara", "x"], Err("“--dara” is not known"));
    }

    #[test]
    fn prints_words() {
        check(&["--help"], Ok(Asked::Words(HELP.to_owned())));
        assert!(
            matches!(read(["--version".into()].into_iter()), Ok(Asked::Words(words)) if words.starts_with("evengap-window "))
        );
    }
}
