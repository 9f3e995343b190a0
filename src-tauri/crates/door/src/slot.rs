//! One slot: what one passphrase opens.
//!
//! A slot has a key pair of its own. The passphrase unwraps the secret half, which unseals the file key. So a new file
//! key can be sealed to everybody without knowing anybody's passphrase. A mark made with the file key stands beside each
//! public key: who writes to the file without the key cannot put in a slot to which the next key would be sealed.
//!
//! The sealed box is that of `crypto_box`: the same bytes as libsodium's, one small construction. HPKE would
//! offer a choice of suites, of which nothing here makes use.

use chacha20poly1305::aead::{Aead, Payload};
use chacha20poly1305::{XChaCha20Poly1305, XNonce};
use crypto_box::aead::OsRng;
use crypto_box::{PublicKey, SecretKey};
use hmac::{Hmac, KeyInit as _, Mac};
use sha2::Sha256;
use uuid::Uuid;
use zeroize::Zeroizing;

use crate::bytes::Rest;
use crate::key::random;
use crate::{DoorError, FileKey};

/// A secret key of 32 bytes with its tag of 16.
const WRAPPED: usize = 48;
/// An ephemeral public key of 32 bytes, a tag of 16, and the file key.
const SEALED: usize = 80;
const MARK: usize = 32;

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
    now: Sealed,
    next: Option<Sealed>,
}

/// A file key that only this slot's secret key unseals.
#[derive(Clone, Copy)]
struct Sealed {
    key: [u8; SEALED],
    /// HMAC-SHA256 over the slot, made with the file key.
    mark: [u8; MARK],
}

impl Slot {
    /// Bytes of one slot in the file.
    pub(crate) const LENGTH: usize = 16 + 1 + 32 + 24 + WRAPPED + (SEALED + MARK) + 1 + (SEALED + MARK);

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
        let now = Sealed {
            key: seal(&public, key)?,
            mark: mark(door, id, kind, &public, key)?.finalize().into_bytes().into(),
        };
        Ok(Self { id, kind, public, nonce, wrapped, now, next: None })
    }

    /// Tries the stretched passphrase; none where it does not open this slot.
    pub(crate) fn open(&self, door: Uuid, stretched: &[u8; 32]) -> Option<SecretKey> {
        let payload = Payload { msg: &self.wrapped, aad: &bound(door, self.id, self.kind) };
        let bytes = Zeroizing::new(cipher(stretched).decrypt(&XNonce::from(self.nonce), payload).ok()?);
        SecretKey::from_slice(&bytes).ok()
    }

    /// The file key, and the next one where it is about to change.
    pub(crate) fn keys(&self, secret: &SecretKey) -> Result<(FileKey, Option<FileKey>), DoorError> {
        let next = self.next.as_ref().map(|next| unseal(secret, &next.key)).transpose()?;
        Ok((unseal(secret, &self.now.key)?, next))
    }

    /// Tells whether somebody with the file key made it, and with the next one where it is about to change.
    pub(crate) fn is_made_with(&self, door: Uuid, key: &FileKey, next: Option<&FileKey>) -> bool {
        let is_marked = |sealed: &Sealed, key| {
            mark(door, self.id, self.kind, &self.public, key).is_ok_and(|mark| mark.verify_slice(&sealed.mark).is_ok())
        };
        is_marked(&self.now, key)
            && match (&self.next, next) {
                (Some(sealed), Some(key)) => is_marked(sealed, key),
                (None, None) => true,
                _ => false,
            }
    }

    pub(crate) fn has_next(&self) -> bool {
        self.next.is_some()
    }

    /// Seals the next file key to whoever opens this slot.
    pub(crate) fn seal_next(&mut self, door: Uuid, key: &FileKey) -> Result<(), DoorError> {
        let mark = mark(door, self.id, self.kind, &self.public, key)?.finalize().into_bytes().into();
        self.next = Some(Sealed { key: seal(&self.public, key)?, mark });
        Ok(())
    }

    /// Puts the next key in force, or drops it.
    pub(crate) fn end_rotation(&mut self, next_is_in_force: bool) {
        if let Some(next) = self.next.take()
            && next_is_in_force
        {
            self.now = next;
        }
    }

    pub(crate) fn write(&self, to: &mut Vec<u8>) {
        to.extend(self.id.as_bytes());
        to.push(self.kind.code());
        to.extend(self.public);
        to.extend(self.nonce);
        to.extend(self.wrapped);
        self.now.write(to);
        to.push(u8::from(self.next.is_some()));
        self.next.unwrap_or(Sealed { key: [0; SEALED], mark: [0; MARK] }).write(to);
    }

    pub(crate) fn read(from: &mut Rest<'_>) -> Result<Self, DoorError> {
        let id = Uuid::from_bytes(*from.take()?);
        let kind = SlotKind::of(from.take::<1>()?[0]).ok_or(DoorError::Damaged)?;
        let (public, nonce, wrapped) = (*from.take()?, *from.take()?, *from.take()?);
        let now = Sealed::read(from)?;
        let has_next = match from.take::<1>()?[0] {
            0 => false,
            1 => true,
            _ => return Err(DoorError::Damaged),
        };
        let next = Sealed::read(from)?;
        Ok(Self { id, kind, public, nonce, wrapped, now, next: has_next.then_some(next) })
    }
}

impl Sealed {
    fn write(&self, to: &mut Vec<u8>) {
        to.extend(self.key);
        to.extend(self.mark);
    }

    fn read(from: &mut Rest<'_>) -> Result<Self, DoorError> {
        Ok(Self { key: *from.take()?, mark: *from.take()? })
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

/// What the file key says about a slot.
fn mark(door: Uuid, id: Uuid, kind: SlotKind, public: &[u8; 32], key: &FileKey) -> Result<Hmac<Sha256>, DoorError> {
    let mark = Hmac::<Sha256>::new_from_slice(&key.0).map_err(|_| DoorError::NoKey)?;
    Ok(mark.chain_update(b"evengap slot").chain_update(bound(door, id, kind)).chain_update(public))
}

fn seal(public: &[u8; 32], key: &FileKey) -> Result<[u8; SEALED], DoorError> {
    let sealed = PublicKey::from(*public).seal(&mut OsRng, &key.0).map_err(|_| DoorError::NoKey)?;
    sealed.try_into().map_err(|_| DoorError::NoKey)
}

fn unseal(secret: &SecretKey, sealed: &[u8; SEALED]) -> Result<FileKey, DoorError> {
    let bytes = Zeroizing::new(secret.unseal(sealed).map_err(|_| DoorError::Damaged)?);
    bytes.as_slice().try_into().map(FileKey).map_err(|_| DoorError::Damaged)
}
