//! The door itself: its slots, and its two copies in the file.
//!
//! Invariant: while one copy is written, the other one is whole and durable. A copy is magic, form, sequence number,
//! door identifier, cost, salt, number of slots, slots, and the SHA-256 of all that.

use std::fmt;
use std::io;
use std::path::Path;

use sha2::{Digest, Sha256};
use uuid::Uuid;

use crate::bytes::Rest;
use crate::key::random;
use crate::slot::{Slot, SlotKind};
use crate::vfs::InPlace;
use crate::{Cost, DoorError, FileKey, LENGTH};

const MAGIC: &[u8; 16] = b"evengap notebook";
const FORM: u16 = 1;
/// Where the two copies begin.
const PLACES: [u64; 2] = [0, 16 * 1024];
/// Bytes of one copy at most; the rest of each half is for the tries.
const COPY: usize = 15 * 1024;
/// Bytes of a copy that are no slots.
const AROUND: usize = 16 + 2 + 8 + 16 + 12 + 16 + 2 + 32;
const MOST_SLOTS: usize = (COPY - AROUND) / Slot::LENGTH;

/// Who may open one notebook.
#[derive(Clone)]
pub struct Door {
    id: Uuid,
    sequence: u64,
    cost: Cost,
    salt: [u8; 16],
    slots: Vec<Slot>,
}

/// What a passphrase opened.
#[derive(Debug)]
pub struct Unlocked {
    /// The slot, which is the person's mark.
    pub slot: Uuid,
    /// Whether it was a person's passphrase or the recovery sheet.
    pub kind: SlotKind,
    /// The key of the pages.
    pub key: FileKey,
    /// The key that the pages may have already, where it is about to change.
    pub next_key: Option<FileKey>,
}

impl Door {
    /// Makes a door without slots, and the key of the pages behind it.
    ///
    /// # Errors
    /// When the operating system gives no randomness.
    pub fn new(cost: Cost) -> Result<(Self, FileKey), DoorError> {
        let id = Uuid::from_bytes(random()?);
        Ok((Self { id, sequence: 0, cost, salt: random()?, slots: Vec::new() }, FileKey::random()?))
    }

    /// Tells whether a file begins as a notebook, in either copy.
    ///
    /// # Errors
    /// When the file cannot be read.
    pub fn is_at(path: &Path) -> io::Result<bool> {
        let mut file = InPlace::open(path, false)?;
        let mut begins = |place| Ok::<_, io::Error>(file.read(place, MAGIC.len())? == MAGIC);
        Ok(begins(PLACES[0])? || begins(PLACES[1])?)
    }

    /// Reads the door of a file: the newer of its whole copies.
    ///
    /// # Errors
    /// When the file begins otherwise, both copies are damaged, it is of a newer program, or it cannot be read.
    pub fn read(path: &Path) -> Result<Self, DoorError> {
        let mut file = InPlace::open(path, false)?;
        let [one, other] = [file.read(PLACES[0], COPY)?, file.read(PLACES[1], COPY)?];
        match [Self::parse(&one), Self::parse(&other)] {
            [Ok(one), Ok(other)] => Ok(if one.sequence >= other.sequence { one } else { other }),
            [Ok(one), Err(_)] | [Err(_), Ok(one)] => Ok(one),
            [Err(newer @ DoorError::Newer { .. }), Err(_)] | [Err(_), Err(newer @ DoorError::Newer { .. })] => {
                Err(newer)
            }
            [Err(DoorError::NotADoor), Err(DoorError::NotADoor)] => Err(DoorError::NotADoor),
            _ => Err(DoorError::Damaged),
        }
    }

    /// Writes the door in place into a file that is there, be it empty: one copy, durably, then the other. What lies
    /// behind it stays as it is. Who writes what was read before holds a write transaction on the database meanwhile, so
    /// that two programs do not undo one another.
    ///
    /// # Errors
    /// When the file is something else, or the operating system refuses; the file then still has one whole copy of a
    /// door, the one before or this one.
    pub fn write(&mut self, path: &Path) -> Result<(), DoorError> {
        let mut file = InPlace::open(path, true)?;
        let length = file.length()?;
        let is_anothers = |start: Vec<u8>| start != MAGIC && start.iter().any(|byte| *byte != 0);
        if is_anothers(file.read(PLACES[0], MAGIC.len())?) && is_anothers(file.read(PLACES[1], MAGIC.len())?) {
            return Err(DoorError::NotADoor);
        }
        // A new file is as long as its door from the beginning, so that the database never overlaps it.
        if length < LENGTH {
            file.set_length(LENGTH)?;
        }
        self.sequence += 1;
        let copy = self.bytes();
        for place in PLACES {
            file.write(place, &copy)?;
            file.sync()?;
        }
        Ok(())
    }

    /// Tells how much work one passphrase costs here.
    pub fn cost(&self) -> Cost {
        self.cost
    }

    /// Lists who can open it.
    pub fn slots(&self) -> impl Iterator<Item = (Uuid, SlotKind)> {
        self.slots.iter().map(|slot| (slot.id, slot.kind))
    }

    /// Adds a slot.
    ///
    /// # Errors
    /// When the passphrase opens another slot, there are too many, the key of the pages is being changed, or the door
    /// was not made with that key.
    pub fn add(&mut self, key: &FileKey, id: Uuid, kind: SlotKind, passphrase: &str) -> Result<(), DoorError> {
        if self.slots.len() >= MOST_SLOTS {
            return Err(DoorError::Full(MOST_SLOTS));
        }
        self.put(key, id, kind, passphrase)
    }

