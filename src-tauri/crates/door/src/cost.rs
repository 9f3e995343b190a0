//! How much work one passphrase costs: Argon2id, RFC 9106.

use argon2::{Algorithm, Argon2, Error, Params, Version};
use zeroize::Zeroizing;

use crate::DoorError;

/// The most that a door may ask for, some seconds of work; beyond it somebody wants to hang the program.
const MOST: Cost = Cost { memory_kib: 256 * 1024, passes: 8, lanes: 16 };

/// Memory, passes and lanes of Argon2id.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cost {
    /// Memory (KiB).
    pub memory_kib: u32,
    /// Passes over the memory.
    pub passes: u32,
    /// Lanes.
    pub lanes: u32,
}

impl Cost {
    /// The second recommended choice of RFC 9106, section 4: 64 MiB, three passes, four lanes.
    pub const ORDINARY: Self = Self { memory_kib: 64 * 1024, passes: 3, lanes: 4 };
    /// The least that RFC 9106 allows; for files that protect nothing.
    pub const LEAST: Self = Self { memory_kib: 8, passes: 1, lanes: 1 };

    /// Stretches a passphrase to 32 bytes.
    pub(crate) fn stretch(self, passphrase: &str, salt: &[u8; 16]) -> Result<Zeroizing<[u8; 32]>, DoorError> {
        if self.memory_kib > MOST.memory_kib || self.passes > MOST.passes || self.lanes > MOST.lanes {
            return Err(DoorError::TooCostly);
        }
        let params =
            Params::new(self.memory_kib, self.passes, self.lanes, Some(32)).map_err(|_| DoorError::TooCostly)?;
        let mut stretched = Zeroizing::new([0; 32]);
        Argon2::new(Algorithm::Argon2id, Version::V0x13, params)
            .hash_password_into(passphrase.as_bytes(), salt, &mut *stretched)
            .map_err(|error| if error == Error::OutOfMemory { DoorError::NoMemory } else { DoorError::NoKey })?;
        Ok(stretched)
    }
}
