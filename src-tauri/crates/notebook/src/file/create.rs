//! Makes a new notebook. It never takes the place of a file that is there already.

use std::path::Path;

use evengap_case::LocalTime;
use evengap_door::{Cost, Door, SlotKind};
use uuid::Uuid;

use super::{APPLICATION_ID, Identity, Notebook, beside, connect, migrations, settle};
use crate::gate::{self, Changed};
use crate::people::{self, Person};
use crate::{NotebookError, Passphrase, Role};

impl Notebook {
    /// Makes a new, empty notebook and opens it. Its first person is a surgeon and keeps it. `cost` is the work that
    /// each passphrase takes.
    ///
    /// # Errors
    /// When the file exists, its folder does not, the writer has no name, the passphrase is too short, or the disk
    /// refuses.
    pub fn create(
        path: &Path,
        passphrase: &Passphrase,
        writer: &str,
        cost: Cost,
        now: LocalTime,
    ) -> Result<Self, NotebookError> {
        let writer = writer.trim();
        if writer.is_empty() {
            return Err(NotebookError::NoWriter);
        }
        people::check_name(writer)?;
        passphrase.check_chosen()?;
        beside::claim(path)?;
        fill(path, passphrase, writer, cost, now).map_err(|error| {
            // The file is ours and worthless; leaving it would only block the name.
            let _ = std::fs::remove_file(path);
            error.at(path)
        })
    }
}

fn fill(
    path: &Path,
    passphrase: &Passphrase,
    writer: &str,
    cost: Cost,
    now: LocalTime,
) -> Result<Notebook, NotebookError> {
    let at_door = |error| NotebookError::of_door(path, error);
    let mark = Uuid::new_v4();
    let (mut door, key) = Door::new(cost).map_err(at_door)?;
    door.add(&key, mark, SlotKind::Person, passphrase.reveal()).map_err(at_door)?;
    door.write(path).map_err(at_door)?;
    let mut connection = connect(path, &key)?;
    settle(&connection)?;
    let person = Person { id: 1, mark, name: writer.to_owned(), role: Role::Surgeon, keeper: true };
    gate::write(&mut connection, |transaction| {
        transaction.pragma_update(None, "application_id", APPLICATION_ID)?;
        migrations::run(transaction)?;
        people::insert(transaction, &person, now)?;
        Ok(Changed { result: (), cases: Vec::new() })
    })?;
    let identity = Identity::of(path).map_err(|error| NotebookError::of_file(path, error))?;
    Ok(Notebook { connection, path: path.to_owned(), person, key, identity, kept_as: None, demonstration: false })
}
