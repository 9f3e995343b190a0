//! Reading and writing the door's bytes: whole numbers are big-endian, lengths are fixed.

use crate::DoorError;

/// What is left to be read.
pub(crate) struct Rest<'a>(pub &'a [u8]);

impl<'a> Rest<'a> {
    pub(crate) fn take<const N: usize>(&mut self) -> Result<&'a [u8; N], DoorError> {
        let (taken, rest) = self.0.split_first_chunk().ok_or(DoorError::Damaged)?;
        self.0 = rest;
        Ok(taken)
    }

    pub(crate) fn number_u16(&mut self) -> Result<u16, DoorError> {
        self.take().copied().map(u16::from_be_bytes)
    }

    pub(crate) fn number_u32(&mut self) -> Result<u32, DoorError> {
        self.take().copied().map(u32::from_be_bytes)
    }

    pub(crate) fn number_u64(&mut self) -> Result<u64, DoorError> {
        self.take().copied().map(u64::from_be_bytes)
    }
}
