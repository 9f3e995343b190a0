//! The folders of the person who uses the window, and paths as that person types them.

use std::path::{Path, PathBuf};

use directories::{ProjectDirs, UserDirs};

/// Where things are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Folders {
    /// The demonstration notebook and the window's own state.
    pub data: PathBuf,
    /// Where a new notebook or a paper is suggested.
    pub documents: PathBuf,
    /// What `~` stands for.
    pub home: PathBuf,
}

impl Folders {
    /// Finds the folders; a given data folder replaces the usual one.
    ///
    /// # Errors
    /// A sentence, when the system knows no home folder.
    pub fn find(data: Option<PathBuf>) -> Result<Self, String> {
        let unknown = || "The system does not say where your home folder is. Set HOME and start again.".to_owned();
        let user = UserDirs::new().ok_or_else(unknown)?;
        let home = user.home_dir().to_path_buf();
        let data = match data {
            Some(folder) => std::path::absolute(folder).map_err(|error| format!("--data: {error}"))?,
            None => ProjectDirs::from("org", "evengap", "Evengap").ok_or_else(unknown)?.data_dir().to_path_buf(),
        };
        let documents = user.document_dir().map_or_else(|| home.clone(), Path::to_path_buf);
        Ok(Self { data, documents, home })
    }

    /// Reads a path as a person types it: `~` is the home folder, a bare name lies in the documents.
    pub fn typed(&self, path: &str) -> PathBuf {
        let path = path.trim();
        if path == "~" {
            return self.home.clone();
        }
        match path.strip_prefix("~/") {
            Some(rest) => self.home.join(rest),
            // An absolute path replaces the folder that it is joined to.
            None => self.documents.join(path),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(typed: &str, expected: &str) {
        let folders = Folders { data: "/data".into(), documents: "/home/m/Documents".into(), home: "/home/m".into() };
        assert_eq!(folders.typed(typed), Path::new(expected), "for {typed:?}");
    }

    #[test]
    fn reads_paths_as_typed() {
        check("~/notes/a.pdf", "/home/m/notes/a.pdf");
        check("~", "/home/m");
        check(" /srv/a.pdf ", "/srv/a.pdf");
        check("a.pdf", "/home/m/Documents/a.pdf");
        check("~other/a.pdf", "/home/m/Documents/~other/a.pdf");
    }

    #[test]
    fn takes_the_given_data_folder() {
        let data = Folders::find(Some("some/where".into())).map(|folders| folders.data);
        assert!(
            data.as_ref().is_ok_and(|data| data.is_absolute()),
            "paths do not hang on the folder of the start: {data:?}"
        );
        assert!(data.as_ref().is_ok_and(|data| data.ends_with("some/where")), "the given folder counts: {data:?}");
    }
}
