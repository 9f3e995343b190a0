//! Which file it is, whatever it is called: so that one that was moved, deleted or replaced is noticed.

use std::fs::Metadata;
use std::io;
use std::path::Path;

/// What tells a file from every other one on the same computer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Identity(#[cfg(unix)] (u64, u64), #[cfg(not(unix))] Option<std::time::SystemTime>);

impl Identity {
    /// Looks at the file at a path.
    pub(crate) fn of(path: &Path) -> io::Result<Self> {
        std::fs::metadata(path).map(|about| Self::from(&about))
    }

    /// Tells whether this file is still at the path.
    pub(crate) fn is_at(self, path: &Path) -> bool {
        Self::of(path).is_ok_and(|there| there == self)
    }

    #[cfg(unix)]
    fn from(about: &Metadata) -> Self {
        use std::os::unix::fs::MetadataExt;
        Self((about.dev(), about.ino()))
    }

    /// An open file cannot be replaced there; when it was made tells enough.
    #[cfg(not(unix))]
    fn from(about: &Metadata) -> Self {
        Self(about.created().ok())
    }
}
