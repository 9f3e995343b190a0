//! The key of a notebook's pages. It never prints itself, and is wiped when it is let go.

use std::fmt;

use zeroize::{Zeroize, ZeroizeOnDrop, Zeroizing};

use crate::DoorError;

/// 256 random bits.
#[derive(Clone, PartialEq, Eq, Zeroize, ZeroizeOnDrop)]
pub struct FileKey(pub(crate) [u8; 32]);

impl FileKey {
    /// Makes a new one.
    ///
    /// # Errors
    /// When the operating system gives no randomness.
    pub fn random() -> Result<Self, DoorError> {
        random().map(Self)
    }

    /// Gives the key as SQLCipher takes a raw one.
    pub(crate) fn as_pragma(&self) -> Zeroizing<String> {
        use std::fmt::Write;
        let mut words = Zeroizing::new(String::with_capacity(67));
        words.push_str("x'");
        for byte in self.0 {
            // Writing into a text never fails.
            let _ = write!(words, "{byte:02x}");
        }
        words.push('\'');
        words
    }

    /// Attaches another database to a connection, under a name of its own; this is the key of that other one. Behind a
    /// door it is looked for as the connection's own is; a URI may say otherwise (`?vfs=`).
    ///
    /// # Errors
    /// When SQLite cannot open the file, or this key does not open it.
    pub fn attach(&self, connection: &rusqlite::Connection, file: &str, name: &str) -> rusqlite::Result<()> {
        connection.execute("ATTACH ?1 AS ?2 KEY ?3", (file, name, self.as_pragma().as_str())).map(|_| ())
    }

    /// Gives new pages a new key: `PRAGMA rekey`, one transaction of SQLite.
    ///
    /// # Errors
    /// When the pages cannot be written; they are then as they were.
    pub fn replace_on(&self, connection: &rusqlite::Connection) -> rusqlite::Result<()> {
        connection.pragma_update(None, "rekey", self.as_pragma().as_str())
    }
}

impl fmt::Debug for FileKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("FileKey(not shown)")
    }
}

/// Random bytes of the operating system.
pub(crate) fn random<const N: usize>() -> Result<[u8; N], DoorError> {
    let mut bytes = [0; N];
    getrandom::fill(&mut bytes).map_err(|_| DoorError::NoKey)?;
    Ok(bytes)
}
