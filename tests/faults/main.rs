//! What may happen to a notebook: kills, power cuts, full disks, flipped bytes, wrong passphrases, hostile texts, and
//! whether it leaves a name in plain text or opens a connection. Each prints its figures (`make faults` shows them).
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests may stop at the first surprise")]

mod backups;
mod disk;
mod flips;
mod hostile;
mod kills;
mod passphrases;
mod places;
mod power;
mod refusals;
mod shelf;
mod sockets;
mod strings;
