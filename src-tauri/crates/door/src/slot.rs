//! One slot: what one passphrase opens.
//!
//! A slot has a key pair of its own. The passphrase unwraps the secret half, which unseals the file key. So a new file
//! key can be sealed to everybody without knowing anybody's passphrase.

use chacha20poly1305::aead::{Aead, KeyInit, Payload};
use chacha20poly1305::{XChaCha20Poly1305, XNonce};
use crypto_box::aead::OsRng;
use crypto_box::{PublicKey, SecretKey};
use uuid::Uuid;
use zeroize::Zeroizing;

use crate::bytes::Rest;
use crate::key::random;
use crate::{DoorError, FileKey};

/// A secret key of 32 bytes with its tag of 16.
const WRAPPED: usize = 48;
/// An ephemeral public key of 32 bytes, a tag of 16, and the file key.
const SEALED: usize = 80;

/// Who opens with it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SlotKind {
    /// A person.
    Person,
    /// The printed recovery sheet.
    Recovery,
}

/// What one passphrase opens.
#[derive(Clone)]
pub(crate) struct Slot {
    pub(crate) id: Uuid,
    pub(crate) kind: SlotKind,
    public: [u8; 32],
    nonce: [u8; 24],
    wrapped: [u8; WRAPPED],
    sealed: [u8; SEALED],
    pub(crate) sealed_next: Option<[u8; SEALED]>,
}

impl Slot {
    /// Bytes of one slot in the file.
    pub(crate) const LENGTH: usize = 16 + 1 + 32 + 24 + WRAPPED + SEALED + 1 + SEALED;

    /// Makes a slot. `stretched` comes from the passphrase; `door` is the door's own identifier.
    pub(crate) fn new(
        door: Uuid,
        id: Uuid,
        kind: SlotKind,
        stretched: &[u8; 32],
        key: &FileKey,
    ) -> Result<Self, DoorError> {
        let secret = SecretKey::from(random()?);
        let (nonce, bytes) = (random()?, Zeroizing::new(secret.to_bytes()));
        let payload = Payload { msg: &*bytes, aad: &bound(door, id, kind) };
        let wrapped = cipher(stretched).encrypt(&XNonce::from(nonce), payload).map_err(|_| DoorError::NoKey)?;
        let public = *secret.public_key().as_bytes();
        let wrapped = wrapped.try_into().map_err(|_| DoorError::NoKey)?;
        Ok(Self { id, kind, public, nonce, wrapped, sealed: seal(&public, key)?, sealed_next: None })
    }

    /// Tries the stretched passphrase; none where it does not open this slot.
    pub(crate) fn open(&self, door: Uuid, stretched: &[u8; 32]) -> Option<SecretKey> {
        let payload = Payload { msg: &self.wrapped, aad: &bound(door, self.id, self.kind) };
        let bytes = Zeroizing::new(cipher(stretched).decrypt(&XNonce::from(self.nonce), payload).ok()?);
        SecretKey::from_slice(&bytes).ok()
    }

    /// The file key, and the next one where it is about to change.
    pub(crate) fn keys(&self, secret: &SecretKey) -> Result<(FileKey, Option<FileKey>), DoorError> {
        let next = self.sealed_next.as_ref().map(|sealed| unseal(secret, sealed)).transpose()?;
        Ok((unseal(secret, &self.sealed)?, next))
    }

    /// Seals the next file key to whoever opens this slot.
    pub(crate) fn seal_next(&mut self, key: &FileKey) -> Result<(), DoorError> {
        self.sealed_next = Some(seal(&self.public, key)?);
        Ok(())
    }

    /// Puts the next key in force, or drops it.
    pub(crate) fn end_rotation(&mut self, next_is_in_force: bool) {
        if let Some(next) = self.sealed_next.take()
            && next_is_in_force
        {
            self.sealed = next;
        }
    }

    pub(crate) fn write(&self, to: &mut Vec<u8>) {
        to.extend(self.id.as_bytes());
        to.push(self.kind.code());
        to.extend(self.public);
        to.extend(self.nonce);
        to.extend(self.wrapped);
        to.extend(self.sealed);
        to.push(u8::from(self.sealed_next.is_some()));
        to.extend(self.sealed_next.unwrap_or([0; SEALED]));
    }

    pub(crate) fn read(from: &mut Rest<'_>) -> Result<Self, DoorError> {
        let id = Uuid::from_bytes(*from.take()?);
        let kind = SlotKind::of(from.take::<1>()?[0]).ok_or(DoorError::Damaged)?;
        let (public, nonce, wrapped, sealed) = (*from.take()?, *from.take()?, *from.take()?, *from.take()?);
        let has_next = match from.take::<1>()?[0] {
            0 => false,
            1 => true,
            _ => return Err(DoorError::Damaged),
        };
        let next = *from.take()?;
        Ok(Self { id, kind, public, nonce, wrapped, sealed, sealed_next: has_next.then_some(next) })
    }
}

impl SlotKind {
    const fn code(self) -> u8 {
        match self {
            Self::Person => 1,
            Self::Recovery => 2,
        }
    }

    const fn of(code: u8) -> Option<Self> {
        match code {
            1 => Some(Self::Person),
            2 => Some(Self::Recovery),
            _ => None,
        }
    }
}

fn cipher(stretched: &[u8; 32]) -> XChaCha20Poly1305 {
    XChaCha20Poly1305::new(stretched.into())
}

/// What a wrapped key is bound to: it cannot be moved to another slot or another door.
fn bound(door: Uuid, id: Uuid, kind: SlotKind) -> [u8; 33] {
    let mut bound = [0; 33];
    bound[..16].copy_from_slice(door.as_bytes());
    bound[16..32].copy_from_slice(id.as_bytes());
    bound[32] = kind.code();
    bound
}

fn seal(public: &[u8; 32], key: &FileKey) -> Result<[u8; SEALED], DoorError> {
    let sealed = PublicKey::from(*public).seal(&mut OsRng, &key.0).map_err(|_| DoorError::NoKey)?;
    sealed.try_into().map_err(|_| DoorError::NoKey)
}

fn unseal(secret: &SecretKey, sealed: &[u8; SEALED]) -> Result<FileKey, DoorError> {
    let bytes = Zeroizing::new(secret.unseal(sealed).map_err(|_| DoorError::Damaged)?);
    bytes.as_slice().try_into().map(FileKey).map_err(|_| DoorError::Damaged)
}