    /// Gives a slot another passphrase.
    ///
    /// # Errors
    /// As for [`Door::add`], or when there is no such slot.
    pub fn change(&mut self, key: &FileKey, id: Uuid, passphrase: &str) -> Result<(), DoorError> {
        let kind = self.slots.iter().find(|slot| slot.id == id).map(|slot| slot.kind).ok_or(DoorError::NoSuchSlot)?;
        self.put(key, id, kind, passphrase)
    }

    /// Takes a slot away; tells whether it was there.
    pub fn remove(&mut self, id: Uuid) -> bool {
        let before = self.slots.len();
        self.slots.retain(|slot| slot.id != id);
        self.slots.len() < before
    }

    /// Tries a passphrase on every slot. None where it opens none.
    ///
    /// # Errors
    /// When the door asks for too much work, or a slot was put in or changed by somebody without the key.
    pub fn unlock(&self, passphrase: &str) -> Result<Option<Unlocked>, DoorError> {
        let stretched = self.cost.stretch(passphrase, &self.salt)?;
        let opened = self.slots.iter().find_map(|slot| Some((slot, slot.open(self.id, &stretched)?)));
        let Some((slot, secret)) = opened else { return Ok(None) };
        let (key, next_key) = slot.keys(&secret)?;
        self.check(&key, next_key.as_ref())?;
        Ok(Some(Unlocked { slot: slot.id, kind: slot.kind, key, next_key }))
    }

    /// Makes a new key for the pages and seals it to everybody, beside `key`, the one in force.
    ///
    /// # Errors
    /// When a change of keys is under way already, a slot was put in by somebody without the key, who would learn the
    /// new one, or no key can be made.
    pub fn begin_rotation(&mut self, key: &FileKey) -> Result<FileKey, DoorError> {
        self.check_settled(key)?;
        let (id, next) = (self.id, FileKey::random()?);
        self.slots.iter_mut().try_for_each(|slot| slot.seal_next(id, &next))?;
        Ok(next)
    }

    /// Ends the change of keys: with the next key in force, or with the one before.
    pub fn end_rotation(&mut self, next_is_in_force: bool) {
        self.slots.iter_mut().for_each(|slot| slot.end_rotation(next_is_in_force));
    }

    fn put(&mut self, key: &FileKey, id: Uuid, kind: SlotKind, passphrase: &str) -> Result<(), DoorError> {
        self.check_settled(key)?;
        let stretched = self.cost.stretch(passphrase, &self.salt)?;
        if self.slots.iter().any(|slot| slot.id != id && slot.open(self.id, &stretched).is_some()) {
            return Err(DoorError::PassphraseTaken);
        }
        let slot = Slot::new(self.id, id, kind, &stretched, key)?;
        match self.slots.iter_mut().find(|slot| slot.id == id) {
            Some(there) => *there = slot,
            None => self.slots.push(slot),
        }
        Ok(())
    }

    /// Every slot was made by somebody who had the key.
    fn check(&self, key: &FileKey, next: Option<&FileKey>) -> Result<(), DoorError> {
        let is_ours = |slot: &Slot| slot.is_made_with(self.id, key, next);
        if self.slots.iter().all(is_ours) { Ok(()) } else { Err(DoorError::Forged) }
    }

    fn check_settled(&self, key: &FileKey) -> Result<(), DoorError> {
        if self.slots.iter().any(Slot::has_next) { Err(DoorError::Rotating) } else { self.check(key, None) }
    }

    fn bytes(&self) -> Vec<u8> {
        let mut bytes = Vec::with_capacity(COPY);
        bytes.extend(MAGIC);
        bytes.extend(FORM.to_be_bytes());
        bytes.extend(self.sequence.to_be_bytes());
        bytes.extend(self.id.as_bytes());
        for number in [self.cost.memory_kib, self.cost.passes, self.cost.lanes] {
            bytes.extend(number.to_be_bytes());
        }
        bytes.extend(self.salt);
        bytes.extend(u16::try_from(self.slots.len()).unwrap_or(u16::MAX).to_be_bytes());
        self.slots.iter().for_each(|slot| slot.write(&mut bytes));
        let sum: [u8; 32] = Sha256::digest(&bytes).into();
        bytes.extend(sum);
        bytes
    }

    fn parse(copy: &[u8]) -> Result<Self, DoorError> {
        let mut rest = Rest(copy);
        if rest.take::<16>().ok() != Some(MAGIC) {
            return Err(DoorError::NotADoor);
        }
        let form = rest.number_u16()?;
        if form > FORM {
            return Err(DoorError::Newer { theirs: form, ours: FORM });
        }
        let sequence = rest.number_u64()?;
        let id = Uuid::from_bytes(*rest.take()?);
        let cost = Cost { memory_kib: rest.number_u32()?, passes: rest.number_u32()?, lanes: rest.number_u32()? };
        let salt = *rest.take()?;
        let number = usize::from(rest.number_u16()?);
        if form != FORM || number > MOST_SLOTS {
            return Err(DoorError::Damaged);
        }
        let slots = (0..number).map(|_| Slot::read(&mut rest)).collect::<Result<_, _>>()?;
        let summed = copy.len() - rest.0.len();
        let sum: [u8; 32] = Sha256::digest(&copy[..summed]).into();
        if rest.take::<32>()? != &sum {
            return Err(DoorError::Damaged);
        }
        Ok(Self { id, sequence, cost, salt, slots })
    }
}

impl fmt::Debug for Door {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Door")
            .field("sequence", &self.sequence)
            .field("slots", &self.slots.len())
            .finish_non_exhaustive()
    }
}
