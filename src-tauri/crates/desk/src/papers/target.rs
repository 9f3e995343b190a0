//! Where a paper may go: never over a notebook, and never under an ending that is not its form's.

use std::path::{Path, PathBuf};

use super::PaperFormat;
use crate::{Desk, DeskError, ErrorCode};

impl Desk {
    /// Refuses a file that a paper may not become, whatever may be replaced.
    ///
    /// # Errors
    /// When it ends otherwise than the form does, or is the open notebook or what lies beside it (`refused`).
    pub(crate) fn may_become(&self, to: &Path, format: PaperFormat) -> Result<(), DeskError> {
        // Writing says what is wrong with a folder.
        if to.is_dir() {
            return Ok(());
        }
        if PaperFormat::of_file(to)? != format {
            return Err(refused(format!(
                "{}: this paper is written as .{ending}; choose a name that ends in .{ending}.",
                to.display(),
                ending = format.ending()
            )));
        }
        self.not_the_notebook(to)
    }

    /// Refuses a file that is the open notebook or lies beside it.
    ///
    /// # Errors
    /// `refused`, with a sentence that names the file.
    pub(crate) fn not_the_notebook(&self, to: &Path) -> Result<(), DeskError> {
        let Some(notebook) = &self.notebook else { return Ok(()) };
        // A notebook may have any name, also one that ends like a paper.
        let of_the_notebook = ["", "-journal", "-wal", "-shm"].map(|part| {
            let mut name = notebook.path().as_os_str().to_owned();
            name.push(part);
            there(Path::new(&name))
        });
        if of_the_notebook.contains(&there(to)) {
            return Err(refused(format!(
                "{}: this is the open notebook, which nothing may replace; choose another name.",
                to.display()
            )));
        }
        Ok(())
    }
}

/// The one path of a file, however it was written; a file that does not exist yet lies in a folder that does.
fn there(file: &Path) -> PathBuf {
    if let Ok(whole) = file.canonicalize() {
        return whole;
    }
    let folder = file.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    match (folder.canonicalize(), file.file_name()) {
        (Ok(folder), Some(name)) => folder.join(name),
        _ => file.to_owned(),
    }
}

fn refused(sentence: String) -> DeskError {
    DeskError::new(ErrorCode::Refused, sentence)
}
