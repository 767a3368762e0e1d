//! The trade's vocabulary: wire sizes, materials, insulations, cables, cords, plug configurations, devices.
//!
//! Words only. What a code says of them (a rating, an ampacity) stands in the published tables.

mod breaker;
mod cable;
mod configuration;
mod cord;
mod insulation;
mod raceway;
mod system;
mod wire;
mod word;

pub use breaker::{ContinuousRating, DeviceKind, Poles, TerminalMark};
pub use cable::{Cable, Conduit, Installation, Place};
pub use configuration::{Configuration, Contacts, Gender, Mating};
pub use cord::{CordType, Usage};
pub use insulation::Insulation;
pub use raceway::{Jacket, RacewayKind, Stranding, TradeSize};
pub use system::{Duty, Leg, System};
pub use wire::{Material, SizeSystem, WireSize};
pub use word::{Word, WordError, nearest};

pub(crate) use word::words;
